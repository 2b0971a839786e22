"""What rules, quantities and parts to be ordered have in common."""

from __future__ import annotations

import datetime
from collections.abc import Mapping
from dataclasses import field
from typing import Any, ClassVar, Literal, Self

from tundish.groundwork.dataclass import dataclass
from tundish.groundwork.lazy import Lazy
from tundish.language.evaluate.compiled import compile_function
from tundish.language.evaluate.session import Function
from tundish.language.tree.tree import Node
from tundish.rulebook.model.rule_file import RuleFile
from tundish.rulebook.model.source import Citation


@dataclass(frozen=True, slots=True)
class Case:
    """A small job that proves a rule, a quantity or a part.

    Attributes:
        why: What the case shows.
        given: The job's facts, nested or by dotted path.
        outcome: Of a rule or a provision, what must come out.
        value: Of a quantity or a provision, the value that must come out; None = unknown.
        within: Relative tolerance for that value.
        item: For a rule or quantity of a list's items, the item meant, from 1.
        unknown: The unknown facts that must be named, where the outcome is undecided or unknown.
    """

    why: str
    given: Mapping[str, Any]
    outcome: str | None = None
    value: str | bool | None = None
    within: float = 0.0
    item: int | None = None
    unknown: frozenset[str] | None = None


@dataclass(frozen=True, slots=True)
class Each:
    """The list a rule or quantity looks at item by item, and the name of the item."""

    path: str
    variable: str


def variables_of(each: Each | None) -> dict[str, str]:
    """Return what the name of an item stands for: the path of its list, by that name."""
    return {each.variable: each.path} if each else {}


@dataclass(frozen=True, slots=True)
class Override:
    """That a rule or quantity of a country stands in the place of an international one there.

    Attributes:
        region: ISO 3166 code of the country.
        other: Name of the other of the two; empty where a country takes a rule out of use and puts
            nothing in its place.
        because: Why, as the country's file says.
    """

    region: str
    other: str
    because: str


@dataclass(frozen=True, slots=True)
class Definition(Lazy):
    """A rule, a quantity or a part: expressions with sources, and cases that prove them.

    Attributes:
        noun: What it is called in a sentence.
        name: ``topic/rule`` of a rule; of a quantity, its name in expressions; of a part, what an
            order list calls it.
        each: The list whose every item it is asked of, if it is.
        citations: On whose authority.
        reviewed: When it was last read against its sources.
        cases: What proves it.
        unnoticed: Mutants that make no difference, each with the reason.
        source: The file it stands in.
    """

    noun: ClassVar[Literal["rule", "quantity", "part", "constraint"]]

    name: str
    each: Each | None
    citations: tuple[Citation, ...]
    reviewed: datetime.date
    cases: tuple[Case, ...]
    unnoticed: Mapping[str, str]
    source: RuleFile = field(compare=False, repr=False)

    @property
    def as_written(self) -> Self:
        """Return it as its own file has it: what countries put in its place is left aside."""
        return self

    @property
    def roots(self) -> tuple[Node, ...]:
        """Return the trees of its conditions or its formula."""
        raise NotImplementedError

    @property
    def expressions(self) -> Mapping[str, tuple[Node, str]]:
        """Return each expression of its file, by key: the checked tree, and the text as written."""
        raise NotImplementedError

    @property
    def functions(self) -> Mapping[str, Function]:
        """Return each expression of its file, by key, compiled."""
        raise NotImplementedError

    @property
    def variables(self) -> dict[str, str]:
        """Return the path of the list that the name of an item stands for, by that name."""
        return variables_of(self.each)

    @property
    def from_memory(self) -> bool:
        """Say whether anything it cites was written from memory."""
        return any(citation.recall for citation in self.citations)

    def place(self, *inside: str | int) -> str:
        """Return ``file:line`` of a key of it, given by the steps that lead to the key."""
        line, _ = self.source.places.of((*self._steps, *inside))
        return f"{self.source.file.name}:{line}"

    @property
    def _steps(self) -> tuple[str, ...]:
        """Return the steps that lead to it in its file; none for a rule, which has its own file."""
        return (self.name.replace(" ", "-"),)

    def _compiled_from(self, name: str) -> Node | None:
        """Return the tree that an attribute is compiled from; None of any other attribute."""
        raise NotImplementedError

    def _worked_out(self, name: str) -> Mapping[str, Any]:
        tree = self._compiled_from(name)
        return {} if tree is None else {name: compile_function(tree, self.variables)}
