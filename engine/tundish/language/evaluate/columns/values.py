"""Arithmetic, comparison and logic over columns; each gives what `values` gives row by row.

Sums, differences, products, quotients and square roots are rounded alike by numpy and by Python,
so results are the same to the last bit.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Any

import numpy as np

from tundish.language.evaluate.columns.column import (
    FALSE,
    TRUE,
    UNKNOWN,
    Array,
    Chunk,
    ColumnValue,
    Uniform,
    Varying,
    known_in,
)
from tundish.language.operations import values as v
from tundish.language.operations.operators import CONNECTIVES, RELATIONS, Relation
from tundish.language.tree import tree as t


def finite(numbers: Array) -> Array:
    """Return numbers, unknown where they are infinite."""
    infinite = np.isinf(numbers)
    return np.where(infinite, np.nan, numbers) if infinite.any() else numbers


def within(operand: ColumnValue, node: t.Within) -> ColumnValue:
    """Take a quantity as unknown where it leaves its range."""
    if isinstance(operand, Uniform):
        is_beyond = operand.value is not None and not node.accepts(operand.value)
        return Uniform(None) if is_beyond else operand
    least, most = (math.nan if end is None else end for end in node.ends)

    def work(chunk: Chunk) -> Array:
        numbers = operand(chunk)
        beyond = (numbers < least) | (numbers > most)  # nothing is beyond not-a-number
        return np.where(beyond, np.nan, numbers) if beyond.any() else numbers

    return work


def negative(operand: ColumnValue) -> ColumnValue:
    """Turn the sign of a quantity."""
    if isinstance(operand, Uniform):
        return Uniform(None if operand.value is None else -operand.value)
    return lambda chunk: -operand(chunk)


def compared(relation: Relation, left: Array, right: Array) -> Array:
    """Compare numbers within the tolerance; unknown where a side is."""
    gap = left - right
    near = np.abs(gap) <= v.TOLERANCE * np.maximum(np.abs(left), np.abs(right))
    truths = truths_of(relation.holds(left, right, near))
    np.putmask(truths, gap != gap, UNKNOWN)  # the gap is not-a-number just where a side is
    return truths


def equated(relation: Relation, left: Array, right: Array) -> Array:
    """Compare texts or truths, which are equal or not; unknown where a side is."""
    truths = truths_of(relation.holds(left, right, left == right))
    np.putmask(truths, ~(known_in(left) & known_in(right)), UNKNOWN)
    return truths


def among(member: Varying, options: Sequence[Any], tolerant: bool) -> Varying:
    """Say whether a value is one of some constants, as a column has them."""

    def work(chunk: Chunk) -> Array:
        column = member(chunk)
        truths = np.zeros(column.shape, np.uint8)
        for option in options:
            if tolerant:
                same = compared(RELATIONS["=="], column, np.array([option])) == TRUE
            else:
                same = column == option
            truths |= truths_of(same)
        np.putmask(truths, ~known_in(column), UNKNOWN)
        return truths

    return work


def truths_of(answers: Array) -> Array:
    """Return answers, true or false, as truths."""
    return answers.view(np.uint8) << 1


def opposite(operand: ColumnValue) -> ColumnValue:
    """Return Kleene's negation."""
    if isinstance(operand, Uniform):
        return Uniform(v.opposite(operand.value))
    return lambda chunk: TRUE - operand(chunk)


def logic(word: str, parts: Sequence[ColumnValue]) -> ColumnValue:
    """Join conditions by Kleene's ``and`` or ``or``."""
    settles = CONNECTIVES[word].settles
    constants = [part.value for part in parts if isinstance(part, Uniform)]
    open_parts = [part for part in parts if not isinstance(part, Uniform)]
    if settles in constants:
        return Uniform(settles)
    if not open_parts:
        return Uniform(None if None in constants else not settles)
    if len(open_parts) == 1 and None not in constants:
        return open_parts[0]
    settled = TRUE if settles else FALSE
    start = UNKNOWN if None in constants else TRUE - settled
    join = np.maximum if settles else np.minimum

    def work(chunk: Chunk) -> Array:
        truths = np.full(chunk.rows, start, np.uint8)
        for part in open_parts:
            truths = join(truths, part(chunk))
            if (truths == settled).all():
                break
        return truths

    return work


def choice(condition: Varying, then: Varying, otherwise: Varying, unknown: float | int) -> Varying:
    """Choose by a condition; where that is unknown, only what both ways agree on is known."""

    def work(chunk: Chunk) -> Array:
        asked = condition(chunk)
        if (asked == TRUE).all():
            return then(chunk)
        if (asked == FALSE).all():
            return otherwise(chunk)
        first, second = then(chunk), otherwise(chunk)
        agreed = np.where(first == second, first, np.array(unknown, first.dtype))
        return np.where(asked == TRUE, first, np.where(asked == FALSE, second, agreed))

    return work


def assumed(operand: Varying, fallback: Varying) -> Varying:
    """Put a fallback where a value is unknown."""

    def work(chunk: Chunk) -> Array:
        column = operand(chunk)
        known = known_in(column)
        return column if known.all() else np.where(known, column, fallback(chunk))

    return work
