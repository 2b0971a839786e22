"""Loops over the lists that all jobs share: each item in turn, a column of jobs at a time."""

from __future__ import annotations

from collections.abc import Callable, Sequence

import numpy as np

from tundish.language.evaluate.columns.calls import by_distinct
from tundish.language.evaluate.columns.column import (
    FALSE,
    TRUE,
    UNKNOWN,
    Array,
    Chunk,
    Part,
    Same,
    Vocabulary,
    Working,
)
from tundish.language.evaluate.columns.values import finite, logic, opposite
from tundish.language.operations.aggregates import AGGREGATES
from tundish.language.tree import tree as t
from tundish.language.tree.kind import TRUTH

Round = tuple[Part, Part]
"""Whether an item counts, and the value of its term."""


def looped(node: t.Loop, rounds: Sequence[Round], words: Vocabulary) -> Part:
    """Return what a loop makes of its rounds.

    Args:
        node: The loop.
        rounds: One an item that may count, in the order of the list.
        words: Where texts stand.
    """
    value = AGGREGATES[node.function].value
    constants = [
        (test.value, term.value)
        for test, term in rounds
        if isinstance(test, Same) and isinstance(term, Same)
    ]
    if len(constants) == len(rounds):
        return Same(value(constants))
    if node.function in _OF_ARRAYS:
        return _OF_ARRAYS[node.function](rounds)

    def of_cells(*cells: t.Value | None) -> t.Value | None:
        return value(list(zip(cells[::2], cells[1::2], strict=True)))

    kinds = TRUTH, node.term.kind
    arguments = [cell for pair in rounds for cell in zip(pair, kinds, strict=True)]
    return by_distinct(of_cells, arguments, node.kind, words)


def _counted(parts: Sequence[Part]) -> Working:
    counting = [_truths(part) for part in parts]

    def work(chunk: Chunk) -> Array:
        number = np.zeros(chunk.rows)
        for part in counting:
            truths = part(chunk)
            number = number + np.where(truths == UNKNOWN, np.nan, truths == TRUE)
        return number

    return work


def _summed(rounds: Sequence[Round]) -> Working:
    steps = [(_truths(test), _numbers(term)) for test, term in rounds]

    def work(chunk: Chunk) -> Array:
        total = np.zeros(chunk.rows)
        for test, term in steps:
            counts = test(chunk)
            added = np.where(counts == UNKNOWN, np.nan, total + term(chunk))
            total = finite(np.where(counts == FALSE, total, added))
        return total

    return work


def _extreme(greatest: bool, rounds: Sequence[Round]) -> Working:
    steps = [(_truths(test), _numbers(term)) for test, term in rounds]

    def work(chunk: Chunk) -> Array:
        found = np.full(chunk.rows, np.nan)
        lost = np.zeros(chunk.rows, bool)
        for test, term in steps:
            counts, number = test(chunk), term(chunk)
            lost = lost | ((counts != FALSE) & ((counts == UNKNOWN) | (number != number)))
            further = (number > found) if greatest else (number < found)
            found = np.where((counts == TRUE) & (further | (found != found)), number, found)
        return np.where(lost, np.nan, found)

    return work


def _truths(part: Part) -> Working:
    if isinstance(part, Same):
        truth = np.array([_truth(part.value)], np.uint8)
        return lambda _: truth
    return part


def _numbers(part: Part) -> Working:
    if isinstance(part, Same):
        number = np.array([np.nan if part.value is None else part.value], np.float64)
        return lambda _: number
    return part


def _truth(value: bool | None) -> int:
    return UNKNOWN if value is None else TRUE if value else FALSE


_OF_ARRAYS: dict[str, Callable[[Sequence[Round]], Part]] = {
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
