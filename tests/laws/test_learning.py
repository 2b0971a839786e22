"""Learning a fact never turns one decided verdict into another, unless the finding told it.

A finding tells what it takes for granted: that `assume(...)` let a fallback stand in, or that
something was asked until, or once, a fact is known. Nothing else may hang on a fact left out.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from random import Random
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from laws.thinning import BOOK, SAMPLES, each_left_out, read_again, sample_facts, thinned
from tundish import Rulebook, Verdict
from tundish.groundwork.open_list import OpenList
from tundish.job.facts import Facts
from tundish.rulebook.evaluate.evaluator import Outcome
from tundish.rulebook.evaluate.judge import explain_judgement, judge
from tundish.rulebook.evaluate.provisions import Need, ask, explain_provision
from tundish.rulebook.model.rule import Rule
from tundish.rulebook.prove.case_run import facts_of, rulebook_for
from verdicts import verdicts_by_rule

UNDECIDED = Verdict.UNDECIDED


def turned(before: Outcome, after: Outcome) -> list[int | None]:
    """Return the positions at which a decided verdict is another now; None for the whole job."""
    if isinstance(before, tuple) and isinstance(after, tuple):
        pairs = enumerate(zip(before, after, strict=True), start=1)
        return [at for at, (was, now) in pairs if was is not UNDECIDED and was is not now]
    later = after if isinstance(after, tuple) else (after,)
    changed = before is not UNDECIDED and any(verdict is not before for verdict in later)
    return [None] if changed else []


def told(rule: Rule, facts: Facts, position: int | None, book: Rulebook) -> frozenset[str]:
    """Return the facts that a finding says it takes for granted until they are known."""
    judgements = judge(rule, facts, book.session(facts.values))
    judgement = next(one for one in judgements if position in (None, one.position))
    steps = explain_judgement(rule, judgement, facts, book.explainer(facts))
    return frozenset[str]().union(*(step.assumed for step in steps if step))


def tells(assumed: frozenset[str], learned: str) -> bool:
    """Say whether what is learned, or a part of it, is among what was taken for granted."""
    return any(
        path == learned
        or path.startswith((f"{learned}.", f"{learned}["))
        or learned.startswith(f"{path}.")
        for path in assumed
    )


def untold(
    rule: Rule, before: Outcome, after: Outcome, learned: list[str], facts: Facts, book: Rulebook
) -> Iterator[object]:
    """Give each verdict that learning turns, and no finding told that it might."""
    for position in turned(before, after):
        assumed = told(rule, facts, position, book)
        if not any(tells(assumed, path) for path in learned):
            yield rule.name, position, learned[:5], before, after


@pytest.mark.parametrize("at", range(len(SAMPLES)))
def test_no_fact_of_a_sample_job_turns_a_decided_verdict(at: int) -> None:
    whole = sample_facts(at)
    after = verdicts_by_rule(whole.values)
    wrong: list[object] = []
    for path, left in each_left_out(whole.values):
        for name, was in verdicts_by_rule(left).items():
            if was != (now := after[name]):
                facts = read_again(left, whole)
                wrong += untold(BOOK.rules[name], was, now, [path], facts, BOOK)
    assert not wrong


def test_no_fact_of_a_case_turns_a_decided_verdict() -> None:
    wrong: list[object] = []
    for named in BOOK.rules.values():
        for case in named.cases:
            facts = facts_of(case, named, BOOK)
            assert isinstance(facts, Facts)
            book = rulebook_for(facts, BOOK)
            rule = book.rules[named.name]
            after = verdicts(rule, facts, book)
            for path, left in each_left_out(facts.values):
                less = read_again(left, facts)
                before = verdicts(rule, less, book)
                if before != after:
                    wrong += untold(rule, before, after, [path], less, book)
    assert not wrong


def test_no_fact_of_a_case_turns_whether_a_part_is_needed() -> None:
    wrong: list[object] = []
    for named in BOOK.provisions.values():
        for case in named.cases:
            facts = facts_of(case, named, BOOK)
            assert isinstance(facts, Facts)
            book = rulebook_for(facts, BOOK)
            part = book.provisions[named.name]
            after = ask(part, book.session(facts.values)).need
            for path, left in each_left_out(facts.values):
                before = ask(part, book.session(left)).need
                if before in (Need.UNDECIDED, after):
                    continue
                steps = explain_provision(part, book.explainer(read_again(left, facts)))
                if not any(tells(step.assumed, path) for step in steps):
                    wrong.append((part.name, path, before, after))
    assert not wrong


def verdicts(rule: Rule, facts: Facts, book: Rulebook) -> Outcome:
    """Return the verdict of one rule, of each item where it is asked of each of a list."""
    judged = tuple(one.verdict for one in judge(rule, facts, book.session(facts.values)))
    of_items = rule.each is not None and isinstance(facts.values.get(rule.each.path), list)
    return judged if of_items else judged[0]


@settings(max_examples=120, deadline=None)
@given(
    st.integers(0, len(SAMPLES) - 1),
    st.integers(0),
    st.sampled_from((0.0, 0.02, 0.1, 0.3)),
    st.sampled_from((0.02, 0.1, 0.3, 0.6)),
)
def test_no_facts_together_turn_a_decided_verdict(
    at: int, seed: int, never_known: float, known_later: float
) -> None:
    chance, whole = Random(seed), sample_facts(at)
    after = thinned(chance, whole.values, never_known)
    before = thinned(chance, after, known_later, open_ends=0.3)
    facts = read_again(before, whole)
    learned = list(missing(before, after))
    later = verdicts_by_rule(after)
    for name, was in verdicts_by_rule(before).items():
        assert not list(untold(BOOK.rules[name], was, later[name], learned, facts, BOOK))


def missing(before: Mapping[str, Any], after: Mapping[str, Any], above: str = "") -> Iterator[str]:
    """Give the paths of the facts that are known after and were not before."""
    for path, value in after.items():
        if path not in before:
            yield above + path
        elif isinstance(value, list):
            if isinstance(before[path], OpenList) and not isinstance(value, OpenList):
                yield above + path  # that it is complete
            for at, (less, item) in enumerate(zip(before[path], value, strict=True), start=1):
                yield from missing(less, item, f"{above}{path}[{at}].")
