"""Every bound holds at n and refuses n + 1; what is promised to parse does."""

import sys
from typing import Any

import pytest

from hostile.test_job_files import ended_if_it_hangs
from language.world import (
    FORMULAS,
    FUNCTIONS,
    NO_ROWS,
    SCOPE,
    TABLES,
    World,
    check,
    computed,
    explained,
)
from tundish.language.budget.budget import Budget, TooManySteps
from tundish.language.evaluate.compiled import compile_function
from tundish.language.evaluate.explained import Explainer
from tundish.language.evaluate.session import Session
from tundish.language.syntax.problem import ExpressionError, ExpressionProblem
from tundish.text.bounds import (
    DEEPEST_LOOPS,
    DEEPEST_NESTING,
    DEEPEST_TREE,
    LONGEST_CHAIN,
    LONGEST_EXPRESSION,
    MOST_STEPS,
    MOST_TOKENS,
)

__all__ = ["ended_if_it_hangs"]

FACTS = World({"f": True, "n": 1.0, "a": 1.0})


def only_problem(expression: str) -> ExpressionProblem:
    with pytest.raises(ExpressionError) as caught:
        check(expression)
    (problem,) = caught.value.problems
    return problem


def value(expression: str) -> Any:
    node = check(expression)
    found = explained(node, FACTS).value
    assert computed(node, FACTS) == found
    return found


def test_characters() -> None:
    longest = "f" + " " * (LONGEST_EXPRESSION - 1)
    assert value(longest) is True
    problem = only_problem(longest + " ")
    assert problem.sentence == "An expression holds at most 4,000 characters."
    assert (problem.start, problem.end) == (0, 1)


