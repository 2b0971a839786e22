"""Reaching: comparisons of known quantities within the tolerance, written in the open."""

from __future__ import annotations

_OPPOSITE = {"<": ">=", ">": "<=", "!=": "=="}


def reached(sign: str, left: str, right: str) -> tuple[str, bool]:
    """Return the text of a test, and whether the comparison is that it fails.

    Args:
        sign: How two sides are compared.
        left: The name of a known quantity, or a constant.
        right: The same.
    """
    plain = _OPPOSITE.get(sign, sign)
    match plain:
        case "<=":
            test = _up_to(left, right)
        case ">=":
            test = _up_to(right, left)
        case _:
            test = f"{left} == {right} or ({_up_to(left, right)}) and ({_up_to(right, left)})"
    return test, sign in _OPPOSITE


def _up_to(lower: str, upper: str) -> str:
    # The difference is above zero once the plain comparison has failed, and of the two sizes that
    # it is held against, the greater is that of the first or the negative of the second.
    off = f"{lower} - {upper}"
    return f"{lower} <= {upper} or {off} <= 1e-9 * {lower} or {off} <= -1e-9 * {upper}"
