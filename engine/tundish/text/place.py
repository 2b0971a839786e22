"""Where in the text of a TOML file each key and value stands."""

from __future__ import annotations

from tundish.text.key_places import Path, Place, PlaceIndex

__all__ = ["Path", "Place", "Places"]


class Places:
    """The places of all keys and values of one TOML text.

    The text is looked through only when the first place is asked for, so a file without problems
    costs nothing.

    Args:
        text: TOML text that has been read without an error.
    """

    def __init__(self, text: str) -> None:
        self._text = text
        self._index: PlaceIndex | None = None

    def of(self, path: Path) -> Place:
        r"""Return the place of a key or list item, or of the nearest one around it.

        Args:
            path: The way into the data, such as `("water", "run", 0, "pipe")`.

        Returns:
            Line and column, counted from 1; the start of the text when nothing of it is there.

        Example:
            >>> Places("[site]\nsnow_depth = '120 mm'\n").of(("site", "snow_depth"))
            (2, 1)
        """
        return self._nearest(self._indexed().keys, path)

    def value_of(self, path: Path) -> Place:
        r"""Return the place of a value; for a text, of its first character inside the quotes.

        Args:
            path: The way into the data.

        Returns:
            Line and column, counted from 1. Where the path is a table with a header of its own,
            the place of its header; where it is not there, that of the nearest one around it.

        Example:
            >>> Places("[site]\nsnow_depth = '120 mm'\n").value_of(("site", "snow_depth"))
            (2, 15)
        """
        index = self._indexed()
        while path and path not in index.keys:
            path = path[:-1]
        return index.values[path] if path in index.values else self._nearest(index.keys, path)

    def has(self, path: Path) -> bool:
        """Return whether exactly this path is written in the text.

        Args:
            path: The way into the data.

        Returns:
            True if the key or list item is there.
        """
        return path in self._indexed().keys

    @property
    def rows(self) -> list[str]:
        """Return the lines of the text."""
        return self._text.split("\n")

    def _indexed(self) -> PlaceIndex:
        if self._index is None:
            self._index = PlaceIndex(self._text)
        return self._index

    @staticmethod
    def _nearest(places: dict[Path, Place], path: Path) -> Place:
        while path and path not in places:
            path = path[:-1]
        return places.get(path, (1, 1))
