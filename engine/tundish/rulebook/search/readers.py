"""Who reads a fact: the rules, quantities and parts that look at it, the most serious first."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from typing import Generic, TypeVar

from tundish.groundwork.dataclass import dataclass
from tundish.rulebook.link.facts_read import (
    facts_read,
    facts_read_directly,
    facts_read_directly_in,
    facts_read_in,
)
from tundish.rulebook.model.provision import Provision
from tundish.rulebook.model.rule import DerivedQuantity, Rule
from tundish.rulebook.model.words import SEVERITIES
from tundish.rulebook.rulebook import Rulebook

Holder = TypeVar("Holder", Rule, DerivedQuantity, Provision)


@dataclass(frozen=True, slots=True)
class Reader(Generic[Holder]):
    """Something that reads a fact.

    Attributes:
        holder: The rule, quantity or part.
        directly: Whether it names the fact itself, with no quantity in between.
    """

    holder: Holder
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

        def read_in(holder: DerivedQuantity | Provision) -> frozenset[str]:
            return facts_read_in(holder, rulebook)

        rules = _by_fact(
            rulebook.rules.values(), lambda one: facts_read(one, rulebook), facts_read_directly
        )
        quantities = _by_fact(rulebook.quantities.values(), read_in, facts_read_directly_in)
        parts = _by_fact(rulebook.provisions.values(), read_in, facts_read_directly_in)
        return cls(rules, quantities, parts)

    def rules_of(self, path: str) -> list[Reader[Rule]]:
        """Return the rules that read a fact, or anything in a group or list."""
        return sorted(_within(self.rules, path), key=_how_serious)

    def quantities_of(self, path: str) -> list[Reader[DerivedQuantity]]:
        """Return the quantities that read a fact, or anything in a group or list."""
        return sorted(_within(self.quantities, path), key=lambda one: not one.directly)

    def parts_of(self, path: str) -> list[Reader[Provision]]:
        """Return the parts that read a fact, or anything in a group or list."""
        return sorted(_within(self.parts, path), key=lambda one: not one.directly)


def _how_serious(reader: Reader[Rule]) -> tuple[int, bool, str]:
    rule = reader.holder
    return SEVERITIES.index(rule.severity), not reader.directly, rule.name


def _within(readers: Mapping[str, tuple[Reader[Holder], ...]], path: str) -> list[Reader[Holder]]:
    """Return those of a path and of all below it, each once, as directly as it reads any."""
    found: dict[int, Reader[Holder]] = {}
    inside = f"{path}."
    for each, those in readers.items():
        if each == path or each.startswith(inside):
            for one in those:
                if one.directly or id(one.holder) not in found:
                    found[id(one.holder)] = one
    return list(found.values())


def _by_fact(
    holders: Iterable[Holder],
    whole: Callable[[Holder], frozenset[str]],
    direct: Callable[[Holder], frozenset[str]],
) -> dict[str, tuple[Reader[Holder], ...]]:
    found: dict[str, list[Reader[Holder]]] = {}
    for holder in holders:
        directly = direct(holder)
        for path in whole(holder):
            found.setdefault(path, []).append(Reader(holder, path in directly))
    return {path: tuple(readers) for path, readers in found.items()}
