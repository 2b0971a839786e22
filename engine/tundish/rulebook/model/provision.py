"""Provisions, linked: parts that a job needs, when and how many, and who supplies them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field

from tundish.groundwork.dataclass import dataclass
from tundish.language.evaluate.session import Function
from tundish.language.tree.tree import Constant, Node
from tundish.rulebook.model.choices import Supplier
from tundish.rulebook.model.definition import Definition
from tundish.units.unit import Unit

AMOUNTS = {"number": "number", "length": "length", "volume": "volume", "mass": "mass"}
"""By what parts are ordered: each dimension, and the fact of an order list that states it."""


@dataclass(frozen=True, slots=True)
class Provision(Definition):
    """A part that a job may need; its expressions are compiled when first used.

    Attributes:
        also_called: Other names it is ordered under.
        topic: The topic it stands in.
        part: What to buy, in a line of an order.
        needed: When it is needed.
        with_unit: When it comes in the box of the unit.
        number: How many or how much is needed.
        unit: The unit of that.
        supplier: Who supplies it.
        because: Why it is needed.
        region: ISO 3166 code of the region it is needed in; "" = everywhere.
        asked_where: When it is needed, its region left aside.
        written: Its expressions as written, by key.
        needed_where: `asked_where`, compiled.
        is_needed: `needed`, compiled.
        is_with_unit: `with_unit`, compiled.
        amount: `number`, compiled.
    """

    noun = "part"

    also_called: tuple[str, ...]
    topic: str
    part: str
    needed: Node
    with_unit: Node
    number: Node
    unit: Unit
    supplier: Supplier
    because: str
    region: str
    asked_where: Node
    written: Mapping[str, str]
    needed_where: Function = field(compare=False, repr=False, init=False)
    is_needed: Function = field(compare=False, repr=False, init=False)
    is_with_unit: Function = field(compare=False, repr=False, init=False)
    amount: Function = field(compare=False, repr=False, init=False)

    @property
    def names(self) -> tuple[str, ...]:
        """Return all names an order list may call it by."""
        return (self.name, *self.also_called)

    @property
    def roots(self) -> tuple[Node, ...]:
        """Return the trees of when it is needed, when it comes with the unit, and how many."""
        return self.needed, self.with_unit, self.number

    @property
    def expressions(self) -> Mapping[str, tuple[Node, str]]:
        """Return those of its expressions as written that are more than a constant."""
        keys = {"needed": self.asked_where, "with_unit": self.with_unit, "number": self.number}
        return {
            key: (root, self.written[key])
            for key, root in keys.items()
            if not isinstance(root, Constant)
        }

    @property
    def functions(self) -> Mapping[str, Function]:
        """Return its expressions, compiled, its region left aside."""
        return {
            "needed": self.needed_where,
            "with_unit": self.is_with_unit,
            "number": self.amount,
        }

    def _compiled_from(self, name: str) -> Node | None:
        match name:
            case "needed_where":
                return self.asked_where
            case "is_needed":
                return self.needed
            case "is_with_unit":
                return self.with_unit
            case "amount":
                return self.number
        return None
