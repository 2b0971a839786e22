"""Columns: one value of many jobs as an array, or one constant that all of them share.

Numbers are floats, of which not-a-number stands for unknown. Truths are 0, 1 and 2 for false,
unknown and true, so that Kleene's `and` and `or` are the lesser and the greater. Texts, and lists
of texts, are their place in a vocabulary, of which -1 stands for unknown.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import field
from typing import Any, TypeAlias

import numpy as np
from numpy.typing import NDArray

from tundish.groundwork.dataclass import dataclass
from tundish.language.tree.kind import PLAIN_NUMBER, TRUTH, Kind

Array: TypeAlias = NDArray[Any]

FALSE, UNKNOWN, TRUE = 0, 1, 2
"""Truths as a column has them."""

NO_WORD = -1
"""The place of an unknown text."""


class Vocabulary:
    """A register of texts and lists of texts: each gets a number when it first comes."""

    def __init__(self) -> None:
        self._places: dict[object, int] = {}
        self._words: list[object] = []

    def place(self, word: object) -> int:
        """Return the place of a text, a new one if it has none yet."""
        place = self._places.get(word)
        if place is None:
            place = self._places[word] = len(self._words)
            self._words.append(word)
        return place

    def word(self, place: int) -> object:
        """Return what stands at a place; nothing at that of an unknown text."""
        return None if place == NO_WORD else self._words[place]


@dataclass(slots=True)
class Chunk:
    """Some jobs at a time.

    Attributes:
        rows: How many there are.
        columns: Facts that differ between them, by path; groups of facts as truths.
        computed: Columns of quantities, by number, so that each is computed once.
    """

    rows: int
    columns: Mapping[str, Array]
    computed: dict[int, Array] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Uniform:
    """A value that all jobs share; None where it is unknown."""

    value: Any


Varying: TypeAlias = Callable[[Chunk], Array]
"""A value that differs between jobs: computes its column of a chunk."""

ColumnValue: TypeAlias = Uniform | Varying
"""The value of a part of an expression, over many jobs."""

NOT_KNOWN = Uniform(None)


def is_number(kind: Kind) -> bool:
    """Say whether values of a kind are numbers; days are."""
    return kind.name in ("quantity", "date")


def is_truth(kind: Kind) -> bool:
    """Say whether values of a kind are truths; whether a group of facts is there is one."""
    return kind.name in ("truth", "record")


def encoded(value: Any, kind: Kind, words: Vocabulary) -> float | int:
    """Return a value, or None for unknown, as a column of its kind has it."""
    if is_number(kind):
        return float("nan") if value is None else float(value)
    if is_truth(kind):
        return UNKNOWN if value is None else TRUE if value else FALSE
    return NO_WORD if value is None else words.place(value)


def decoded(raw: Any, kind: Kind, words: Vocabulary) -> Any:
    """Return a value as rules know it, or None for unknown, from what a column has."""
    if is_number(kind):
        return None if raw != raw else float(raw)
    if is_truth(kind):
        return None if raw == UNKNOWN else bool(raw)
    return words.word(int(raw))


def column_of(values: list[Any], kind: Kind, words: Vocabulary) -> Array:
    """Return values as a column of their kind."""
    return np.array([encoded(value, kind, words) for value in values], dtype=type_of(kind))


def type_of(kind: Kind) -> Any:
    """Return what the items of a column of a kind are."""
    return np.float64 if is_number(kind) else np.uint8 if is_truth(kind) else np.int32


def known_in(column: Array) -> Array:
    """Return where a column is known."""
    if column.dtype == np.float64:
        return ~np.isnan(column)
    return np.not_equal(column, UNKNOWN if column.dtype == np.uint8 else NO_WORD)


def as_varying(part: ColumnValue, kind: Kind, words: Vocabulary) -> Varying:
    """Return a value as one that varies; a uniform one becomes an array of one."""
    if not isinstance(part, Uniform):
        return part
    constant = np.array([encoded(part.value, kind, words)], dtype=type_of(kind))
    return lambda _: constant


def number_column(part: ColumnValue) -> Varying:
    """Return a quantity as one that varies."""
    return as_varying(part, PLAIN_NUMBER, _NO_TEXTS)


def truth_column(part: ColumnValue) -> Varying:
    """Return a condition as one that varies."""
    return as_varying(part, TRUTH, _NO_TEXTS)


_NO_TEXTS = Vocabulary()
