"""Friction of a fluid in a full round pipe."""

from __future__ import annotations

import math

LAMINAR_BELOW = 2300.0
"""Reynolds number below which the flow is laminar (textbook value; transition begins there)."""

_ROUNDS = 20
_CLOSE_ENOUGH = 1e-7
"""Relative change of the last round: the next would change less than its square."""


def friction_factor(reynolds: float, relative_roughness: float) -> float:
    """Return the Darcy friction factor of a full round pipe.

    Below a Reynolds number of 2300 the flow is laminar and the factor 64/Re. Above it the
    Colebrook-White equation is solved. Between 2300 and some 4000 the flow may be either; the
    turbulent factor is returned, as it is the greater, so that no pump is found too strong.

    Args:
        reynolds: Reynolds number of the flow [1], above zero.
        relative_roughness: Roughness of the wall over the bore [1], from zero to 0.05.

    Returns:
        Darcy friction factor [1]; four times the Fanning factor.

    Raises:
        ValueError: If an argument is outside its range.

    Source:
        Hagen-Poiseuille law; C. F. Colebrook, Turbulent flow in pipes, with particular reference
        to the transition region between the smooth and rough pipe laws, Journal of the
        Institution of Civil Engineers 11, 1939 (from memory).

    Example:
        >>> round(friction_factor(29838, 0.0015 / 26.2), 5)
        0.02367
    """
    if not reynolds > 0:
        raise ValueError("the Reynolds number must be above zero")
    if not 0 <= relative_roughness <= 0.05:
        raise ValueError("the relative roughness must be from 0 to 0.05")
    if reynolds < LAMINAR_BELOW:
        return 64 / reynolds
    return _colebrook(reynolds, relative_roughness)


def _colebrook(reynolds: float, relative_roughness: float) -> float:
    """Solve 1/sqrt(f) = -2 log10(k/3.7 + 2.51/(Re sqrt(f))) for f, by Newton's rounds.

    With x = 1/sqrt(f), the difference of the two sides rises and bends down all the way, so that
    every round but the first comes nearer from below, and three are enough for most pipes.
    """
    rough, smooth = relative_roughness / 3.7, 2.51 / reynolds
    bend = 2 * smooth / math.log(10)
    x = 7.0  # 1/sqrt(0.0204), the middle of what pipes of buildings have
    for _ in range(_ROUNDS):
        inside = rough + smooth * x
        off = (x + 2 * math.log10(inside)) / (1 + bend / inside)
        x -= off
        if abs(off) <= _CLOSE_ENOUGH * x:
            break
    return 1 / x**2
