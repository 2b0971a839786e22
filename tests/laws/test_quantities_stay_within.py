"""Whatever can be said of a job, no quantity comes to what it cannot be: it is unknown then."""

from __future__ import annotations

import math
from collections.abc import Iterator
from random import Random
from typing import Any

from laws.thinning import BOOK
from tundish.job.job import Job
from tundish.job.model.paths import without_positions
from tundish.job.model.schema import Fact
from tundish.job.schema import job_schema
from tundish.language.tree.tree import Within
from tundish.language.tree.tree import walk as walk_tree
from tundish.rulebook.link.facts_read import facts_read
from tundish.rulebook.model.rule import DerivedQuantity
from tundish.rulebook.prove.case_run import runs_on

FAR = 1e6
"""An end for what nothing bounds; no fact of a home is as large in SI units."""


def ends(path: str) -> tuple[float, ...]:
    """Return the ends of what a fact can be, and a value a hair within them."""
    fact = job_schema().find(path)
    if not isinstance(fact, Fact) or fact.kind not in ("quantity", "number"):
        return ()
    least, most = fact.bounds
    least, most = max(least, -FAR), min(most, FAR)
    return least, least + 1e-6, (least + most) / 2, most


def extremes(given: dict[str, Any], reads: frozenset[str], chance: Random) -> Iterator[None]:
    """Put the ends of what they can be in the place of the facts read, one and several at once."""
    places = [
        (holder, path, ends(full))
        for full, holder, path in _places(given, "")
        if without_positions(full) in reads and isinstance(holder[path], float) and ends(full)
    ]
    for holder, path, values in places:
        before = holder[path]
        for holder[path] in values:
            yield
        holder[path] = before
    for _ in range(8 if places else 0):
        for holder, path, values in places:
            if chance.random() < 0.6:
                holder[path] = chance.choice(values)
        yield


def _places(values: dict[str, Any], above: str) -> Iterator[tuple[str, dict[str, Any], str]]:
    for path, value in values.items():
        if isinstance(value, list):
            for item in value:
                yield from _places(item, f"{above}{path}.")
        else:
            yield f"{above}{path}", values, path


def is_within(quantity: DerivedQuantity, value: object) -> bool:
    if value is None or not isinstance(value, float):
        return True
    assert quantity.unit is not None
    least, most = quantity.at_least, quantity.at_most
    slack = 1e-9 * max(float(quantity.unit.factor), abs(least or 0.0), abs(most or 0.0))
    return (
        math.isfinite(value)
        and (least is None or value >= least - slack)
        and (most is None or value <= most + slack)
    )


def test_every_quantity_driven_to_its_ends_stays_within_its_range() -> None:
    chance, driven = Random(7), 0
    for quantity in BOOK.quantities.values():
        if quantity.unit is None:
            continue
        reads = facts_read(quantity, BOOK.quantities)
        for case in quantity.cases:
            facts = BOOK.facts(Job.from_data(dict(case.given)))
            for _ in extremes(facts.values, reads, chance):
                for run in runs_on(facts, quantity, case.item, BOOK):
                    value = run.calculate(quantity.calculate)
                    driven += 1
                    assert is_within(quantity, value), (quantity.name, value, facts.values)
    assert driven > 20_000


def test_every_quantity_says_its_range_or_why_it_has_none() -> None:
    for quantity in BOOK.quantities.values():
        if quantity.unit is not None and quantity.at_least is None and quantity.at_most is None:
            is_level = quantity.kind.dimension.name == "sound level"
            assert is_level or quantity.range_because, quantity.name


def test_few_quantities_need_a_test_of_their_range() -> None:
    tested = [
        quantity.name
        for quantity in BOOK.quantities.values()
        if any(isinstance(node, Within) for node, _ in walk_tree(quantity.formula.root, {}))
    ]
    assert len(tested) < 0.2 * len(BOOK.quantities), tested
