"""Sound levels: logarithms of ratios of power, which add as powers do."""

from __future__ import annotations

import math

_GREATEST = 300.0
"""Decibels past which no sound of this world lies; keeps powers finite."""


def decibels(ratio: float) -> float:
    """Return a ratio of powers in decibels.

    Args:
        ratio: Ratio of two powers [1], above zero.

    Returns:
        Level difference [dB].

    Raises:
        ValueError: If `ratio` is not above zero.

    Source:
        Definition of the decibel, IEC 80000-15 (from memory).

    Example:
        >>> round(decibels(2), 2)
        3.01
    """
    if not ratio > 0:
        raise ValueError("a ratio of powers is above zero")
    return 10 * math.log10(ratio)


def decibel_ratio(difference: float) -> float:
    """Return the ratio of powers that a level difference stands for.

    Args:
        difference: Level difference [dB], no more than 300 either way.

    Returns:
        Ratio of powers [1].

    Raises:
        ValueError: If `difference` is beyond its range.

    Source:
        Definition of the decibel, IEC 80000-15 (from memory).

    Example:
        >>> round(decibel_ratio(3), 3)
        1.995
    """
    if abs(difference) > _GREATEST:
        raise ValueError("a level difference is within 300 dB")
    return math.pow(10, difference / 10)


def level_sum(*levels: float) -> float:
    """Return the level of several sounds together, which do not know of each other.

    Args:
        levels: Sound levels [dB], one or more.

    Returns:
        Sound level [dB].

    Raises:
        ValueError: If there is none.

    Source:
        Powers of incoherent sounds add; any handbook of acoustics.

    Example:
        >>> round(level_sum(60, 60), 2)
        63.01
    """
    if not levels:
        raise ValueError("no sound has no level")
    loudest = max(levels)
    # Taken as shares of the loudest, so that no power is too large for a float.
    return loudest + decibels(sum(math.pow(10, (level - loudest) / 10) for level in levels))
