"""A small invented world for expressions: facts, quantities and tables of every kind."""

from __future__ import annotations

import datetime
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

import numpy as np

from tundish.groundwork.open_list import OpenList
from tundish.language.check.checker import check_expression
from tundish.language.check.scope import Meaning, Scope
from tundish.language.evaluate.columns.column import Chunk, Uniform, Vocabulary, column_of, decoded
from tundish.language.evaluate.columns.evaluate import ColumnEvaluator, Shared
from tundish.language.evaluate.compiled import compile_function
from tundish.language.evaluate.environment import Formula
from tundish.language.evaluate.explained import Explainer
from tundish.language.evaluate.session import Function, Item, Session
from tundish.language.evaluate.step import Step
from tundish.language.operations.table import Column, Key, RowsOfTables, Table
from tundish.language.tree.kind import DATE, PLAIN_NUMBER, TRUTH, Kind, quantity_kind, text_kind
from tundish.language.tree.tree import Node
from tundish.units import dimension as d
from tundish.units.quantity import parse_quantity
from tundish.units.unit import read_unit

FACTS: dict[str, Meaning] = {
    path: Meaning(kind, path.replace(".", " "))
    for path, kind in {
        "a": quantity_kind(d.LENGTH),
        "b": quantity_kind(d.LENGTH),
        "c": quantity_kind(d.LENGTH),
        "area": quantity_kind(d.AREA),
        "flow": quantity_kind(d.FLOW),
        "power": quantity_kind(d.POWER),
        "n": PLAIN_NUMBER,
        "m": PLAIN_NUMBER,
        "warm": quantity_kind(d.TEMPERATURE, point=True),
        "cold": quantity_kind(d.TEMPERATURE, point=True),
        "rise": quantity_kind(d.TEMPERATURE),
        "loud": quantity_kind(d.LEVEL, point=True),
        "quiet": quantity_kind(d.LEVEL, point=True),
        "f": TRUTH,
        "g": TRUTH,
        "h": TRUTH,
        "name": text_kind(),
        "colour": text_kind(("red", "green", "blue")),
        "paint": text_kind(("red", "white")),
        "has": Kind("texts", choices=("inhibitor", "biocide")),
        "also": Kind("texts", choices=("inhibitor", "biocide")),
        "start": DATE,
        "finish": DATE,
        "water": Kind("record", record="water"),
        "water.depth": quantity_kind(d.LENGTH),
        "water.vessel": Kind("record", record="water.vessel"),
        "water.vessel.volume": quantity_kind(d.VOLUME),
        "water.run": Kind("items", record="water.run"),
        "water.run.length": quantity_kind(d.LENGTH),
        "water.run.rise": quantity_kind(d.TEMPERATURE),
        "water.run.at": quantity_kind(d.TEMPERATURE, point=True),
        "water.run.kind": text_kind(("copper", "steel")),
        "water.run.open": TRUTH,
        "water.run.part": Kind("items", record="water.run.part"),
        "water.run.part.size": quantity_kind(d.LENGTH),
        "rod": Kind("items", record="rod"),
        "rod.length": quantity_kind(d.LENGTH),
    }.items()
}

_LENGTH = quantity_kind(d.LENGTH)
QUANTITIES: dict[tuple[str, str], tuple[Kind, str, str, str]] = {
    # (path of its list, name): (kind, unit, variable, formula)
    ("", "both"): (_LENGTH, "mm", "", "a + b"),
    ("", "either"): (TRUTH, "", "", "f or g"),
    ("water.run", "twice"): (_LENGTH, "m", "run", "run.length * 2"),
    ("water.run", "reach"): (
        _LENGTH,
        "m",
        "run",
        "run.length + sum(one.length for one in water.run)",
    ),
    ("water.run.part", "half"): (_LENGTH, "mm", "part", "part.size / 2"),
    ("", "all_twice"): (_LENGTH, "m", "", "sum(run.twice for run in water.run)"),
}


def _rows(unit: str, given: Mapping[str, Any]) -> dict[Any, Any]:
    return {parse_quantity(f"{key} {unit}").si: value for key, value in given.items()}


