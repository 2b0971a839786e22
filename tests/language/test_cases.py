"""The case files: each expression run by both evaluations, or refused at its exact place."""

import tomllib
from pathlib import Path
from typing import Any

import pytest

from language.world import check, computed, explained, world
from tundish.language.syntax.problem import ExpressionError
from tundish.units.quantity import parse_quantity

KEYS = {"expression", "given", "value", "unknown", "obstacle", "assumed", "under", "says"}


def _cases() -> list[Any]:
    found = []
    for path in sorted((Path(__file__).parent / "cases").glob("*.toml")):
        for case in tomllib.loads(path.read_text())["case"]:
            assert case.keys() <= KEYS, f"{path.name}: {case}"
            found.append(
                pytest.param(case, id=f"{path.stem}: {' '.join(case['expression'].split())}")
            )
    return found


def _listed(value: Any) -> list[Any]:
    return value if isinstance(value, list) else [value]


CASES = _cases()
GOOD = [param for param in CASES if "says" not in param.values[0]]
BAD = [param for param in CASES if "says" in param.values[0]]


@pytest.mark.parametrize("case", GOOD)
def test_both_evaluations_give_the_value_of_the_case(case: dict[str, Any]) -> None:
    facts = world(case.get("given", {}))
    node = check(case["expression"])
    step = explained(node, facts)
    assert computed(node, facts) == step.value
    if "value" not in case:
        assert step.value is None
        return
    expected = case["value"]
    if isinstance(expected, str) and node.kind.name == "quantity":
        quantity = parse_quantity(expected)
        assert node.kind.dimension == quantity.dimension
        assert node.kind.point == quantity.unit.point
        assert step.value == pytest.approx(quantity.si, rel=1e-12)
    elif node.kind.name == "quantity":
        assert node.kind.dimension.is_number
        assert step.value == pytest.approx(expected, rel=1e-12)
    else:
        assert step.value == (tuple(expected) if isinstance(expected, list) else expected)


@pytest.mark.parametrize("case", GOOD)
def test_an_undecided_case_names_what_would_decide_it(case: dict[str, Any]) -> None:
    step = explained(check(case["expression"]), world(case.get("given", {})))
    assert step.needs == frozenset(case.get("unknown", ()))
    told = "; ".join(sorted(step.obstacles))
    assert told == case.get("obstacle", "")
    assert step.assumed == frozenset(case.get("assumed", ()))


@pytest.mark.parametrize("case", BAD)
def test_a_bad_expression_is_refused_at_its_exact_place(case: dict[str, Any]) -> None:
    with pytest.raises(ExpressionError) as caught:
        check(case["expression"])
    problems = caught.value.problems
    marks, sentences = _listed(case["under"]), _listed(case["says"])
    assert len(problems) == len(marks) == len(sentences), [each.sentence for each in problems]
    for problem, mark, sentence in zip(problems, marks, sentences, strict=True):
        assert sentence in problem.sentence
        assert problem.sentence.endswith((".", "?"))
        if sentence.endswith((".", "?")):  # then nothing more is said, no hint that misleads
            assert problem.sentence.endswith(sentence)
        start = mark.index("^")
        # A place where the expression ends has no character of its own.
        end = start if start == len(case["expression"]) else len(mark)
        assert (problem.start, problem.end) == (start, end), problem.sentence


def test_every_case_claims_something() -> None:
    for param in CASES:
        case = param.values[0]
        claims = {"value", "unknown", "obstacle", "says"} & case.keys()
        assert claims, case
        assert ("under" in case) == ("says" in case), case
