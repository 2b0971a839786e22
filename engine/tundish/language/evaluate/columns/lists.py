"""Loops over the lists that all jobs share: item by item, over a column of jobs each time."""

from __future__ import annotations

from collections.abc import Callable, Sequence

import numpy as np

from tundish.language.evaluate.columns.calls import by_distinct
from tundish.language.evaluate.columns.column import (
    FALSE,
    NOT_KNOWN,
    TRUE,
    UNKNOWN,
    Array,
    Chunk,
    ColumnValue,
    Uniform,
    Varying,
    Vocabulary,
    number_column,
    truth_column,
)
from tundish.language.evaluate.columns.values import finite, logic, opposite
from tundish.language.operations.aggregates import AGGREGATES
from tundish.language.tree import tree as t
from tundish.language.tree.kind import TRUTH

Round = tuple[ColumnValue, ColumnValue]
"""Whether an item counts, and the value of its term."""


def looped(node: t.Loop, rounds: Sequence[Round], is_open: bool, words: Vocabulary) -> ColumnValue:
    """Return what a loop makes of its rounds.

    Args:
        node: The loop.
        rounds: One an item that may count, in the order of the list.
        is_open: Whether there may be more items.
        words: Where texts stand.
    """
    aggregate = AGGREGATES[node.function]
    if is_open:
        # An item of which nothing is known leaves open whatever the others do not settle.
        if aggregate.settles is None:
            return NOT_KNOWN
        rounds = [*rounds, (NOT_KNOWN, NOT_KNOWN)]
    value = aggregate.value
    constants = [
        (test.value, term.value)
        for test, term in rounds
        if isinstance(test, Uniform) and isinstance(term, Uniform)
    ]
    if len(constants) == len(rounds):
        return Uniform(value(constants))
    if node.function in _OF_ARRAYS:
        return _OF_ARRAYS[node.function](rounds)

    def of_cells(*cells: t.Value | None) -> t.Value | None:
        return value(list(zip(cells[::2], cells[1::2], strict=True)))

    kinds = TRUTH, node.term.kind
    arguments = [cell for pair in rounds for cell in zip(pair, kinds, strict=True)]
    return by_distinct(of_cells, arguments, node.kind, words)


def _counted(parts: Sequence[ColumnValue]) -> Varying:
    counting = [truth_column(part) for part in parts]

    def work(chunk: Chunk) -> Array:
        number = np.zeros(chunk.rows)
        for part in counting:
            truths = part(chunk)
            number = number + np.where(truths == UNKNOWN, np.nan, truths == TRUE)
        return number

    return work


def _summed(rounds: Sequence[Round]) -> Varying:
    steps = [(truth_column(test), number_column(term)) for test, term in rounds]

    def work(chunk: Chunk) -> Array:
        total = np.zeros(chunk.rows)
        for test, term in steps:
            counts = test(chunk)
            added = np.where(counts == UNKNOWN, np.nan, total + term(chunk))
            total = finite(np.where(counts == FALSE, total, added))
        return total

    return work


def _extreme(greatest: bool, rounds: Sequence[Round]) -> Varying:
    steps = [(truth_column(test), number_column(term)) for test, term in rounds]

    def work(chunk: Chunk) -> Array:
        extreme = np.full(chunk.rows, np.nan)
        lost = np.zeros(chunk.rows, bool)
        for test, term in steps:
            counts, number = test(chunk), term(chunk)
            lost = lost | ((counts != FALSE) & ((counts == UNKNOWN) | (number != number)))
            further = (number > extreme) if greatest else (number < extreme)
            is_first = extreme != extreme
            extreme = np.where((counts == TRUE) & (further | is_first), number, extreme)
        return np.where(lost, np.nan, extreme)

    return work


_OF_ARRAYS: dict[str, Callable[[Sequence[Round]], ColumnValue]] = {
    "all": lambda rounds: logic(
        "and", [logic("or", [opposite(test), term]) for test, term in rounds]
    ),
    "any": lambda rounds: logic("or", [logic("and", [test, term]) for test, term in rounds]),
    "count": lambda rounds: _counted([logic("and", [test, term]) for test, term in rounds]),
    "sum": _summed,
    "least": lambda rounds: _extreme(False, rounds),
    "greatest": lambda rounds: _extreme(True, rounds),
}
"""Aggregates that numpy works out quicker than value by value."""
