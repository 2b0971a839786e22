"""The fused form of many rules gives what each of them gives on its own."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st

from language.test_properties import CONDITIONS, ITEM_TRUTHS, JOBS, LENGTHS, a_world
from language.world import (
    FORMULAS,
    FUNCTIONS,
    QUANTITIES,
    ROWS,
    SCOPE,
    World,
    check,
    computed,
    started,
)
from tundish.language.budget.budget import Budget, TooManySteps
from tundish.language.check.checker import check_expression
from tundish.language.codegen.common_subexpressions import Conditions
from tundish.language.evaluate.compiled import compile_function
from tundish.language.evaluate.fused import Answers, compile_fused, load_fused
from tundish.language.evaluate.session import Item, Session
from tundish.language.tree import tree as t
from tundish.language.tree.kind import TRUTH
from tundish.language.tree.tree import Node
from tundish.units import dimension as d

SLOW = settings(max_examples=250, deadline=None, suppress_health_check=list(HealthCheck))
ANSWERS = Answers("met", "breached", "undecided", "not applicable")
# Each behind all it is made of, as the world is declared in that order.
NEEDED = {key: (FORMULAS[key].root, QUANTITIES[key][2]) for key in QUANTITIES}
NEEDED["", "all_twice"] = NEEDED.pop(("", "all_twice"))

ITEM_CONDITIONS = st.one_of(
    ITEM_TRUTHS,
    st.builds("(run.length < {})".format, LENGTHS),
    st.builds("(run.open and run.twice >= {} or g)".format, LENGTHS),
    st.builds("(not run.open or any(other.length > run.length for other in water.run))".format),
)


def on_run(expression: str) -> Node:
    return check_expression(expression, SCOPE, {"run": "water.run"})


def verdict(applies: Node, requires: Node, facts: World, item: Any = None) -> str:
    """Ask one rule by its two compiled conditions, one after the other."""
    bound = {} if item is None else {"run": "water.run"}
    session = started(facts.values)
    given = (facts.values, session) if item is None else (facts.values, session, item)
    asked = compile_function(applies, bound)(*given)
    if asked is not True:
        return "undecided" if asked is None else "not applicable"
    met = compile_function(requires, bound)(*given)
    return "undecided" if met is None else "met" if met else "breached"


PAIRS = st.lists(st.tuples(CONDITIONS, CONDITIONS), min_size=1, max_size=5)
ITEM_PAIRS = st.lists(st.tuples(ITEM_CONDITIONS, ITEM_CONDITIONS), max_size=3)
COUNTED = st.sampled_from([{}, {"water.run": False}, {"water.run": True}])
CHOSEN = [
    ("true", "(if colour == 'red' then 1 m else 2 m) + a > 2 m"),
    ("f or not f", "(if colour in ['red', 'blue'] then 1 m else 0 m) + b > 0 m"),
    ("g", "(if f then 1 m else 1 m) - (if g then 1e308 m else 0 m) * 2 < b"),
    ("colour == 'red' or colour == 'blue'", "not (a > 1 m and a < 3 m) and 0 m < a"),
    ("not (colour == 'red' and colour != 'blue')", "f and not f or f"),
]
"""Choices between what is written out, and conditions on one fact."""
NEAR = {"a": 1.0, "b": 1.0 + 5e-10, "c": -1.0, "water.depth": 1.0 + 2e-9}


@SLOW
@given(PAIRS, ITEM_PAIRS, JOBS, COUNTED)
@example([("f", "a <= b"), ("f", "a < b"), ("g or f", "b > a")], [], {**NEAR, "f": True}, {})
@example([("true", "(a + b) / (b - b) > 1"), ("true", "a / 0 m > 1")], [], NEAR, {})
@example([("true", "a * 1e308 / (b * 1e308) < 2"), ("h", "-c >= a")], [], {**NEAR, "h": True}, {})
@example([("f and g", "not (f == g)"), ("f and g", "colour in ['red']")], [], {"f": True}, {})
@example(CHOSEN, [], {}, {})
@example(CHOSEN, [], {"colour": "red", "f": True, "a": 1.0}, {})
@example(CHOSEN, [], {"colour": "blue", "f": False, "g": True, "b": -1e308}, {})
def test_fused_and_compiled_give_the_same(
    pairs: list[tuple[str, str]],
    of_items: list[tuple[str, str]],
    job: dict[str, Any],
    counted: dict[str, bool],
) -> None:
    facts = a_world(job)
    rules = [(check(applies), check(requires)) for applies, requires in pairs]
    asked_of_items = [(on_run(applies), on_run(requires)) for applies, requires in of_items]
    code = compile_fused(
        [Conditions(*rule) for rule in rules]
        + [Conditions(*rule, "run", "water.run") for rule in asked_of_items],
        NEEDED,
        counted,
    )
    late, found = load_fused(code, ANSWERS, started)(facts.values, ROWS)
    runs = facts.values.get("water.run")
    one_by_one: list[object] = [verdict(*rule, facts) for rule in rules]
    for rule in asked_of_items:
        known = isinstance(runs, list)
        one_by_one.append(
            tuple(verdict(*rule, facts, run) for run in runs) if known else unasked(rule[0], facts)
        )
    assert None not in found[: len(rules)]
    # Where its list is not known, a rule that loops is left to be asked alone.
    assert found == [
        None if outcome is None else alone for outcome, alone in zip(found, one_by_one, strict=True)
    ]
    assert late == (None in found)


def unasked(applies: Node, facts: World) -> str:
    """Return the verdict of a rule whose list is not known."""
    absent = False in (facts.values.get("water"), facts.values.get("water.run"))
    ruled_out = computed(t.part_of_job(applies, ["run"]), facts) is False
    return "not applicable" if absent or ruled_out else "undecided"


@SLOW
@given(st.floats(allow_nan=False, allow_infinity=False), st.floats(-4e-9, 4e-9))
def test_values_near_a_limit_are_judged_as_one_by_one(value: float, off: float) -> None:
    facts = a_world({"a": value, "b": value * (1 + off) + 0.0})
    rules = [(check("true"), check(f"a {sign} b")) for sign in ("<", "<=", ">", ">=", "==", "!=")]
    code = compile_fused([Conditions(*rule) for rule in rules], {})
    _, found = load_fused(code, ANSWERS, started)(facts.values, ROWS)
    assert found == [verdict(*rule, facts) for rule in rules]


def test_what_a_quantity_costs_is_paid_whoever_asked_first() -> None:
    facts = a_world({"water.run": [{"length": 1.0}] * 3})
    session = started(facts.values)
    prices = []
    for _ in range(2):
        session.budget.begin()
        before = session.budget.left
        session.derive("", "all_twice")
        prices.append(before - session.budget.left)
    assert prices == [0, 0]  # it has a budget of its own


def test_what_a_quantity_of_an_item_costs_is_paid_by_each_who_asks() -> None:
    loop = check_expression(
        "run.length * count(true for other in water.run)", SCOPE, {"run": "water.run"}
    )
    facts = a_world({"water.run": [{"length": 1.0}] * 3})
    functions = {("water.run", "many"): compile_function(loop, {"run": "water.run"})}
    session = Session(facts.values, functions, ROWS)
    prices = []
    for _ in range(2):
        session.budget.begin()
        before = session.budget.left
        assert session.derive("water.run", "many", facts.values["water.run"][0]) == 3.0
        prices.append(before - session.budget.left)
    assert prices == [3, 3]
    assert loop.kind.dimension == d.LENGTH


WORKS = [
    # asked, and what three runs take: a step for each fact and each operation in a round
    ("all(one.length > 0 m for one in water.run)", 3 * 3),
    ("all(all(one.open for one in water.run) for two in water.run)", 3 * 5 + 9),
    ("any(one.open for one in water.run) or all(one.length > 0 m for one in water.run)", 3 + 9),
]


@pytest.mark.parametrize("counted", [{}, {"water.run": False}, {"water.run": True}])
@pytest.mark.parametrize(("asked", "takes"), WORKS)
@pytest.mark.parametrize("of_items", [False, True])
def test_nobody_takes_more_than_is_allowed(
    counted: dict[str, bool], asked: str, takes: int, of_items: bool
) -> None:
    facts = a_world({"water.run": [{"length": 1.0, "open": False}] * 3})
    rule = (check("true"), on_run(asked) if of_items else check(asked))
    rules = [Conditions(*rule, *(("run", "water.run") if of_items else ()))]
    code = compile_fused(rules, NEEDED, counted)
    enough = 3 * takes if of_items else takes
    session = Session(facts.values, FUNCTIONS, ROWS, Budget(enough))
    assert load_fused(code, ANSWERS, started, enough)(facts.values, ROWS, session)[1] != [None]
    assert 0 < session.budget.spent <= enough

    def start(values: Item) -> Session:
        return Session(values, FUNCTIONS, ROWS, Budget(enough // 2))

    for running in (None, start(facts.values)):
        with pytest.raises(TooManySteps):
            load_fused(code, ANSWERS, start, enough // 2)(facts.values, ROWS, running)


def test_what_is_barred_is_looked_for_where_a_list_has_more_than_few_items() -> None:
    facts = a_world({"water.run": [{"length": 1.0}] * 3})
    rules = [Conditions(check("true"), check("all(run.length > 0 m for run in water.run)"))]
    code = compile_fused(rules, NEEDED, {"water.run": False})
    names = [("", "some rule")]
    for few, barred, stops in ((3, names, False), (2, names, True), (2, [], False)):

        def start(values: Item, of: Any = barred) -> Session:
            return Session(values, FUNCTIONS, ROWS, barred=lambda _: of)

        fused = load_fused(code, ANSWERS, start, few=few)
        if stops:
            with pytest.raises(TooManySteps):
                fused(facts.values, ROWS)
        else:
            assert fused(facts.values, ROWS) == (False, ["met"])


def alternating(depth: int) -> str:
    expression = "f"
    for at in range(depth):
        expression = f"(a > {at} m {'or' if at % 2 else 'and'} {expression})"
    return expression


def chosen(depth: int, within: str) -> str:
    expression = "f"
    for _ in range(depth):
        expression = within.format(expression)
    return expression


LONG_AND_DEEP = [
    " and ".join(f"a > {at} m" for at in range(200)),
    " or ".join(f"(a > {at} m and f)" for at in range(120)),
    " and ".join(["f", "g or h", "a > b"]),
    " or ".join(["f", "g and h", "a > b", "f"]),
    "known(a) and all(o.open for o in water.run) and known(b)",
    "known(a) or all(o.open for o in water.run) or known(b)",
    "known(a) or known(b) or all(o.open for o in water.run)",
    alternating(31),
    chosen(15, "(if g then {} else h)"),
    chosen(15, "(if {} then g else h)"),
]
"""As long and as deep as an expression may be, or with as many parts as go one by one, and more."""


@pytest.mark.parametrize("asked", LONG_AND_DEEP)
@pytest.mark.parametrize("job", [{}, {"a": 250.0, "f": True}, {"a": -1.0, "g": False, "h": True}])
def test_what_is_long_or_deep_is_judged_as_one_by_one(asked: str, job: dict[str, Any]) -> None:
    facts = a_world({**job, "water.run": [{"length": 1.0}]})
    rules = [(check("f"), check(asked)), (check(asked), check("true"))]
    conditions = [Conditions(*rule) for rule in rules]
    of_item = [Conditions(check("true"), on_run(asked), "run", "water.run")]
    fused = load_fused(compile_fused(conditions + of_item, NEEDED), ANSWERS, started)
    _, found = fused(facts.values, ROWS)
    alone = verdict(check("true"), check(asked), facts)
    assert found == [*(verdict(*rule, facts) for rule in rules), (alone,)]


@pytest.mark.parametrize("word", ["and", "or"])
@pytest.mark.parametrize("length", [1.0, None])
def test_what_is_asked_to_be_known_may_loop(word: str, length: float | None) -> None:
    formula = on_run("sum(other.length for other in water.run) + run.length")
    needed = {**NEEDED, ("water.run", "many"): (formula, "run")}
    many = t.Derived(formula.kind, 0, 0, "many", "many", None, "run")
    known = t.Known(TRUTH, 0, 0, many)
    asked = t.Logic(TRUTH, 0, 0, word, (known, known))
    facts = a_world({"water.run": [{"length": 1.0}, {} if length is None else {"length": length}]})
    functions = {
        **FUNCTIONS,
        ("water.run", "many"): compile_function(formula, {"run": "water.run"}),
    }
    code = compile_fused([Conditions(check("true"), asked, "run", "water.run")], needed)
    session = Session(facts.values, functions, ROWS)
    _, found = load_fused(code, ANSWERS, started)(facts.values, ROWS, session)
    assert found == [("breached" if length is None else "met",) * 2]
