"""A language with invented functions, operators, a sign that compares and a loop: a record each.

Run by itself, so that the records are there before anything reads the registers, as they would be
if they stood in the files of the others. It prints what each form of evaluation makes of some
expressions, for `test_one_record.py`.
"""

from __future__ import annotations

import json
import operator
from collections.abc import Sequence
from typing import Any

from tundish.language.operations.aggregates import AGGREGATES, Aggregate
from tundish.language.operations.functions import FUNCTIONS
from tundish.language.operations.operators import ARITHMETIC, RELATIONS, Operator, Relation
from tundish.language.tree.kind import Kind
from tundish.language.tree.node import Node
from tundish.language.tree.operation import Function


def _first(arguments: Sequence[Node]) -> Kind:
    return arguments[0].kind


def _mean(left: float, right: float) -> float:
    return (left + right) / 2


def _rest(left: float, right: float) -> float:
    return left - right * int(left / right)


SUM: Any = AGGREGATES["sum"].value

FUNCTIONS["halved"] = Function("halved", lambda value: value / 2, _first, elsewhere=("half",))
FUNCTIONS["doubled"] = Function(
    "doubled",
    lambda value: value + value,
    _first,
    columns=lambda _, array: array + array,
    code="({0} * 2.0)",
    is_monotone=True,
    steps=2,
)
ARITHMETIC["~"] = Operator(
    "mean",
    _mean,
    _first,
    columns=lambda _, left, right: (left + right) / 2,
    code="(({0} + {1}) / 2.0)",
    is_monotone=True,
    sign="~",
    shown=" ~ ",
)
# As tight as a product, and nothing but the Python function: no code, nothing of numpy's.
ARITHMETIC["@"] = Operator(
    "rest", _rest, _first, is_division=True, sign="@", tightness=2, shown=" @ "
)
RELATIONS["~="] = Relation(
    "~=",
    lambda left, right, near: (operator.abs(left - right) <= 0.1) | near,
    "is about",
    "is far from",
    "about ",
    "~=",
    ("==",),
    code="abs({0} - {1}) <= 0.1",
)

AGGREGATES["doubled_sum"] = Aggregate(
    "doubled_sum",
    lambda rounds: None if (total := SUM(rounds)) is None else float(total) * 2,
    "0.0",
    ("{result} += {term} * 2.0",),
    adds=True,
)
GIVEN = {"a": 3.0, "b": 2.0, "c": 2.05, "n": 7.0, "m": 0.0}
NAMES = {"rod[1]": "first", "rod[2]": "second"}
RODS = [{"length": 1.0}, {"length": 3.0}]
EXPRESSIONS = (
    "halved(a)",
    "doubled(a + b)",
    "a ~ b",
    "doubled(a) ~ halved(b) * 2",
    "1 + n @ 4 * 2",
    "n @ m",
    "b ~= c",
    "a ~= b",
    "doubled_sum(each.length for each in rod if each.length > b)",
    "2 m ~= c and doubled(halved(a)) ~ a == a",
)


def _in_every_form(expression: str) -> dict[str, Any]:
    # What reads the registers is imported behind the records, so that it meets them.
    from language import world as w
    from tundish.findings.phrases import Wording
    from tundish.language.budget.cost import cost
    from tundish.language.codegen.fused import Conditions
    from tundish.language.evaluate.fused import Answers, compile_fused, load_fused
    from tundish.language.evaluate.ranges.evaluate import RangeEvaluator
    from tundish.language.evaluate.ranges.range import Interval, Range
    from tundish.rulebook.prove.mutants import mutants

    def ranged(**spans: tuple[float, float]) -> object:
        given = {path: Interval(*ends) for path, ends in spans.items()}
        found: Range = RangeEvaluator(facts, w.FORMULAS, w.TABLES, given).range_of(node)
        return list(found) if isinstance(found, Interval) else found

    node, facts = w.check(expression), w.World({**GIVEN, "rod": RODS}, names=NAMES)
    step = w.explained(node, facts)
    forms = {
        "compiled": w.computed(node, facts),
        "explained": step.value,
        "columns": w.by_columns(node, [facts, w.World({"rod": RODS})], list(GIVEN)),
        "exact ranges": ranged(),
        "ranges": ranged(a=(2.0, 4.0), b=(1.0, 3.0)),
        "obstacles": sorted(step.obstacles),
        "wording": Wording(facts).numbers(step),
        "steps": cost(node),
        "mutants": [mutant.change for mutant in mutants(node, expression)],
    }
    if node.kind.name == "truth":
        always = w.check("true")
        whole = load_fused(
            compile_fused([Conditions(always, node)], {}),
            Answers(met=True, breached=False, undecided="undecided", not_applicable="not asked"),
            w.started,
        )
        _, (forms["fused"],) = whole(facts.values, w.ROWS)
    return forms


if __name__ == "__main__":
    print(json.dumps({expression: _in_every_form(expression) for expression in EXPRESSIONS}))
