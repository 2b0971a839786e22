"""A survey: what is not known yet, ranked by what it would decide, by who can answer."""

from __future__ import annotations

from collections.abc import Iterable

from tundish.assessment.finding import SEVERITIES, Assessment, Finding, Open
from tundish.groundwork.dataclass import dataclass
from tundish.job.paths import without_positions
from tundish.rulebook.judging import Verdict
from tundish.rulebook.reads import facts_read_directly
from tundish.rulebook.rulebook import Rulebook
from tundish.rulebook.shapes import Severity


@dataclass(frozen=True, slots=True)
class Inquiry:
    """One thing to find out, of one item or of many alike.

    Attributes:
        asked: What to ask, how and whom; of the first item where there are many.
        facts: The facts that an answer settles, by path.
        directly: The findings whose rule reads the fact itself.
        through: The findings whose rule reads it through a figure that is worked out.
    """

    asked: Open
    facts: tuple[Open, ...]
    directly: tuple[Finding, ...]
    through: tuple[Finding, ...]

    @property
    def findings(self) -> tuple[Finding, ...]:
        """Return all findings that wait for it."""
        return (*self.directly, *self.through)

    @property
    def severity(self) -> Severity:
        """Return the severity of the worst that waits for it."""
        return min((one.severity for one in self.findings), key=SEVERITIES.index)

    @property
    def alone(self) -> int:
        """Return how many findings wait for nothing else."""
        own = {one.path for one in self.facts}
        return sum({fact.path for fact in one.open} <= own for one in self.findings)


def inquiries(
    assessment: Assessment, rulebook: Rulebook, later: bool = False
) -> tuple[Inquiry, ...]:
    """Rank what is not known.

    Those come first that decide the most serious; among equals those that decide something by
    themselves, then those that decide the most rules, and those that decide them directly.

    Args:
        assessment: The findings.
        rulebook: The rules they were made by.
        later: Whether to ask what can wait for a later stage too.
    """
    waiting = [one for one in assessment.of(Verdict.UNDECIDED) if later or one.due]
    grouped: dict[tuple[str, str], dict[str, Open]] = {}
    decides: dict[tuple[str, str], dict[tuple[str, str], Finding]] = {}
    for finding in waiting:
        for one in finding.open:
            key = (without_positions(one.path), one.question)
            grouped.setdefault(key, {}).setdefault(one.path, one)
            decides.setdefault(key, {})[finding.rule, finding.item] = finding
    found = [
        _inquiry(path, list(facts.values()), decides[path, question].values(), rulebook)
        for (path, question), facts in grouped.items()
    ]
    return tuple(sorted(found, key=_rank))


def _inquiry(
    path: str, facts: list[Open], findings: Iterable[Finding], rulebook: Rulebook
) -> Inquiry:
    told = list(findings)
    directly = tuple(one for one in told if path in facts_read_directly(rulebook.rules[one.rule]))
    return Inquiry(
        facts[0], tuple(facts), directly, tuple(one for one in told if one not in directly)
    )


def _rank(inquiry: Inquiry) -> tuple[int, int, int, int, str]:
    rules = {one.rule for one in inquiry.findings}
    return (
        SEVERITIES.index(inquiry.severity),
        -min(inquiry.alone, 1),
        -len(rules),
        -len(inquiry.directly),
        inquiry.asked.path,
    )
