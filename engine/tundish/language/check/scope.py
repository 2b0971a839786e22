"""What the names in an expression mean: facts of the job, quantities, tables."""

from __future__ import annotations

import math
from collections.abc import Collection, Iterator, Mapping
from dataclasses import field

from tundish.groundwork.dataclass import dataclass
from tundish.language.operations.functions import CONSTANTS
from tundish.language.operations.table import Table
from tundish.language.tree.kind import Kind
from tundish.units.unit import Unit


@dataclass(frozen=True, slots=True)
class Meaning:
    """What a name stands for.

    Attributes:
        kind: The kind of its value.
        label: A short noun phrase for use in a sentence.
        unit: Of a quantity, the unit it is usually given in.
        least: Of a quantity, the least that it can be [SI units].
    """

    kind: Kind
    label: str
    unit: Unit | None = None
    least: float = -math.inf


@dataclass(frozen=True, slots=True)
class Scope:
    """All names an expression may use.

    Attributes:
        facts: Job facts by path; those of list items by the list's path, without positions
            (``electricity.circuit.power``).
        quantities: The rulebook's quantities by (path of the list they belong to or "", name).
        tables: The rulebook's tables by name.
        refused: Names of facts, quantities and tables that are declared, yet wrongly. What uses one
            is not told as well: it is right once the declaration is.
    """

    facts: Mapping[str, Meaning]
    quantities: Mapping[tuple[str, str], Meaning] = field(default_factory=dict)
    tables: Mapping[str, Table] = field(default_factory=dict)
    refused: Collection[str] = ()

    def names(self, variables: Mapping[str, str]) -> Iterator[str]:
        """Give every name that could stand in an expression with these loop variables."""
        yield from self.facts
        yield from (name for of, name in self.quantities if not of)
        for variable, path in variables.items():
            for fact in self.facts:
                if fact.startswith(path + "."):
                    yield variable + fact[len(path) :]
            yield from (f"{variable}.{name}" for of, name in self.quantities if of == path)

    def was_refused(self, name: str) -> bool:
        """Say whether a name, or the last part of one of an item, was declared wrongly."""
        return bool(self.refused) and (
            name in self.refused or name.rpartition(".")[2] in self.refused
        )

    def is_taken(self, word: str) -> bool:
        """Say whether a word already names a part of the job or a quantity, or is reserved."""
        # Loaded here, as only linking asks: the lexer's tokens come with it.
        from tundish.language.syntax.tokens import RESERVED

        named = word in self.facts or ("", word) in self.quantities
        return named or word in CONSTANTS or word in RESERVED
