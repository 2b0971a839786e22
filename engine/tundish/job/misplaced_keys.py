"""Keys that stand below a header they do not belong to, or above which one is still a comment."""

from __future__ import annotations

from tundish.job.paths import path_text
from tundish.reading.header_above import HeaderAbove, header_above, marked_header_above
from tundish.reading.place import Path, Places
from tundish.reading.shown import shown


class MisplacedKeys:
    """The keys of one file that are unknown where they stand, each cause told once.

    Args:
        places: The places in the file; None if the facts came from no text.
        tables: The keys that stand at the top of a job.
    """

    def __init__(self, places: Places | None, tables: frozenset[str]) -> None:
        self._places = places
        self._tables = tables
        self._rows: list[str] | None = None
        self._told: set[tuple[int, bool]] = set()

    def sentence(self, path: Path, line: int | None) -> str | None:
        """Return why an unknown key stands in the wrong place.

        Args:
            path: The way to the key.
            line: Its line.

        Returns:
            The sentence; an empty one where the same cause was told before, None where it stands
            in no wrong place.
        """
        if self._places is None or line is None:
            return None
        if self._rows is None:
            self._rows = self._places.rows
        if self._rows[line - 1].lstrip().startswith("["):
            return None
        marked = marked_header_above(self._rows, line)
        if marked is not None and marked.names[0] in self._tables:
            return self._once(marked, _below_mark(path, marked))
        above = header_above(self._rows, line)
        names = tuple(step for step in path[:-1] if isinstance(step, str))
        if above is not None and above.names == names and path[-1] in self._tables:
            return self._once(above, self._below_header(path, above))
        return None

    def _once(self, header: HeaderAbove, sentence: str) -> str:
        cause = (header.line, header.marked)
        if cause in self._told:
            return ""
        self._told.add(cause)
        return sentence

    def _below_header(self, path: Path, header: HeaderAbove) -> str:
        sentence = (
            f"Lines below {header.text} (line {header.line}) belong to it; move this line, and "
            "others like it, above that, to the top of the file"
        )
        assert self._places is not None
        if self._places.has((*path[:-1], *header.names)):
            return f"{sentence}, or leave out '{'.'.join(header.names)}.' here."
        return f"{sentence}."


def _below_mark(path: Path, header: HeaderAbove) -> str:
    where = shown(path_text(path[:-1])) if path[:-1] else "a job"
    return (
        f"{shown(str(path[-1]))} is no key of {where}. The line '{header.whole}' above it still "
        "has its mark; take that off too."
    )
