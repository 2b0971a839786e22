"""The plan of a place, drawn to scale with characters: unit, walls, zone, and places near it.

A character is taken to be twice as high as wide. Only side and distance of a place are known, so
several on one side are drawn beside each other.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from tundish.findings.siting import Flank, Siting
from tundish.groundwork.dataclass import dataclass
from tundish.report.page.canvas import Canvas
from tundish.report.page.glyphs import Look

_FARTHEST = 5.0  # metres from the unit past which a place is drawn at the edge
_LEAST = 0.8  # metres kept around the unit, or no text would fit
_USUAL_WIDTH, _USUAL_DEPTH = 1.2, 0.45  # metres drawn while the size is not known
_MOST_ROWS = 36
_APART = 5  # columns between places on one side
_AROUND = 1.15  # what is drawn farthest out stands a little inside the edge


@dataclass(frozen=True, slots=True)
class _Sheet:
    """A scale, and the corners of the unit on the sheet."""

    column: float  # metres
    left: int
    top: int
    right: int
    bottom: int
    columns: int
    rows: int

    def out(self, side: str, metres: float) -> int:
        """Return the column or row that lies some way out from a side of the unit."""
        columns, rows = round(metres / self.column), round(metres / self.column / 2)
        return {
            "left": self.left - 1 - columns,
            "right": self.right + 1 + columns,
            "back": self.top - 1 - rows,
            "front": self.bottom + 1 + rows,
        }[side]


def plan(siting: Siting, columns: int, look: Look) -> list[str]:
    """Draw a plan.

    Args:
        siting: What stands around the unit.
        columns: Width of the page [1].
        look: The characters to draw with.

    Returns:
        Rows of text, back at the top.
    """
    sheet = _sheet(siting, columns)
    canvas = Canvas(sheet.columns, sheet.rows)
    _draw_zone(siting, sheet, canvas, look)
    for flank in siting.flanks:
        _draw_wall(flank, sheet, canvas, look)
    canvas.box(sheet.left, sheet.top, sheet.right, sheet.bottom, look.frame)
    canvas.put((sheet.left + sheet.right) // 2, sheet.bottom, look.blows)
    for flank in siting.flanks:
        _write_space(flank, sheet, canvas)
    for column, row, text in _marks(siting, sheet, look):
        canvas.put(column, row, text)
    return canvas.lines()


def _sheet(siting: Siting, columns: int) -> _Sheet:
    width = siting.width.metres or _USUAL_WIDTH
    depth = siting.depth.metres or _USUAL_DEPTH
    out = {flank.side: _extent(siting, flank) for flank in siting.flanks}
    across = out["left"] + width + out["right"]
    along = out["back"] + depth + out["front"]
    column = max(across / (columns - 4), along / 2 / (_MOST_ROWS - 4))
    left = round(out["left"] / column) + 1
    top = round(out["back"] / column / 2) + 1
    right = left + max(4, round(width / column))
    bottom = top + max(2, round(depth / column / 2))
    return _Sheet(
        column,
        left,
        top,
        right,
        bottom,
        min(columns, right + round(out["right"] / column) + 2),
        bottom + round(out["front"] / column / 2) + 2,
    )


def _extent(siting: Siting, flank: Flank) -> float:
    """Return how far out a side is drawn [m]."""
    # Where a side is open, the space there needs no room on the sheet.
    distance = None if flank.stands == "open" else flank.given.metres
    metres = [distance, flank.asked.metres, flank.zone.metres]
    metres += [spot.distance.metres for spot in siting.spots if spot.side == flank.side]
    near = (length for length in metres if length is not None and length <= _FARTHEST)
    return max(_LEAST, _AROUND * max(near, default=0.0))


def _draw_zone(siting: Siting, sheet: _Sheet, canvas: Canvas, look: Look) -> None:
    reach = {flank.side: flank.zone.metres for flank in siting.flanks}
    if not any(reach.values()):
        return
    edges = {side: sheet.out(side, metres or 0.0) for side, metres in reach.items()}
    stroke = look.zone
    canvas.box(edges["left"], edges["back"], edges["right"], edges["front"], stroke * 6)


def _draw_wall(flank: Flank, sheet: _Sheet, canvas: Canvas, look: Look) -> None:
    """Draw what stands on a side where the space ends, if anything does."""
    if flank.given.metres is None or flank.stands == "open":
        return
    at = sheet.out(flank.side, flank.given.metres)
    beyond = 3  # a wall is longer than the unit
    if flank.side in ("back", "front"):
        canvas.across(sheet.left - beyond, sheet.right + beyond, at, look.wall)
    else:
        canvas.down(at, sheet.top - 1, sheet.bottom + 1, look.wall)


def _write_space(flank: Flank, sheet: _Sheet, canvas: Canvas) -> None:
    """Write the space of a side between the unit and what stands there, if there is room."""
    if flank.given.metres is None or flank.stands == "open":
        return
    text, end = flank.given.written, sheet.out(flank.side, flank.given.metres)
    if flank.side in ("back", "front"):
        near = sheet.top if flank.side == "back" else sheet.bottom
        if abs(end - near) > 1:
            column = (sheet.left + sheet.right - len(text)) // 2 + 1
            canvas.put(column, (end + near) // 2, text)
        return
    near = sheet.left if flank.side == "left" else sheet.right
    if abs(end - near) > len(text) + 2:
        canvas.put((end + near - len(text)) // 2 + 1, sheet.top, text)


def _marks(siting: Siting, sheet: _Sheet, look: Look) -> Iterator[tuple[int, int, str]]:
    """Give column, row and text of the mark of each place whose side is known."""
    for side in (flank.side for flank in siting.flanks):
        on_side = [at for at, spot in enumerate(siting.spots) if spot.side == side]
        for order, at in enumerate(on_side):
            aside = math.ceil(order / 2) * (1 if order % 2 else -1)
            metres = siting.spots[at].distance.metres
            far = metres is None or metres > _FARTHEST
            text = f"[{at + 1}]{look.away[side] if far else ''}"
            out = sheet.out(side, _AROUND * _FARTHEST if metres is None else metres)
            if side in ("back", "front"):
                column = (sheet.left + sheet.right) // 2 - 1 + _APART * aside
                yield column, min(max(out, 0), sheet.rows - 1), text
            else:
                column = min(max(out - 1, 0), sheet.columns - len(text))
                yield column, (sheet.top + sheet.bottom) // 2 + aside, text
