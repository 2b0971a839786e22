"""A sample of what `python tests/fuzzing agreement` looks at, and that it finds what is wrong."""

from __future__ import annotations

import itertools
import time
from random import Random
from typing import Any

import pytest

from fuzzing.agreement import Disagreement, rounds
from fuzzing.expressions import LEAVES, WORDS, an_expression
from fuzzing.facts import more_facts, some_facts
from language.world import FACTS, check
from tundish.language.evaluate.explained import Explainer
from tundish.language.evaluate.step import Step
from tundish.language.operations.functions import FUNCTIONS
from tundish.language.syntax.problem import ExpressionError


def found(seed: int, count: int) -> list[Disagreement]:
    """Return what some rounds from a seed find."""
    told = itertools.islice(rounds(Random(seed)), count)
    return [one for _, disagreements in told for one in disagreements]


@pytest.mark.parametrize("seed", [1, 2, int(time.time())], ids=["1", "2", "of today"])
def test_all_forms_agree(seed: int) -> None:
    disagreements = found(seed, 8)
    assert not disagreements, f"seed {seed}: {disagreements[0]}"


def test_a_form_that_guesses_is_found_out(monkeypatch: pytest.MonkeyPatch) -> None:
    honest = Explainer._choice

    def guessing(self: Explainer, node: Any, bound: Any) -> Step:
        step = honest(self, node, bound)
        return step if step.value is not None else self.step(node.then, bound)

    monkeypatch.setattr(Explainer, "_choice", guessing)
    assert found(1, 20)


def test_the_expressions_hold_every_word_of_the_language() -> None:
    chance = Random(1)
    written = " ".join(an_expression(chance, kind, 4) for _ in range(600) for kind in LEAVES)
    missing = [word for word in (*WORDS, *FACTS) if word not in written]
    # What only stands for a group or a list, or in it, comes up by another name.
    assert not [word for word in missing if "." not in word]
    assert set(FUNCTIONS) <= set(WORDS)


def test_nearly_every_expression_is_of_the_language() -> None:
    chance, refused = Random(2), 0
    for _ in range(1000):
        try:
            check(an_expression(chance, chance.choice(list(LEAVES)), 3))
        except ExpressionError:
            refused += 1
    assert refused < 20


def test_what_is_learnt_leaves_what_was_known() -> None:
    chance = Random(3)
    for _ in range(200):
        facts = some_facts(chance)
        later = more_facts(chance, facts)
        for path, value in facts.items():
            if not isinstance(value, list) and FACTS[path].kind.name != "record":
                assert later[path] == value
