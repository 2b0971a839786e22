"""Parts of the language that no expression of its own shows."""

import dataclasses

import pytest

from language.world import FUNCTIONS, NO_ROWS, ROWS, SCOPE, check, explained, world
from tundish.language.check.checker import check_expression, check_part
from tundish.language.check.context import Context
from tundish.language.evaluate.compiled import compile_function
from tundish.language.evaluate.session import Session
from tundish.language.operations.functions import FUNCTIONS as OFFERED
from tundish.language.syntax import syntax_tree as syntax
from tundish.language.syntax.problem import ExpressionError, ExpressionProblem
from tundish.language.tree import tree
from tundish.language.tree.kind import DATE, TRUTH, Kind, quantity_kind, text_kind, with_words_of
from tundish.units.dimension import LENGTH, NUMBER


def test_a_part_nobody_knows_is_a_programmers_error() -> None:
    with pytest.raises(TypeError, match="no check is known for ListSyntax"):
        Context(SCOPE, {}, check_part).node(syntax.ListSyntax(0, 2, ()))
    with pytest.raises(TypeError, match="no code is known for Node"):
        compile_function(tree.Node(TRUTH, 0, 1))


def test_a_function_of_the_language_is_shown_by_its_name() -> None:
    assert repr(OFFERED["least"]) == "Function(least)"


def test_an_expression_can_be_asked_for_a_kind() -> None:
    assert check_expression("a > 1 m", SCOPE, wanted=TRUTH).kind == TRUTH
    with pytest.raises(ExpressionError, match=r"where a condition .* is asked for"):
        check_expression("a", SCOPE, wanted=TRUTH)
    with pytest.raises(ExpressionError, match="where a date is asked for"):
        check_expression("a", SCOPE, wanted=DATE)


def test_an_expression_can_be_asked_for_certain_words() -> None:
    wanted = text_kind(("red", "green"))
    assert check_expression("if f then 'red' else 'green'", SCOPE, wanted=wanted)
    with pytest.raises(ExpressionError, match="'blue' is none of the words this can be"):
        check_expression("if f then 'red' else 'blue'", SCOPE, wanted=wanted)


def test_an_item_may_be_bound_from_outside() -> None:
    node = check_expression("run.length + run.twice", SCOPE, {"run": "water.run"})
    function = compile_function(node, {"run": "water.run"})
    item = {"length": 2.0}
    session = Session({}, FUNCTIONS, ROWS)
    assert function({}, session, item) == 6.0


def test_a_quantity_is_computed_once_and_remembered() -> None:
    calls = []

    def counted(facts: object, session: Session) -> float:
        calls.append(facts)
        return 3.0

    session = Session({}, {("", "both"): counted}, NO_ROWS)
    function = compile_function(check("both + both"))
    assert function({}, session) == 6.0
    assert len(calls) == 1


def test_kinds_are_spoken_of_in_words() -> None:
    assert str(quantity_kind(LENGTH**4)) == "a quantity of length^4"
    assert str(quantity_kind(NUMBER)) == "a plain number"
    assert str(Kind("items")) == "a list of items"


def test_words_of_two_kinds_are_joined_without_repeating() -> None:
    one, other = text_kind(("a", "b")), text_kind(("b", "c"))
    assert with_words_of(one, other).choices == ("a", "b", "c")
    assert with_words_of(one, text_kind()).choices == ()


def test_problems_come_in_the_order_of_their_places() -> None:
    late, early = ExpressionProblem(9, 10, "Late."), ExpressionProblem(1, 2, "Early.")
    error = ExpressionError([late, early])
    assert error.problems == (early, late)
    assert str(error) == "Early. Late."


def test_trees_and_steps_are_frozen() -> None:
    node = check("a > 1 m")
    step = explained(node, world({"a": "2 m"}))
    with pytest.raises(dataclasses.FrozenInstanceError):
        node.start = 5  # type: ignore[misc]
    with pytest.raises(AttributeError):
        step.value = False  # type: ignore[misc]


def test_nothing_of_python_is_within_reach_of_an_expression() -> None:
    for expression in ("__import__", "session", "facts", "len(a)", "a.__class__", "apply(a)"):
        with pytest.raises(ExpressionError):
            check(expression)
    text = "'; import os #'"
    node = check(f"name == {text}")
    function = compile_function(node)
    assert function.__globals__["__builtins__"] == {}
    assert function({"name": text[1:-1]}, Session({}, {}, NO_ROWS)) is True


def test_what_was_not_looked_at_is_marked() -> None:
    step = explained(check("f and a > 1 m"), world({"f": False}))
    assert [part.needed for part in step.parts] == [True, False]
    step = explained(check("if f then a else b"), world({"f": True, "a": "1 m"}))
    assert [part.needed for part in step.parts] == [True, True, False]


def test_the_explained_form_looks_at_every_item_though_one_has_failed() -> None:
    facts = world({"water.run": [{"open": False}, {"open": True}, {"open": False}]})
    step = explained(check("all(run.open for run in water.run)"), facts)
    assert step.value is False
    assert [(part.item, part.value) for part in step.parts[1:]] == [
        ("item 1", False),
        ("item 2", True),
        ("item 3", False),
    ]
    assert [part.path for part in step.parts[1:]] == [
        f"water.run[{position}].open" for position in (1, 2, 3)
    ]
