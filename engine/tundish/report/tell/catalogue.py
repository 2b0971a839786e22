"""The catalogue: the rules of a rulebook, topic by topic."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.findings.finding import SEVERITIES
from tundish.report.page.line import GAP, Line
from tundish.report.tell.phrases import counted, listed
from tundish.rulebook.model.rule import Rule
from tundish.rulebook.rulebook import Rulebook


def catalogue_lines(rulebook: Rulebook, topic: str = "") -> Iterator[Line]:
    """Give the rules with their severity and name.

    Args:
        rulebook: The rulebook.
        topic: The one topic to give; all of them if left out.
    """
    topics = [topic] if topic else rulebook.topics()
    listed_rules: list[Rule] = []
    for at, name in enumerate(topics):
        rules = [rule for rule in rulebook.rules.values() if rule.topic == name]
        if at:
            yield GAP
        yield Line("section", name.replace("-", " "))
        for rule in sorted(rules, key=lambda rule: (SEVERITIES.index(rule.severity), rule.name)):
            yield Line("finding", rule.title, severity=rule.severity)
            yield Line("entry", f"{rule.name}{_marks(rule)}")
        listed_rules += rules
    yield from (GAP, Line("words", _summary(listed_rules, len(topics))))


def _summary(rules: list[Rule], topics: int) -> str:
    numbers = [
        f"{sum(rule.severity == severity for rule in rules)} {severity}" for severity in SEVERITIES
    ]
    memory = sum(rule.from_memory for rule in rules)
    where = counted(topics, "topic")
    text = f"{counted(len(rules), 'rule')} in {where}: {', '.join(numbers)}.".capitalize()
    return f"{text} Written from memory in part: {counted(memory, 'rule')}." if memory else text


def _marks(rule: Rule) -> str:
    """Return where a rule holds, if not everywhere, and whether it rests on memory."""
    where = f" [in {listed(rule.regions)} alone]" if rule.regions else ""
    if rule.overridden:
        where = f" [not in {listed([override.region for override in rule.overridden])}]"
    return where + (" [from memory]" if rule.from_memory else "")
