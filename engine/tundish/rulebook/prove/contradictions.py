"""Contradictions: two rules that no value of a fact meets together, on some job.

Looked for where both rules name the fact as one that mending may change. The jobs are made of the
cases that prove the rules, two laid together; the values are those at which either rule turns.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import combinations
from typing import Any

from tundish.groundwork.dataclass import dataclass
from tundish.job.changes import Change, put_into_data
from tundish.job.job import Job
from tundish.job.model.kinds import QuantityKind
from tundish.job.reader import nested_data
from tundish.rulebook.evaluate.judge import Verdict, judge
from tundish.rulebook.model.rule import Rule
from tundish.rulebook.prove.case_run import names_country, possible_facts
from tundish.rulebook.rulebook import Rulebook
from tundish.text.merge import merge
from tundish.units.format import show

_STEPS = tuple(10 ** (power / 8) for power in range(-24, 25))
_MOST_JOBS = 12


@dataclass(frozen=True, slots=True)
class Contradiction:
    """Two rules at odds.

    Attributes:
        rule: Name of a rule.
        other: Name of the other.
        path: The fact that both would have changed.
        given: The facts of a job on which no value of it meets both.
    """

    rule: str
    other: str
    path: str
    given: Mapping[str, Any]


def contradictions(rulebook: Rulebook) -> Iterator[Contradiction]:
    """Search for rules at odds.

    Args:
        rulebook: The rulebook.

    Yields:
        The first job found for each two rules and fact; that none is found proves nothing.
    """
    by_fact: dict[str, list[Rule]] = {}
    for rule in rulebook.rules.values():
        for path in rule.adjust:
            if rule.each is None and isinstance(Job.kind_at(path), QuantityKind):
                by_fact.setdefault(path, []).append(rule)
    for path, rules in by_fact.items():
        for rule, other in combinations(rules, 2):
            job = _job_at_odds(rule, other, path, rulebook)
            if job is not None:
                yield Contradiction(rule.name, other.name, path, job)


def _job_at_odds(rule: Rule, other: Rule, path: str, rulebook: Rulebook) -> dict[str, Any] | None:
    for data, value in _jobs(rule, other, path, rulebook):
        met = [_met(rule, other, path, data, text, rulebook) for text in _values(path, value)]
        alone = any(first for first, _ in met) and any(second for _, second in met)
        if alone and not any(first and second for first, second in met):
            return data
    return None


def _jobs(
    rule: Rule, other: Rule, path: str, rulebook: Rulebook
) -> Iterator[tuple[dict[str, Any], float]]:
    """Give jobs made of a case of each rule, with the value that one of them has."""
    job_count = 0
    for first in rule.cases:
        for second in other.cases:
            if "met" not in (first.outcome, second.outcome) or job_count == _MOST_JOBS:
                continue
            data = merge(nested_data(second.given), nested_data(first.given))
            facts = possible_facts(data, rulebook)
            value = facts.values.get(path) if facts is not None else None
            if isinstance(value, float) and value > 0:
                job_count += 1
                yield data, value


def _values(path: str, value: float) -> Iterator[str]:
    """Give values over the whole range that is plausible for a figure of this size."""
    kind = Job.kind_at(path)
    assert isinstance(kind, QuantityKind)
    for step in _STEPS:
        text = show(value * step, kind.unit, digits=9)
        try:
            kind.read(text)
        except ValueError:
            continue
        yield text


def _met(
    rule: Rule, other: Rule, path: str, data: dict[str, Any], text: str, rulebook: Rulebook
) -> tuple[bool, bool]:
    facts = possible_facts(put_into_data(data, Change(path, 0.0, text), text), rulebook)
    if facts is None:
        return False, False
    if not names_country(facts):
        rule, other, rulebook = rule.as_written, other.as_written, rulebook.as_written
    session = rulebook.session(facts.values)
    is_met, is_other_met = (
        next(iter(judge(asked, facts, session))).verdict is Verdict.MET for asked in (rule, other)
    )
    return is_met, is_other_met
