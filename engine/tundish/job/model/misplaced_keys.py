"""Unknown keys below a wrong header, or below one that is still commented out."""

from __future__ import annotations

from bisect import bisect_left
from functools import cached_property

from tundish.job.model.paths import path_text
from tundish.text.header_above import HeaderAbove, headers_in, marked_header_above
from tundish.text.place import Path, Places
from tundish.text.quoted import quoted


class MisplacedKeys:
    """The keys of one file that are unknown where they stand; each cause is reported once.

    Args:
        places: The places in the file; None if the facts came from no text.
        tables: The keys that stand at the top of a job.
    """

    def __init__(self, places: Places | None, tables: frozenset[str]) -> None:
        self._places = places
        self._tables = tables
        self._reported: set[tuple[int, bool]] = set()

    @cached_property
    def _rows(self) -> list[str]:
        return [] if self._places is None else self._places.rows

    @cached_property
    def _headers(self) -> list[HeaderAbove]:
        return headers_in(self._rows)

    def sentence(self, path: Path, line: int | None) -> str | None:
        """Return why an unknown key stands in the wrong place.

        Args:
            path: The way to the key.
            line: Its line.

        Returns:
            The sentence; an empty one if the same cause was reported before, None if the place
            is right.
        """
        if self._places is None or line is None:
            return None
        if self._rows[line - 1].lstrip().startswith("["):
            return None
        marked = marked_header_above(self._rows, line)
        if marked is not None and marked.names[0] in self._tables:
            return self._once(marked, _below_mark(path, marked))
        above = self._header_above(line)
        names = tuple(step for step in path[:-1] if isinstance(step, str))
        if above is None or above.names != names or path[-1] not in self._tables:
            return None
        repeats = path[-1] == names[0] and self._places.has((*path[:-1], *names))
        return self._once(above, _below_header(above, repeats), repeats)

    def _header_above(self, line: int) -> HeaderAbove | None:
        """Return the header of the table that a line stands in; None above the first."""
        count = bisect_left(self._headers, line, key=lambda header: header.line)
        return self._headers[count - 1] if count else None

    def _once(self, header: HeaderAbove, sentence: str, repeats: bool = False) -> str:
        cause = (header.line, repeats)
        if cause in self._reported:
            return ""
        self._reported.add(cause)
        return sentence


def _below_header(header: HeaderAbove, repeats: bool) -> str:
    """Return the sentence for a whole path below a header, whose names it may repeat."""
    sentence = (
        f"Lines below {header.text} (line {header.line}) belong to it; move this line, and "
        "others like it, above that, to the top of the file"
    )
    if repeats:
        return f"{sentence}, or leave out '{'.'.join(header.names)}.' here."
    return f"{sentence}."


def _below_mark(path: Path, header: HeaderAbove) -> str:
    where = quoted(path_text(path[:-1])) if path[:-1] else "a job"
    return (
        f"{quoted(str(path[-1]))} is no key of {where}. The line '{header.whole}' above it still "
        "has its mark; take that off too."
    )
