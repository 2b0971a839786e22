"""A canvas: rows of characters that one draws on, later strokes over earlier ones."""

from __future__ import annotations


class Canvas:
    """A sheet of characters, columns from the left and rows from the top, counted from 0.

    Args:
        columns: Width of the sheet [1].
        rows: Height of the sheet [1].
    """

    def __init__(self, columns: int, rows: int) -> None:
        self._cells = [[" "] * columns for _ in range(rows)]

    def put(self, column: int, row: int, text: str) -> None:
        """Write text; what would fall off the sheet is left out."""
        if 0 <= row < len(self._cells):
            for at, character in enumerate(text, start=column):
                if 0 <= at < len(self._cells[row]):
                    self._cells[row][at] = character

    def across(self, left: int, right: int, row: int, stroke: str) -> None:
        """Draw from one column to another, both included."""
        self.put(left, row, stroke * (right - left + 1))

    def down(self, column: int, top: int, bottom: int, stroke: str) -> None:
        """Draw from one row to another, both included."""
        for row in range(top, bottom + 1):
            self.put(column, row, stroke)

    def box(self, left: int, top: int, right: int, bottom: int, strokes: str) -> None:
        """Draw a rectangle.

        Args:
            left: Its first column.
            top: Its first row.
            right: Its last column.
            bottom: Its last row.
            strokes: Six characters: across, down, and the corners from top left clockwise.
        """
        for row in (top, bottom):
            self.across(left, right, row, strokes[0])
        for column in (left, right):
            self.down(column, top, bottom, strokes[1])
        places = ((left, top), (right, top), (right, bottom), (left, bottom))
        for (column, row), corner in zip(places, strokes[2:], strict=True):
            self.put(column, row, corner)

    def lines(self) -> list[str]:
        """Return the rows as text, without blanks at their ends."""
        return ["".join(row).rstrip() for row in self._cells]
