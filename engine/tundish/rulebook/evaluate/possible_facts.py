"""What the facts of a job may be, by the bounds of their kinds, once somebody states them."""

from __future__ import annotations

import zlib
from collections.abc import Callable, Mapping, Sequence
from functools import cache

from tundish.job.model.kinds import (
    ChoiceKind,
    FactKind,
    NumberKind,
    QuantityKind,
    TruthKind,
    WholeKind,
)
from tundish.job.model.schema import Record
from tundish.job.schema import job_schema
from tundish.language.evaluate.ranges.range import Choices, Interval, Range, interval
from tundish.language.tree.tree import Value
from tundish.rulebook.model.declared_facts import Declared, kind_of
from tundish.text.bounds import GREATEST_COUNT
from tundish.units.quantity import parse_quantity

_SHARES = (0.0, 0.25, 1.0, 4.0, 20.0)
"""What an unknown figure is tried at, as shares of what is usual; a point of a scale as far off."""


class PossibleFacts:
    """What facts may be; a path is that of the schema, lists without positions.

    Args:
        declared: What packs declare, by name.
    """

    def __init__(self, declared: Mapping[str, Declared]) -> None:
        self._kind_of: Callable[[str], FactKind | None] = cache(
            lambda path: kind_of(path, declared)
        )

    def range_of(self, path: str) -> Range:
        """Return where a fact lies once it is stated; None where nothing bounds it."""
        match self._kind_of(path):
            case QuantityKind() as kind:
                return interval(*kind.bounds_in_si)
            case NumberKind(least=least, most=most):
                return interval(least, most)
            case WholeKind(options=options):
                return interval(min(options, default=0), max(options, default=GREATEST_COUNT))
            case ChoiceKind(choices=choices):
                return Choices(choices)
            case _:
                return None

    def options(self, path: str) -> Sequence[Value]:
        """Return all that a fact can be, where that is one of a few; or whether a group is."""
        match self._kind_of(path):
            case TruthKind():
                return (True, False)
            case ChoiceKind(choices=choices):
                return choices
            case WholeKind(options=options):
                return tuple(map(float, options))
            case None if self.may_be_absent(path):
                return (True, False)
            case _:
                return ()

    def sample(self, path: str, number: int) -> Value | None:
        """Return one of what a fact can be; another number mostly gives another."""
        chance = zlib.crc32(f"{path} {number}".encode()) >> 4
        if options := self.options(path):
            return options[chance % len(options)]
        kind, bounds = self._kind_of(path), self.range_of(path)
        if not isinstance(bounds, Interval):
            return None
        usual, is_point = 10.0, False
        if isinstance(kind, QuantityKind):
            usual, is_point = parse_quantity(kind.example).si, kind.point
        share = _SHARES[chance % len(_SHARES)]
        size = usual + 20 * (share - 1) if is_point else usual * share
        return float(min(max(size, bounds.low), bounds.high))

    def may_be_absent(self, path: str) -> bool:
        """Say whether "none" may be written for a group of facts."""
        entry = job_schema().find(path)
        return isinstance(entry, Record) and entry.can_be_absent
