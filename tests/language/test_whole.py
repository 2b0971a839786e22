"""The whole form of many rules gives what each of them gives on its own."""

from __future__ import annotations

from typing import Any

from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st

from language.test_properties import CONDITIONS, ITEM_TRUTHS, JOBS, LENGTHS, a_world
from language.world import FORMULAS, FUNCTIONS, QUANTITIES, SCOPE, TABLES, World, check
from tundish.language.checker import check_expression
from tundish.language.compiled import compile_function
from tundish.language.session import Session
from tundish.language.tree import Node
from tundish.language.whole import Answers, Conditions, compile_whole, whole_from
from tundish.measure import dimension as d

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
    session = Session(facts.values, FUNCTIONS, TABLES)
    given = (facts.values, session) if item is None else (facts.values, session, item)
    asked = compile_function(applies, bound)(*given)
    if asked is not True:
        return "undecided" if asked is None else "not applicable"
    met = compile_function(requires, bound)(*given)
    return "undecided" if met is None else "met" if met else "breached"


PAIRS = st.lists(st.tuples(CONDITIONS, CONDITIONS), min_size=1, max_size=5)
ITEM_PAIRS = st.lists(st.tuples(ITEM_CONDITIONS, ITEM_CONDITIONS), max_size=3)
NEAR = {"a": 1.0, "b": 1.0 + 5e-10, "c": -1.0, "water.depth": 1.0 + 2e-9}


@SLOW
@given(PAIRS, ITEM_PAIRS, JOBS)
@example([("f", "a <= b"), ("f", "a < b"), ("g or f", "b > a")], [], {**NEAR, "f": True})
@example([("true", "(a + b) / (b - b) > 1"), ("true", "a / 0 m > 1")], [], NEAR)
@example([("true", "a * 1e308 / (b * 1e308) < 2"), ("h", "-c >= a")], [], {**NEAR, "h": True})
@example([("f and g", "not (f == g)"), ("f and g", "colour in ['red']")], [], {"f": True})
def test_whole_and_compiled_give_the_same(
    pairs: list[tuple[str, str]], of_items: list[tuple[str, str]], job: dict[str, Any]
) -> None:
    facts = a_world(job)
    rules = [(check(applies), check(requires)) for applies, requires in pairs]
    asked_of_items = [(on_run(applies), on_run(requires)) for applies, requires in of_items]
    code = compile_whole(
        [Conditions(*rule) for rule in rules]
        + [Conditions(*rule, "run", "water.run") for rule in asked_of_items],
        NEEDED,
    )
    late, found = whole_from(code, ANSWERS)(facts.values, Session(facts.values, FUNCTIONS, TABLES))
    runs = facts.values.get("water.run")
    one_by_one: list[object] = [verdict(*rule, facts) for rule in rules]
    for rule in asked_of_items:
        known = isinstance(runs, list)
        one_by_one.append([verdict(*rule, facts, run) for run in runs] if known else None)
    assert found == one_by_one
    assert late == (None in one_by_one)


@SLOW
@given(st.floats(allow_nan=False, allow_infinity=False), st.floats(-4e-9, 4e-9))
def test_values_near_a_limit_are_judged_as_one_by_one(value: float, off: float) -> None:
    facts = a_world({"a": value, "b": value * (1 + off) + 0.0})
    rules = [(check("true"), check(f"a {sign} b")) for sign in ("<", "<=", ">", ">=", "==", "!=")]
    code = compile_whole([Conditions(*rule) for rule in rules], {})
    _, found = whole_from(code, ANSWERS)(facts.values, Session(facts.values, FUNCTIONS, TABLES))
    assert found == [verdict(*rule, facts) for rule in rules]


def test_what_a_quantity_costs_is_paid_whoever_asked_first() -> None:
    facts = a_world({"water.run": [{"length": 1.0}] * 3})
    session = Session(facts.values, FUNCTIONS, TABLES)
    prices = []
    for _ in range(2):
        session.begin_rule()
        before = session.steps_left
        session.derive("", "all_twice")
        prices.append(before - session.steps_left)
    assert prices == [0, 0]  # it has an allowance of its own


def test_what_a_quantity_of_an_item_costs_is_paid_by_each_who_asks() -> None:
    loop = check_expression(
        "run.length * count(true for other in water.run)", SCOPE, {"run": "water.run"}
    )
    facts = a_world({"water.run": [{"length": 1.0}] * 3})
    functions = {("water.run", "many"): compile_function(loop, {"run": "water.run"})}
    session = Session(facts.values, functions, TABLES)
    prices = []
    for _ in range(2):
        session.begin_rule()
        before = session.steps_left
        assert session.derive("water.run", "many", facts.values["water.run"][0]) == 3.0
        prices.append(before - session.steps_left)
    assert prices == [3, 3]
    assert loop.kind.dimension == d.LENGTH
