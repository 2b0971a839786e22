"""Searching: the value nearest to the present one at which a condition holds.

The condition may hold and fail in turns, so nothing is taken for granted: points are tried
outwards from the present value in steps that grow with the distance, and between the last that
fails and the first that holds the edge is closed in on by halving. A stretch narrower than a step
can be passed over; whatever is found is tried again before it is given out.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator

Holds = Callable[[float], bool]

_FINEST = 1e-4
_GROWTH = 1.12
_FARTHEST = 1e3
_HALVINGS = 60
_CLOSE_ENOUGH = 1e-12


def nearest(holds: Holds, start: float, scale: float, up: bool) -> float | None:
    """Return the value nearest to the present one at which a condition holds.

    Args:
        holds: Whether it does at a value.
        start: The present value, at which it does not.
        scale: What counts as a large change; steps begin at a ten-thousandth of it, and end at a
            thousand times of it.
        up: Whether to look upwards.

    Returns:
        The value, or None where no point that was tried holds.
    """
    sign = 1.0 if up else -1.0
    failing = 0.0
    for offset in _offsets(scale):
        if holds(start + sign * offset):
            return _closed_in(holds, start, sign, failing, offset)
        failing = offset
    return None


def _offsets(scale: float) -> Iterator[float]:
    offset = _FINEST * scale
    while offset <= _FARTHEST * scale:
        yield offset
        offset *= _GROWTH


def _closed_in(holds: Holds, start: float, sign: float, failing: float, holding: float) -> float:
    """Halve the distance between an offset that fails and one that holds."""
    for _ in range(_HALVINGS):
        if holding - failing <= _CLOSE_ENOUGH * holding:
            break
        middle = (failing + holding) / 2
        if holds(start + sign * middle):
            holding = middle
        else:
            failing = middle
    return start + sign * holding
