"""Operations over columns; value by value where numpy has nothing that agrees to the last bit.

The logarithms and powers of numpy may differ from Python's in the last bit, and physics iterates.
There the ordinary function is called, once for each distinct set of values in a chunk.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any

import numpy as np

from tundish.language.evaluate.columns import values as c
from tundish.language.evaluate.columns.column import (
    NOT_KNOWN,
    Array,
    Chunk,
    ColumnValue,
    Uniform,
    Varying,
    Vocabulary,
    as_varying,
    decoded,
    encoded,
    known_in,
    type_of,
)
from tundish.language.operations import values as v
from tundish.language.tree.kind import Kind
from tundish.language.tree.operation import Operation

Argument = tuple[ColumnValue, Kind]


def by_distinct(
    function: Callable[..., Any], arguments: Sequence[Argument], kind: Kind, words: Vocabulary
) -> ColumnValue:
    """Ask a function once for each distinct set of values.

    Args:
        function: Takes values as rules know them, None for unknown, and gives such a value.
        arguments: The parts it is asked of, with their kinds.
        kind: The kind of what it gives.
        words: Where texts stand.
    """
    varying = [(part, of) for part, of in arguments if not isinstance(part, Uniform)]
    if not varying:
        return Uniform(
            function(*(part.value for part, _ in arguments if isinstance(part, Uniform)))
        )
    places = [at for at, (part, _) in enumerate(arguments) if not isinstance(part, Uniform)]
    start = [part.value if isinstance(part, Uniform) else None for part, _ in arguments]
    kinds = [of for _, of in varying]
    parts = [part for part, _ in varying]

    def apply_to(raw: tuple[Any, ...]) -> float | int:
        values = list(start)
        for at, of, value in zip(places, kinds, raw, strict=True):
            values[at] = None if value is None else decoded(value, of, words)
        return encoded(function(*values), kind, words)

    def work(chunk: Chunk) -> Array:
        keys = list(zip(*(_raw(part(chunk), chunk.rows) for part in parts), strict=True))
        results = {key: apply_to(key) for key in dict.fromkeys(keys)}
        return np.array([results[key] for key in keys], dtype=type_of(kind))

    return work


def strictly_by_distinct(
    function: Callable[..., Any], arguments: Sequence[Argument], kind: Kind, words: Vocabulary
) -> ColumnValue:
    """Call a function for known arguments alone; elsewhere the result is unknown."""
    if any(isinstance(part, Uniform) and part.value is None for part, _ in arguments):
        return Uniform(None)
    return by_distinct(
        lambda *values: None if None in values else function(*values), arguments, kind, words
    )


def _raw(column: Array, rows: int) -> list[Any]:
    """Return a column as a list of Python values; not-a-number, which equals nothing, is None."""
    column = np.broadcast_to(column, rows)
    raw: list[Any] = column.tolist()
    if column.dtype == np.float64:
        for at in np.flatnonzero(~known_in(column)).tolist():
            raw[at] = None
    return raw


def mapped(function: Callable[..., Any], parts: Sequence[Varying]) -> Varying:
    """Ask a quick function of numbers of every job; unknown where it does not hold."""

    def work(chunk: Chunk) -> Array:
        columns = [np.broadcast_to(part(chunk), chunk.rows) for part in parts]
        known = np.logical_and.reduce([known_in(column) for column in columns])
        result = np.full(chunk.rows, np.nan)
        result[known] = _of_each(function, [column[known].tolist() for column in columns])
        return c.finite(result)

    return work


def distinctly_mapped(function: Callable[..., Any], parts: Sequence[Varying]) -> Varying:
    """Ask a function of numbers once for each distinct set of them that is known."""

    def work(chunk: Chunk) -> Array:
        columns = [np.broadcast_to(part(chunk), chunk.rows) for part in parts]
        known = np.logical_and.reduce([known_in(column) for column in columns])
        keys = list(zip(*(column[known].tolist() for column in columns), strict=True))
        distinct = dict.fromkeys(keys)
        arguments = list(zip(*distinct, strict=True)) or [()]
        results = dict(zip(distinct, _of_each(function, arguments), strict=True))
        numbers = np.full(chunk.rows, np.nan)
        numbers[known] = [results[key] for key in keys]
        return c.finite(numbers)

    return work


def _of_each(function: Callable[..., Any], lists: Sequence[Sequence[float]]) -> list[float]:
    """Ask a function of all sets of values at once or, where one is refused, of each by itself."""
    try:
        return list(map(function, *lists))
    except v.DOES_NOT_HOLD:
        return [_one(function, values) for values in zip(*lists, strict=True)]


def _one(function: Callable[..., Any], values: Sequence[float]) -> float:
    try:
        return float(function(*values))
    except v.DOES_NOT_HOLD:
        return float("nan")


def operated(operation: Operation, arguments: Sequence[Argument], words: Vocabulary) -> ColumnValue:
    """Apply an operator or a function to its arguments."""
    constants = [part.value for part, _ in arguments if isinstance(part, Uniform)]
    if len(constants) == len(arguments):
        return Uniform(v.apply(operation.calculate, *constants))
    if None in constants:
        return NOT_KNOWN
    parts = [as_varying(part, of, words) for part, of in arguments]
    columns = operation.columns
    if columns is None:
        apply_each = mapped if operation.is_quick else distinctly_mapped
        return apply_each(operation.calculate, parts)
    if operation.is_finite:
        return lambda chunk: columns(np, *[part(chunk) for part in parts])
    return lambda chunk: c.finite(columns(np, *[part(chunk) for part in parts]))
