"""The range that a quantity can have: what its file says, or else what its kind says."""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import NamedTuple

from tundish.language.check.scope import Meaning
from tundish.language.check.signs import is_never_negative
from tundish.language.tree.kind import Kind
from tundish.language.tree.tree import Node, Within
from tundish.rulebook.files.file_shapes import QuantityShape
from tundish.rulebook.link.expressions import Linker
from tundish.rulebook.model.rule_file import RuleFile
from tundish.text.place import Path
from tundish.units.dimension import LEVEL
from tundish.units.quantity import parse_quantity
from tundish.units.unit import MeasureError, Unit

NO_BOUND = "none"
"""What a quantity says whose kind is bounded and which is not."""


class Ranged(NamedTuple):
    """A formula that is unknown beyond its range, and the ends of that [SI units], if any."""

    root: Node
    at_least: float | None = None
    at_most: float | None = None


class _Limit(NamedTuple):
    """An end of a range as a file states it; its value is None where there is no end."""

    value: float | None
    is_wrong: bool = False


def within_range(
    root: Node,
    meaning: Meaning,
    shape: QuantityShape,
    file: RuleFile,
    at: Path,
    linker: Linker,
    variables: Mapping[str, str],
) -> Ranged:
    """Return a formula that is unknown where it leaves the range of its quantity.

    Args:
        root: The checked formula.
        meaning: What the quantity is.
        shape: What its file says.
        file: The file.
        at: Where the quantity stands in it.
        linker: Notes what is wrong.
        variables: The lists that names of items stand for.
    """
    stated = {key: getattr(shape, key) for key in ("at_least", "at_most")}
    if meaning.unit is None:
        if any(stated.values()):
            linker.note(file, at, "Only a quantity with a 'unit' has 'at_least' and 'at_most'.")
        return Ranged(root)
    if any(stated.values()) != bool(shape.range_because):
        sentence = "A quantity that states 'at_least' or 'at_most' says why in 'range_because'."
        linker.note(file, at, sentence)
        return Ranged(root)
    limits = {key: _limit(text, meaning, file, (*at, key), linker) for key, text in stated.items()}
    least, greatest = limits["at_least"].value, limits["at_most"].value
    if any(limit.is_wrong for limit in limits.values()):
        return Ranged(root)
    of_kind = least_of_kind(meaning.kind) if shape.at_least is None else None
    lowest = of_kind if least is None else least
    if lowest is not None and greatest is not None and lowest >= greatest:
        linker.note(file, (*at, "at_most"), "Nothing lies below that, as the least is more.")
        return Ranged(root)

    def within(inner: Node, low: float | None, high: float | None, because: str) -> Node:
        if low is None and high is None:
            return inner
        place = (inner.start, inner.end)
        assert meaning.unit is not None
        return Within(meaning.kind, *place, inner, low, high, meaning.label, meaning.unit, because)

    if not is_never_negative(root, linker.scope, variables):
        root = within(root, of_kind, None, "")
    root = within(root, least, greatest, shape.range_because or "")
    return Ranged(root, lowest, greatest)


def least_of_kind(kind: Kind) -> float | None:
    """Return the least that a kind of quantity can be [SI units]; None for sound levels.

    No amount is below nothing and no temperature below absolute zero, which is 0 K.
    """
    return None if kind.dimension == LEVEL else 0.0


def least_declared(shape: QuantityShape, kind: Kind) -> float:
    """Return the least that a quantity can be [SI units], as far as its declaration tells."""
    least = least_of_kind(kind) if kind.name == "quantity" and shape.at_least is None else None
    return -math.inf if least is None else least


def _limit(text: str | None, meaning: Meaning, file: RuleFile, at: Path, linker: Linker) -> _Limit:
    """Return a limit as a file states it; note what is wrong with it."""
    if text is None or text == NO_BOUND:
        return _Limit(None)
    unit = meaning.unit
    assert isinstance(unit, Unit)
    plain = unit.dimension.is_number and text[-1:].isdigit()
    try:
        limit = parse_quantity(f"{text} 1" if plain else text)
    except MeasureError as error:
        linker.note(file, at, str(error))
        return _Limit(None, is_wrong=True)
    is_other_scale = limit.unit.point != meaning.kind.point and unit.dimension != LEVEL
    if limit.dimension != unit.dimension or is_other_scale:
        linker.note(file, at, f"'{text}' is not {meaning.kind}.")
        return _Limit(None, is_wrong=True)
    return _Limit(limit.si)
