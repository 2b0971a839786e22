"""What the facts of a job may be, by the bounds of their kinds, once somebody states them."""

from __future__ import annotations

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
from tundish.language.evaluate.ranges.range import Choices, Range, interval
from tundish.language.tree.tree import Value
from tundish.rulebook.model.declared_facts import Declared, kind_of
from tundish.text.bounds import GREATEST_COUNT


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

    def may_be_absent(self, path: str) -> bool:
        """Say whether "none" may be written for a group of facts."""
        entry = job_schema().find(path)
        return isinstance(entry, Record) and entry.can_be_absent
