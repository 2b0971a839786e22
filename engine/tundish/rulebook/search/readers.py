"""Who reads a fact: the rules, quantities and parts that look at it, the most serious first."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any, Generic, TypeVar

from tundish.groundwork.dataclass import dataclass
from tundish.rulebook.link.facts_read import facts_read, facts_read_directly
from tundish.rulebook.model.choices import SEVERITIES
from tundish.rulebook.model.definition import Definition
from tundish.rulebook.model.provision import Provision
from tundish.rulebook.model.rule import DerivedQuantity, Rule
from tundish.rulebook.rulebook import Rulebook

Defined = TypeVar("Defined", bound=Definition)


@dataclass(frozen=True, slots=True)
class Reader(Generic[Defined]):
    """Something that reads a fact.

    Attributes:
        definition: The rule, quantity or part.
        directly: Whether it names the fact itself, with no quantity in between.
    """

    definition: Defined
    directly: bool


@dataclass(frozen=True)
class Readers:
    """What reads each fact of a job, by the fact's path.

    Attributes:
        rules: The rules.
        quantities: The quantities.
        parts: The parts of the order list.
    """

    rules: Mapping[str, tuple[Reader[Rule], ...]]
    quantities: Mapping[str, tuple[Reader[DerivedQuantity], ...]]
    parts: Mapping[str, tuple[Reader[Provision], ...]]

    @classmethod
    def of(cls, rulebook: Rulebook) -> Readers:
        """Gather what the rules, quantities and parts of a rulebook read."""

        def gathered(
            definitions: Iterable[Defined],
        ) -> dict[str, tuple[Reader[Defined], ...]]:
            readers: dict[str, list[Reader[Defined]]] = {}
            for definition in definitions:
                directly = facts_read_directly(definition)
                for path in facts_read(definition, rulebook.quantities):
                    readers.setdefault(path, []).append(Reader(definition, path in directly))
            return {path: tuple(own_readers) for path, own_readers in readers.items()}

        return cls(
            gathered(rulebook.rules.values()),
            gathered(rulebook.quantities.values()),
            gathered(rulebook.provisions.values()),
        )

    def rules_of(self, path: str) -> list[Reader[Rule]]:
        """Return the rules that read a fact, or anything in a group or list."""
        return sorted(_within(self.rules, path), key=_how_serious)

    def quantities_of(self, path: str) -> list[Reader[DerivedQuantity]]:
        """Return the quantities that read a fact, or anything in a group or list."""
        return sorted(_within(self.quantities, path), key=_how_directly)

    def parts_of(self, path: str) -> list[Reader[Provision]]:
        """Return the parts that read a fact, or anything in a group or list."""
        return sorted(_within(self.parts, path), key=_how_directly)


def _how_directly(reader: Reader[Any]) -> tuple[bool, str]:
    return not reader.directly, reader.definition.name


def _how_serious(reader: Reader[Rule]) -> tuple[int, bool, str]:
    rule = reader.definition
    return SEVERITIES.index(rule.severity), not reader.directly, rule.name


def _within(readers: Mapping[str, tuple[Reader[Defined], ...]], path: str) -> list[Reader[Defined]]:
    """Return those of a path and of all below it, each once, as directly as it reads any."""
    by_identity: dict[int, Reader[Defined]] = {}
    inside = f"{path}."
    for read, path_readers in readers.items():
        if read == path or read.startswith(inside):
            for reader in path_readers:
                if reader.directly or id(reader.definition) not in by_identity:
                    by_identity[id(reader.definition)] = reader
    return list(by_identity.values())
