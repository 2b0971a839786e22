"""Bars: a value drawn against its limit with characters."""

from __future__ import annotations

from tundish.findings.finding import Margin
from tundish.groundwork.dataclass import dataclass
from tundish.units.dimension import Dimension
from tundish.units.quantity import parse_quantity
from tundish.units.unit import MeasureError

NARROWEST = 8
"""Columns below which a bar shows nothing that its numbers don't."""


@dataclass(frozen=True, slots=True)
class Bar:
    """A bar, as numbers of characters.

    Attributes:
        filled: From the start to the value, the limit's mark not counted [1].
        empty: From there to the limit, where the value is below it [1].
        limit_at: How many characters stand before the limit's mark [1].
        words: How value and limit compare, in words.
    """

    filled: int
    empty: int
    limit_at: int
    words: str

    def drawn(self, full: str, blank: str, mark: str) -> str:
        """Return the bar made of three characters."""
        cells = full * self.filled + blank * self.empty
        return cells[: self.limit_at] + mark + cells[self.limit_at :]


def bar(margin: Margin, width: int) -> Bar | None:
    """Return a value drawn against its limit, to a scale that begins at zero.

    Args:
        margin: The value and the limit.
        width: Columns the bar may take [1].

    Returns:
        The bar; nothing where there is no room, or where a length would not mean a size: on a
        scale of points such as degC, below zero, or with a limit of zero.
    """
    ratio = _ratio(margin)
    if ratio is None or width < NARROWEST:
        return None
    cells = width - 1  # one is the limit's mark
    if ratio <= 1:
        # What is not equal must not look equal, however near it is.
        filled = cells if ratio == 1 else min(round(cells * ratio), cells - 1)
        return Bar(filled, cells - filled, cells, _words(ratio))
    return Bar(cells, 0, min(round(cells / ratio), cells - 1), _words(ratio))


def _ratio(margin: Margin) -> float | None:
    """Return the value as a share of the limit."""
    if margin.share is None:
        return None
    value, limit = _size(margin.value), _size(margin.limit)
    if value is None or limit is None or value[1] != limit[1] or value[0] < 0 or limit[0] <= 0:
        return None
    return value[0] / limit[0]


def _size(text: str) -> tuple[float, Dimension | None] | None:
    """Return the size and dimension of a quantity, or of a plain number."""
    try:
        quantity = parse_quantity(text)
    except MeasureError:
        try:
            return float(text), None
        except ValueError:
            return None
    return quantity.si, quantity.dimension


def _words(ratio: float) -> str:
    if ratio == 1:
        return "at the limit"
    if ratio >= 2:
        return f"{ratio:.1f} times the limit" if ratio < 10 else f"{ratio:.0f} times the limit"
    percent = abs(ratio - 1) * 100
    amount = f"{percent:.0f} %" if percent >= 1 else "less than 1 %"
    return f"{amount} {'below' if ratio < 1 else 'above'}"
