"""A survey: what is not known yet, ranked by what it would decide, by who can answer."""

from __future__ import annotations

from collections.abc import Iterable

from tundish.findings.finding import SEVERITIES, Assessment, Finding, Open
from tundish.groundwork.dataclass import dataclass
from tundish.job.hints import written_path
from tundish.job.model.paths import without_positions
from tundish.job.model.schema import Entry
from tundish.job.schema import job_schema
from tundish.rulebook.evaluate.judge import Verdict
from tundish.rulebook.forms.walk import Walk
from tundish.rulebook.model.choices import Severity
from tundish.rulebook.rulebook import Rulebook
from tundish.survey.group_questions import questions_in_group


@dataclass(frozen=True, slots=True)
class Inquiry:
    """One thing to find out, of one item or of many alike.

    Attributes:
        asked: What to ask, how and whom; of the first item where there are many. It is what a
            file has: a pipe rather than its wall.
        facts: The facts that an answer settles, by path.
        directly: The findings whose rule reads the fact itself.
        through: The findings whose rule reads it through a figure that is worked out.
        inside: Where a group or list is asked for as a whole, the few things to ask of it.
    """

    asked: Open
    facts: tuple[Open, ...]
    directly: tuple[Finding, ...]
    through: tuple[Finding, ...]
    inside: tuple[Entry, ...] = ()

    @property
    def findings(self) -> tuple[Finding, ...]:
        """Return all findings that wait for it."""
        return (*self.directly, *self.through)

    @property
    def severity(self) -> Severity:
        """Return the severity of the worst that waits for it."""
        return min((finding.severity for finding in self.findings), key=SEVERITIES.index)

    @property
    def places(self) -> tuple[str, ...]:
        """Return the paths at which a file has the answers."""
        return tuple(dict.fromkeys(written_path(fact.path) for fact in self.facts))

    @property
    def alone(self) -> int:
        """Return how many findings wait for nothing else."""
        own = {fact.path for fact in self.facts}
        return sum({fact.path for fact in finding.open} <= own for finding in self.findings)


def inquiries(
    assessment: Assessment, rulebook: Rulebook, later: bool = False
) -> tuple[Inquiry, ...]:
    """Rank what is not known.

    Those come first that decide the most serious; among equals those that decide something by
    themselves, then those that decide the most rules, and those that decide them directly.

    What a visit must bring home is asked at the survey, and what can be learnt on the telephone at
    the enquiry, even where the rules that wait for it are due later: nobody goes there twice.

    Args:
        assessment: The findings.
        rulebook: The rules they were made by.
        later: Whether to ask everything that can wait for a later stage too.
    """
    walk = Walk.built_in()
    facts: dict[tuple[str, str], dict[str, Open]] = {}
    decides: dict[tuple[str, str], dict[tuple[str, str], Finding]] = {}
    for finding in assessment.of(Verdict.UNDECIDED):
        for fact in finding.open:
            if later or finding.due or walk.is_asked_at(assessment.stage, fact.path, fact.who):
                place = _as_written(fact)
                key = (without_positions(place.path), place.question)
                facts.setdefault(key, {}).setdefault(fact.path, fact)
                decides.setdefault(key, {})[finding.rule, finding.item] = finding
    ranked = [
        _inquiry(key[0], list(asked.values()), decides[key].values(), assessment.stage, rulebook)
        for key, asked in facts.items()
    ]
    return tuple(sorted(ranked, key=_rank))


def _as_written(fact: Open) -> Open:
    """Return the question for what a file has in place of a fact, which is mostly the fact."""
    path = written_path(fact.path)
    entry = job_schema().find(without_positions(path)) if path != fact.path else None
    if entry is None:
        return fact
    return Open(path, entry.label, entry.question, entry.how, entry.who, fact.limit)


def _inquiry(
    path: str, facts: list[Open], findings: Iterable[Finding], stage: str, rulebook: Rulebook
) -> Inquiry:
    waiting = list(findings)
    rules = [rulebook.rules[name] for name in dict.fromkeys(finding.rule for finding in waiting)]
    reads = {rule.name: path in rulebook.places_named[rule.name] for rule in rules}
    return Inquiry(
        _as_written(facts[0]),
        tuple(facts),
        tuple(finding for finding in waiting if reads[finding.rule]),
        tuple(finding for finding in waiting if not reads[finding.rule]),
        questions_in_group(path, rules, rulebook, stage),
    )


def _rank(inquiry: Inquiry) -> tuple[int, int, int, int, str]:
    rules = {finding.rule for finding in inquiry.findings}
    return (
        SEVERITIES.index(inquiry.severity),
        -min(inquiry.alone, 1),
        -len(rules),
        -len(inquiry.directly),
        inquiry.asked.path,
    )