TABLES: dict[str, Table] = {
    table.name: table
    for table in (
        Table(
            "wall",
            "wall of a pipe",
            (Key("pipe", text_kind(), "exact"),),
            {"wall": Column("wall", _LENGTH, read_unit("mm"))},
            {"thin": (0.0009,), "thick": (0.0015,)},
        ),
        Table(
            "rating",
            "device rating",
            (Key("length", _LENGTH, "next up", read_unit("m")),),
            {
                "current": Column("current", quantity_kind(d.CURRENT), read_unit("A")),
                "kind": Column("kind", text_kind()),
            },
            _rows("m", {"1": (6.0, "small"), "2": (10.0, "middling"), "5": (16.0, "large")}),
        ),
        Table(
            "step",
            "read at its rows alone",
            (Key("number", PLAIN_NUMBER, "exact", read_unit("1")),),
            {"value": Column("value", PLAIN_NUMBER, read_unit("1"))},
            {0.0: (5.0,), 1.0: (7.0,), 3.0: (11.0,)},
        ),
        Table(
            "density",
            "density by temperature and share",
            (
                Key("temperature", quantity_kind(d.TEMPERATURE, True), "linear", read_unit("degC")),
                Key("share", PLAIN_NUMBER, "linear", read_unit("%")),
            ),
            {"density": Column("density", PLAIN_NUMBER, read_unit("1"))},
            _rows(
                "degC",
                {
                    "0": _rows("%", {"0": (1000.0,), "50": (1100.0,)}),
                    "10": _rows("%", {"0": (990.0,), "50": (1080.0,)}),
                    "20": _rows("%", {"0": (970.0,), "30": (1000.0,)}),
                },
            ),
        ),
    )
}
ROWS, NO_ROWS = RowsOfTables(TABLES), RowsOfTables({})

SCOPE = Scope(
    FACTS,
    {
        key: Meaning(kind, key[1].replace("_", " "), read_unit(unit) if unit else None)
        for key, (kind, unit, _, _) in QUANTITIES.items()
    },
    TABLES,
)


def _compiled() -> tuple[dict[tuple[str, str], Function], dict[tuple[str, str], Formula]]:
    functions: dict[tuple[str, str], Function] = {}
    formulas: dict[tuple[str, str], Formula] = {}
    for (of, name), (kind, _, variable, formula) in QUANTITIES.items():
        variables = {variable: of} if variable else {}
        root = check_expression(formula, SCOPE, variables, kind)
        functions[of, name] = compile_function(root, variables)
        formulas[of, name] = Formula(root, variable or None)
    return functions, formulas


FUNCTIONS, FORMULAS = _compiled()


@dataclass(frozen=True, slots=True)
class World:
    """The facts of one small job, as an evaluation sees them."""

    values: dict[str, Any]
    written: dict[str, str] = field(default_factory=dict)
    names: dict[str, str] = field(default_factory=dict)


def world(given: Mapping[str, Any]) -> World:
    """Make a world of facts as a case file writes them; "..." leaves the end of a list open."""
    names: dict[str, str] = {}
    values = {path: _fact(path, value, path, names) for path, value in given.items()}
    return World(values, names=names)


def _fact(path: str, value: Any, place: str, names: dict[str, str]) -> Any:
    kind = FACTS[path].kind
    if kind.name == "items":
        rows = []
        is_open = value[-1:] == ["..."]
        for position, item in enumerate(value[: len(value) - is_open], start=1):
            here = f"{place}[{position}]"
            names[here] = f"item {position}"
            rows.append(
                {
                    key: _fact(f"{path}.{key}", inner, f"{here}.{key}", names)
                    for key, inner in item.items()
                }
            )
        return OpenList(rows) if is_open else rows
    if kind.name == "texts":
        return tuple(value)
    if isinstance(value, datetime.date):
        return float(value.toordinal())
    if kind.name == "quantity":
        return parse_quantity(f"{value} 1" if isinstance(value, int | float) else value).si
    return value


def check(expression: str) -> Node:
    """Check an expression against the world's names."""
    return check_expression(expression, SCOPE)


def started(values: Item) -> Session:
    """Start an evaluation of the world's quantities."""
    return Session(values, FUNCTIONS, ROWS)


def computed(node: Node, facts: World) -> object:
    """Evaluate a tree in the compiled form."""
    return compile_function(node)(facts.values, started(facts.values))


def explained(node: Node, facts: World) -> Step:
    """Evaluate a tree in the explained form."""
    return Explainer(facts, FORMULAS, TABLES).explain(node)


def by_columns(node: Node, worlds: Sequence[World], varying: Collection[str]) -> list[object]:
    """Evaluate a tree in the columnar form, over worlds alike in all but the varying facts."""
    words = Vocabulary()
    shared = Shared(worlds[0].values, frozenset(varying), FORMULAS, lambda _: TABLES, words=words)
    columns = {
        path: column_of([one.values.get(path) for one in worlds], FACTS[path].kind, words)
        for path in varying
    }
    part = ColumnEvaluator(shared).part(node)
    if isinstance(part, Uniform):
        return [part.value] * len(worlds)
    with np.errstate(all="ignore"):
        found = np.broadcast_to(part(Chunk(len(worlds), columns)), len(worlds))
    return [decoded(one, node.kind, words) for one in found.tolist()]
