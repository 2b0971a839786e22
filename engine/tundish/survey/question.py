"""Questions: the facts that are not known yet, each with all the rules it would help decide."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import field

from tundish.findings.finding import SEVERITIES, Finding, Open
from tundish.groundwork.dataclass import dataclass
from tundish.rulebook.model.choices import Severity

_POSITION = re.compile(r"\[[0-9]+\]")


@dataclass(slots=True)
class Question:
    """One thing to find out, of one item or of many alike.

    Attributes:
        asked: What to ask, how and whom; of the first item where there are many.
        facts: The facts that it would settle, by path.
        decides: The findings that wait for it, without repetition.
    """

    asked: Open
    facts: dict[str, Open] = field(default_factory=dict)
    decides: dict[tuple[str, str], Finding] = field(default_factory=dict)

    @property
    def severity(self) -> Severity:
        """Return the severity of the worst that waits for it."""
        return min((finding.severity for finding in self.decides.values()), key=SEVERITIES.index)

    @property
    def label(self) -> str:
        """Return what the fact is called, without the item where there are many."""
        label = self.asked.label
        return label if len(self.facts) == 1 else label.rpartition(" (")[0] or label

    def others(self, finding: Finding) -> list[str]:
        """Return the labels of what else must be known before a finding is decided."""
        return list(
            dict.fromkeys(fact.label for fact in finding.open if fact.path not in self.facts)
        )


def questions(undecided: Iterable[Finding]) -> list[Question]:
    """Turn findings that wait for facts into facts that findings wait for.

    Args:
        undecided: The findings; those that wait for no fact are passed over.

    Returns:
        Questions, those first that decide the most serious, then those that decide the most.
    """
    by_key: dict[tuple[str, str], Question] = {}
    for finding in undecided:
        for fact in finding.open:
            # The same question about twelve pipe runs is one question for whoever goes there.
            key = (_POSITION.sub("", fact.path), fact.question)
            question = by_key.setdefault(key, Question(fact))
            question.facts[fact.path] = fact
            question.decides[finding.rule, finding.item] = finding
    return sorted(by_key.values(), key=_order)


def _order(question: Question) -> tuple[int, int, str]:
    rank = SEVERITIES.index(question.severity)
    return (rank, -len(question.decides), question.asked.path)
