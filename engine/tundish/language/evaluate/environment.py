"""What the names in a tree stand for while it is walked over one job: facts, items, formulas."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping

from tundish.groundwork.dataclass import dataclass
from tundish.groundwork.open_list import like
from tundish.language.evaluate.session import Item, JobFacts
from tundish.language.operations.table import Table
from tundish.language.tree import tree as t

Binding = tuple[Item, str]
"""An item's facts, and its place such as ``water.run[2]``."""

Bound = Mapping[str, Binding]
"""The items that variables stand for."""


@dataclass(frozen=True, slots=True)
class Formula:
    """A quantity's checked formula, and the variable that names its item, if it has one."""

    root: t.Node
    variable: str | None = None


@dataclass(frozen=True, slots=True)
class Environment:
    """One job and what is computed from it.

    Attributes:
        facts: The job's facts.
        formulas: The checked formulas, by path of the list they belong to (or "") and name.
        tables: The tables by name.
    """

    facts: JobFacts
    formulas: Mapping[tuple[str, str], Formula]
    tables: Mapping[str, Table]

    def holder(self, node: t.Read | t.Derived, bound: Bound) -> Binding:
        """Return the facts that a name is looked up in, and their place; "" is the whole job."""
        return (self.facts.values, "") if node.item is None else bound[node.item]

    def items(self, node: t.Read, bound: Bound) -> list[Binding] | None:
        """Return the items of a list, open where it is, or None where it is not known."""
        facts, place = self.holder(node, bound)
        items = facts.get(node.path)
        if not isinstance(items, list):
            return None
        path = path_at(place, node.path)
        places = [(item, f"{path}[{number}]") for number, item in enumerate(items, start=1)]
        return like(places, items)

    def formula(self, node: t.Derived, bound: Bound) -> tuple[tuple[str, str, str], t.Node, Bound]:
        """Return what names a quantity, its formula, and the item bound in it."""
        of, name = self.quantity(node, bound)
        _, place = binding = self.holder(node, bound)
        formula = self.formulas[of, name]
        inner = {formula.variable: binding} if formula.variable and place else {}
        return (of, name, place), formula.root, inner

    def quantity(self, node: t.Derived, bound: Bound) -> tuple[str, str]:
        """Return the path of the list that a quantity belongs to, or "", and its name."""
        return "" if node.item is None else without_positions(bound[node.item][1]), node.name


def path_at(place: str, path: str) -> str:
    """Return the path of what stands at a place; "" is the whole job."""
    return f"{place}.{path}" if place else path


def groups_around(path: str) -> Iterator[str]:
    """Give the paths of the groups that a fact stands in, the outermost first.

    Example:
        >>> list(groups_around("water.volume_vessel.volume"))
        ['water', 'water.volume_vessel']
    """
    at = path.find(".")
    while at > 0:
        yield path[:at]
        at = path.find(".", at + 1)


def without_positions(place: str) -> str:
    """Turn ``water.run[2]`` into ``water.run``."""
    return re.sub(r"\[[0-9]+\]", "", place) if "[" in place else place
