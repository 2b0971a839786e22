"""Who reads a fact: the rules, quantities and parts that look at it, the most serious first."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from typing import Generic, TypeVar

from tundish.groundwork.dataclass import dataclass
from tundish.rulebook.provision import Provision
from tundish.rulebook.reads import (
    facts_read,
    facts_read_directly,
    facts_read_directly_in,
    facts_read_in,
)
from tundish.rulebook.rule import DerivedQuantity, Rule
from tundish.rulebook.rulebook import Rulebook
from tundish.rulebook.shapes import SEVERITIES

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
        rules: The rules, worst first; of one severity those first that name the fact itself.
        quantities: The quantities.
        parts: The parts of the order list.
    """

    rules: Mapping[str, tuple[Reader[Rule], ...]]
    quantities: Mapping[str, tuple[Reader[DerivedQuantity], ...]]
    parts: Mapping[str, tuple[Reader[Provision], ...]]

    @classmethod
    def of(cls, rulebook: Rulebook) -> Readers:
        """Gather what the rules, quantities and parts of a rulebook read."""
        worst_first = sorted(
            rulebook.rules.values(), key=lambda rule: (SEVERITIES.index(rule.severity), rule.name)
        )
        rules = _by_fact(
            worst_first, lambda one: facts_read(one, rulebook), facts_read_directly
        )
        ordered = {
            path: tuple(
                sorted(
                    readers,
                    key=lambda one: (SEVERITIES.index(one.holder.severity), not one.directly),
                )
            )
            for path, readers in rules.items()
        }
        quantities = _by_fact(
            rulebook.quantities.values(),
            lambda one: facts_read_in(one, rulebook),
            facts_read_directly_in,
        )
        parts = _by_fact(
            rulebook.provisions.values(),
            lambda one: facts_read_in(one, rulebook),
            facts_read_directly_in,
        )
        return cls(ordered, quantities, parts)

    def rules_of(self, path: str) -> tuple[Reader[Rule], ...]:
        """Return the rules that read a fact."""
        return self.rules.get(path, ())


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
