"""Provisions, linked: parts that a job needs, when and how many, and who supplies them."""

from __future__ import annotations

import datetime
from collections.abc import Mapping
from dataclasses import field
from typing import Any

from tundish.groundwork.dataclass import dataclass
from tundish.groundwork.lazy import Lazy
from tundish.language.evaluate.compiled import compile_function
from tundish.language.evaluate.session import Function
from tundish.language.tree.tree import Node
from tundish.rulebook.files.rule_file import RuleSource
from tundish.rulebook.model.rule import Case
from tundish.rulebook.model.source import Citation
from tundish.rulebook.model.words import Supplier
from tundish.units.unit import Unit


@dataclass(frozen=True, slots=True)
class Provision(Lazy):
    """A part that a job may need; what is compiled is so when first asked for.

    Attributes:
        name: What an order list calls it.
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
        citations: On whose authority.
        reviewed: When it was last read against its sources.
        cases: What proves it.
        unnoticed: Mutants that make no difference, each with the reason.
        asked_where: When it is needed, its region left aside.
        written: Its expressions as written, by key.
        source: The file it stands in.
        needed_where: `asked_where`, compiled.
        is_needed: `needed`, compiled.
        is_with_unit: `with_unit`, compiled.
        amount: `number`, compiled.
    """

    name: str
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
    citations: tuple[Citation, ...]
    reviewed: datetime.date
    cases: tuple[Case, ...]
    unnoticed: Mapping[str, str]
    asked_where: Node
    written: Mapping[str, str]
    source: RuleSource = field(compare=False, repr=False)
    needed_where: Function = field(compare=False, repr=False, init=False)
    is_needed: Function = field(compare=False, repr=False, init=False)
    is_with_unit: Function = field(compare=False, repr=False, init=False)
    amount: Function = field(compare=False, repr=False, init=False)

    @property
    def names(self) -> tuple[str, ...]:
        """Return all names an order list may call it by."""
        return (self.name, *self.also_called)

    @property
    def from_memory(self) -> bool:
        """Say whether anything it cites was written from memory."""
        return any(citation.recall for citation in self.citations)

    def _worked_out(self, name: str) -> Mapping[str, Any]:
        match name:
            case "needed_where":
                return {name: compile_function(self.asked_where)}
            case "is_needed":
                return {name: compile_function(self.needed)}
            case "is_with_unit":
                return {name: compile_function(self.with_unit)}
            case "amount":
                return {name: compile_function(self.number)}
        return {}