def test_words() -> None:
    most = "not f or " + " or ".join(["f"] * (MOST_TOKENS // 2 - 1))
    assert value(most) is True
    problem = only_problem(most + " or f")
    assert problem.sentence == "An expression holds at most 1,000 words and signs."
    assert problem.start == len(most) + len(" or")


@pytest.mark.parametrize(
    ("opening", "inside", "closing"),
    [
        ("", "(", ")"),
        ("", "absolute(", ")"),
        ("greatest(", "1, ", ")"),
        ("if ", "f then ", " else 1"),
    ],
)
def test_nesting(opening: str, inside: str, closing: str) -> None:
    first, opening = opening, opening + inside
    deepest = DEEPEST_NESTING - 1
    assert value(opening * deepest + "1" + closing * deepest) == 1
    problem = only_problem(opening * (deepest + 1) + "1" + closing * (deepest + 1))
    assert problem.sentence == f"Parts are nested more than {DEEPEST_NESTING} deep."
    begins = first or opening
    assert problem.start == len(opening) * deepest + len(begins)


@pytest.mark.parametrize("sign", ["not ", "- ", "- -"])
def test_nesting_without_brackets(sign: str) -> None:
    operand = "f" if sign == "not " else "n"
    each = sign.count("-") or 1
    deepest = (DEEPEST_NESTING - 1) // each
    assert value(sign * deepest + operand) is not None
    assert "nested more than" in only_problem(sign * (deepest + 1) + operand).sentence


def test_powers_of_powers() -> None:
    assert value("^".join(["1"] * DEEPEST_NESTING)) == 1
    assert "nested" in only_problem("^".join(["1"] * (DEEPEST_NESTING + 1))).sentence


@pytest.mark.parametrize("sign", ["+", "*"])
def test_terms_in_a_row(sign: str) -> None:
    longest = sign.join(["n"] * LONGEST_CHAIN)
    assert value(longest) == (LONGEST_CHAIN if sign == "+" else 1)
    problem = only_problem(longest + sign + "n")
    assert problem.sentence == f"At most {LONGEST_CHAIN} terms may stand in a row."
    assert problem.start == len(longest)


def in_a_row(length: int, first: str = "n") -> str:
    return "+".join([first, *["n"] * (length - 1)])


def test_depth_of_the_tree() -> None:
    # A chain nests to the left: its first term stands as deep as the chain is long.
    deepest = in_a_row(LONGEST_CHAIN, f"({in_a_row(DEEPEST_TREE - LONGEST_CHAIN + 1)})")
    assert value(deepest) == DEEPEST_TREE
    problem = only_problem(
        in_a_row(LONGEST_CHAIN, f"({in_a_row(DEEPEST_TREE - LONGEST_CHAIN + 2)})")
    )
    assert problem.sentence == f"Parts stand more than {DEEPEST_TREE} deep inside each other."


def test_chains_in_chains_are_refused_not_crashed_on() -> None:
    nest = in_a_row(90)
    for _ in range(4):
        nest = in_a_row(90, f"({nest})")
    assert "deep inside each other" in only_problem(nest).sentence


def test_loops() -> None:
    assert DEEPEST_LOOPS == 2
    assert check("all(any(part.size > 1 m for part in run.part) for run in water.run)")
    three = "all(any(all(x.length > 1 m for x in rod) for y in rod) for run in water.run)"
    assert only_problem(three).sentence == "Loops may be nested 2 deep."


def rods(count: int) -> World:
    values = {"rod": [{"length": 1.0} for _ in range(count)], "f": True}
    return World(values, names={f"rod[{at + 1}]": f"rod {at + 1}" for at in range(count)})


SQUARE = "all(all(one.length <= two.length for one in rod) for two in rod)"


def steps(count: int) -> int:
    """Return what n items take in two loops: all the parts that stand in each, each round."""
    inner = 3  # two lengths compared
    outer = 5 + 1  # a loop, and the list it looks at
    return count * outer + count * count * inner


def test_steps_of_the_compiled_form() -> None:
    function = compile_function(check(SQUARE))
    within = Session(rods(30).values, {}, NO_ROWS, Budget(steps(30)))
    assert function(within.values, within) is True
    assert within.budget.left == 0
    with pytest.raises(TooManySteps):
        function(rods(30).values, Session(rods(30).values, {}, NO_ROWS, Budget(steps(30) - 1)))


def test_a_long_formula_in_a_loop_takes_as_many_steps_as_it_has_parts() -> None:
    def taken(term: str) -> int:
        session = Session(rods(10).values, {}, NO_ROWS)
        compile_function(check(f"sum({term} for one in rod) > 1 m"))(session.values, session)
        return MOST_STEPS - session.budget.left

    assert taken("one.length") == 10
    assert taken(in_a_row(100).replace("n", "one.length")) == 10 * 199
    assert taken("one.length * exponential(n)") == 10 * (1 + 1 + 50 + 1)


def test_steps_of_the_explained_form() -> None:
    node = check(SQUARE)
    explainer = Explainer(rods(30), {}, {})
    kept = len(list(explainer.explain(node).walk())) - 31  # the lists are read, not walked
    assert Explainer(rods(30), {}, {}, kept).explain(node).value is True
    with pytest.raises(TooManySteps):
        Explainer(rods(30), {}, {}, kept - 1).explain(node)


def test_a_rule_begins_with_its_full_budget() -> None:
    session = Session({}, {}, NO_ROWS)
    session.budget.spend(MOST_STEPS)
    with pytest.raises(TooManySteps):
        session.budget.spend(1)
    session.budget.begin()
    session.budget.spend(MOST_STEPS)


def test_what_is_promised_to_parse_parses() -> None:
    assert value(in_a_row(32)) == 32
    assert value("greatest(1, " * 12 + "2" + ")" * 12) == 2
    assert value("(" * 12 + "n" + ")" * 12) == 1


@pytest.mark.usefixtures("ended_if_it_hangs")
@pytest.mark.parametrize(
    "expression",
    [
        "n > 5 " + "q." * 1900,
        "n > 5 " + "km^9." * 700,
        "n > 5 " + "(" * 3900,
        "'" + "x" * 3900,
        "n > " + "9" * 3900,
        "n in [" + "1," * 490 + "1]",
        "z" * 3999,
        "a." * 1999 + "a",
    ],
)
def test_nothing_within_the_bounds_takes_long_to_check(expression: str) -> None:
    calls = 0

    def count(_frame: object, event: str, _function: object) -> None:
        nonlocal calls
        calls += event in ("call", "c_call")

    sys.setprofile(count)
    try:
        check(expression)
    except ExpressionError as error:
        assert error.problems
    finally:
        sys.setprofile(None)
    # Far fewer than a second takes; what grows with the square of the length takes millions.
    assert calls < 400_000


def test_the_deepest_nest_of_all_words_runs_in_both_forms() -> None:
    nest, deeper = "f", "f"
    for level in range(DEEPEST_NESTING):
        deeper = f"f and not f or ({deeper})" if level % 2 else f"(if f then {deeper} else f)"
        try:
            check(deeper)
        except ExpressionError:
            break
        nest = deeper
    assert nest.count("(") > DEEPEST_NESTING / 2
    assert value(nest) is True


def test_the_world_is_sound() -> None:
    assert set(FORMULAS) == set(FUNCTIONS) == set(SCOPE.quantities)
    assert set(TABLES) == set(SCOPE.tables)
