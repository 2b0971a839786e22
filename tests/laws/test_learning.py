"""Learning a fact never turns one decided verdict into another.

The exceptions have a name: `known(...)` that was false, and `assume(...)` whose fallback stood in,
ask what is not known yet, so that what they came to may change when it is. `known` in a condition
on when a rule applies is how the common practice of the trade gives way to what the maker says.
An edition that is chosen by the day of the job would be a third; no built-in rule hangs on one.
"""

from __future__ import annotations

from collections import Counter
from random import Random
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from laws.thinning import BOOK, SAMPLES, constructs, read_again, sample_facts, thinned
from tundish.job.facts import Facts
from tundish.language.evaluate.step import Step
from tundish.language.tree import tree as t
from tundish.rulebook.evaluate.judge import Judgement, Verdict, explain_judgement, judge
from verdicts import verdicts_by_rule

FREE = {name for name in BOOK.rules if not constructs(name)}
"""Rules in which nothing looks at what is not known."""


def looks_at_unknown(step: Step | None) -> bool:
    """Say whether anything in a step hung on a fact not being known."""
    return step is not None and any(
        (isinstance(one.node, t.Known) and one.value is False)
        or (isinstance(one.node, t.Assumed) and bool(one.parts) and one.parts[0].value is None)
        for one in step.walk()
    )


def turned(before: Any, after: Any) -> list[int | None]:
    """Return the positions at which a decided verdict is another now; None for the whole job."""
    if not isinstance(before, tuple):
        later = after if isinstance(after, tuple) else [after]
        changed = before is not Verdict.UNDECIDED and any(one is not before for one in later)
        return [None] if changed else []
    assert isinstance(after, tuple) and len(before) == len(after)
    return [
        position
        for position, (one, other) in enumerate(zip(before, after, strict=True), start=1)
        if one is not Verdict.UNDECIDED and one is not other
    ]


def judgement_at(name: str, facts: Facts, position: int | None) -> Judgement:
    found = judge(BOOK.rules[name], facts, BOOK.session(facts.values))
    return next(one for one in found if one.position == position)


@settings(max_examples=120, deadline=None)
@given(
    st.integers(0, len(SAMPLES) - 1),
    st.integers(0),
    st.sampled_from((0.0, 0.02, 0.1, 0.3)),
    st.sampled_from((0.02, 0.1, 0.3, 0.6)),
)
def test_no_decided_verdict_becomes_another(
    at: int, seed: int, never_known: float, known_later: float
) -> None:
    chance, whole = Random(seed), sample_facts(at)
    after = thinned(chance, whole.values, never_known)
    before = thinned(chance, after, known_later, open_ends=0.3)
    facts = read_again(before, whole)
    earlier, later = verdicts_by_rule(before), verdicts_by_rule(after)
    for name, was in earlier.items():
        now = later[name]
        positions = turned(was, now)
        if not positions:
            continue
        assert name not in FREE, (name, was, now)
        for position in positions:
            if BOOK.rules[name].each and position is None:
                continue  # its list was not known; that it is free of them was looked at above
            steps = explain_judgement(
                BOOK.rules[name],
                judgement_at(name, facts, position),
                facts,
                BOOK.explainer(facts),
            )
            assert any(map(looks_at_unknown, steps)), (name, position, was, now)


def test_most_rules_look_at_nothing_unknown() -> None:
    count = Counter(not constructs(name) for name in BOOK.rules)
    assert count[True] > 0.4 * len(BOOK.rules)
