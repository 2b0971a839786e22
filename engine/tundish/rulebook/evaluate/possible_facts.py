"""What the facts of a job may be, by the bounds of their kinds, once somebody states them."""

from __future__ import annotations

import math
import zlib
from collections.abc import Callable, Mapping, Sequence

from tundish.groundwork.dataclass import dataclass
from tundish.job.model.kinds import (
    ChoiceKind,
    FactKind,
    NumberKind,
    QuantityKind,
    TextsKind,
    TruthKind,
    WholeKind,
)
from tundish.job.model.schema import Record
from tundish.job.schema import entry_at
from tundish.language.evaluate.ranges.range import Choices, Interval, Range, interval
from tundish.language.tree.tree import Value
from tundish.rulebook.model.constraint import Bound
from tundish.rulebook.model.declared_facts import Declared, kind_of
from tundish.text.bounds import GREATEST_COUNT
from tundish.units.quantity import parse_quantity

_SHARES = (0.0, 0.25, 1.0, 4.0, 20.0)
"""What an unknown figure is tried at, as shares of what is usual; a point of a scale as far off."""


@dataclass(frozen=True, slots=True)
class _Fact:
    """What one fact may be: its range, all that it can be, and some that it is tried at."""

    range: Range
    options: tuple[Value, ...]
    samples: tuple[Value, ...]
    first: int


class PossibleFacts:
    """What facts may be; a path is that of the schema, lists without positions.

    Args:
        declared: What packs declare, by name.
        granted: Facts of which something holds until they are known.
        bounds_on: Gives how a fact is bounded by other facts.
    """

    def __init__(
        self,
        declared: Mapping[str, Declared],
        granted: frozenset[str],
        bounds_on: Callable[[str], Sequence[Bound]],
    ) -> None:
        self._declared = declared
        self._granted = granted
        self.bounds_on = bounds_on
        self._facts: dict[str, _Fact] = {}

    def range_of(self, path: str) -> Range:
        """Return where a fact lies once it is stated; None where nothing bounds it."""
        return self._fact(path).range

    def options(self, path: str) -> Sequence[Value]:
        """Return all that a fact can be, where that is one of a few; or whether a group is."""
        return self._fact(path).options

    def sample(self, path: str, number: int) -> Value | None:
        """Return one of what a fact can be; another number mostly gives another."""
        fact = self._fact(path)
        samples = fact.samples
        # Steps that differ between facts, so that not all are great or true together.
        return samples[fact.first * (number + 1) % len(samples)] if samples else None

    def probed(self, path: str, number: int) -> Value | None:
        """Return the sample of a fact, but nothing where something holds until it is known."""
        return None if path in self._granted else self.sample(path, number)

    def presence(self, path: str) -> bool | None:
        """Return whether a group of facts is there; None where "none" may be written for it."""
        entry = entry_at(path)
        return None if isinstance(entry, Record) and entry.can_be_absent else True

    def _fact(self, path: str) -> _Fact:
        fact = self._facts.get(path)
        if fact is None:
            kind = kind_of(path, self._declared)
            if kind is None:
                options: tuple[Value, ...] = (True, False) if self.presence(path) is None else ()
            else:
                options = _options(kind)
            bounds = None if kind is None else _range(kind)
            samples = options or _samples(kind, bounds)
            # Prime to the number of samples, so that steps of it reach them all.
            first = 1 + zlib.crc32(path.encode()) % 1009
            while samples and math.gcd(first, len(samples)) > 1:
                first += 1
            fact = self._facts[path] = _Fact(bounds, options, samples, first)
        return fact


def _options(kind: FactKind) -> tuple[Value, ...]:
    match kind:
        case TruthKind():
            return (True, False)
        case ChoiceKind(choices=choices):
            return choices
        case WholeKind(options=options):
            return tuple(map(float, options))
    return ()


def _range(kind: FactKind) -> Range:
    match kind:
        case QuantityKind():
            return interval(*kind.bounds_in_si)
        case NumberKind(least=least, most=most):
            return interval(least, most)
        case WholeKind(options=options):
            ends = (min(options), max(options)) if options else (0, GREATEST_COUNT)
            return interval(*map(float, ends))
        case ChoiceKind(choices=choices):
            return Choices(choices)
    return None


def _samples(kind: FactKind | None, bounds: Range) -> tuple[Value, ...]:
    if isinstance(kind, TextsKind):
        return ((), kind.choices, kind.choices[::2], kind.choices[1::2])
    if not isinstance(bounds, Interval):
        return ()
    usual, is_point = 10.0, False
    if isinstance(kind, QuantityKind):
        usual, is_point = parse_quantity(kind.example).si, kind.point
    sizes = (usual + 20 * (share - 1) if is_point else usual * share for share in _SHARES)
    return tuple(float(min(max(size, bounds.low), bounds.high)) for size in sizes)


class ChosenFacts:
    """What facts may be once all that can be one of a few is chosen in some way.

    Args:
        possible: What facts may be.
        number: The number of the choice.
    """

    def __init__(self, possible: PossibleFacts, number: int) -> None:
        self._possible, self._number = possible, number
        self.bounds_on = possible.bounds_on

    def range_of(self, path: str) -> Range:
        """Return what was chosen of a fact, or else where it lies; None if nothing bounds it."""
        possible = self._possible
        return (
            possible.sample(path, self._number)
            if possible.options(path)
            else possible.range_of(path)
        )

    def options(self, path: str) -> Sequence[Value]:
        """Return nothing: whatever is one of a few is chosen."""
        return ()

    def presence(self, path: str) -> bool | None:
        """Return whether a group of facts is there, as it was chosen."""
        possible = self._possible
        may_be = possible.presence(path) is None
        return bool(possible.sample(path, self._number)) if may_be else True
