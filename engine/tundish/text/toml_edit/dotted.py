"""Commented-out lines of a starter with dotted keys: `# site.snow_depth = "250 mm"`."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from tundish.text.key_places import Path, value_of
from tundish.text.toml_edit.holders import Holders, names_of
from tundish.text.toml_edit.outline import Outline, Section, comment_behind
from tundish.text.toml_edit.places import first_header

if TYPE_CHECKING:
    from tree_sitter import Node

Names = tuple[str, ...]


class DottedComments:
    """The commented-out lines of one text whose keys have dots.

    Args:
        outline: The text.
        holders: What holds its tables and values.
    """

    def __init__(self, outline: Outline, holders: Holders) -> None:
        self._outline = outline
        self._holders = holders

    def filled_in(self, path: Path, value: bytes) -> bytes | None:
        """Return the text with a value in place of its commented-out line, if there is one.

        Args:
            path: The way to the value.
            value: The value as TOML.
        """
        for section, names in self._sections(path):
            row = self._outline.commented_pair(section, names)
            if row is not None and len(names) > 1:
                comment = comment_behind(self._outline.rows[row])
                return self._with_fact(row, _pair(names, value) + comment, path[:-1])
        return None

    def begun(self, path: Path, value: bytes) -> bytes | None:
        """Return the text with an empty group put before the commented-out lines of its facts.

        Args:
            path: The way to the group.
            value: What stands for it, in braces.
        """
        for section, names in self._sections(path):
            rows = self._outline.commented_below(section, names)
            if rows and not self._is_alone(section, names, rows):
                return self._outline.with_inserted(rows[0], [_pair(names, value)])
        return None

    def beside(self, path: Path, value: bytes) -> bytes | None:
        """Return the text with a value put behind the nearest commented-out lines.

        Args:
            path: The way to the value, of whose table nothing is stated yet.
            value: The value as TOML.
        """
        for section, names in self._sections(path):
            for depth in range(len(names) - 1, 0, -1):
                rows = self._outline.commented_below(section, names[:depth])
                if rows:
                    return self._outline.with_inserted(rows[-1] + 1, [_pair(names, value)])
        return None

    @property
    def are_the_style(self) -> bool:
        """Say whether a text writes dotted keys, and headers only for lists."""
        root, *others = self._outline.sections
        real = [section for section in others if not section.commented]
        if any(all(isinstance(step, str) for step in section.path) for section in real):
            return False
        keys = (len(names_of(pair, self._outline.source)) > 1 for pair in root.pairs)
        return any(keys) or self._outline.holds_dotted_comment(root)

    def instead_of_empty(self, path: Path, value: bytes) -> bytes | None:
        """Return the text with a fact in place of the {} that stood for its group.

        Args:
            path: The way to the fact.
            value: Its value as TOML.
        """
        pair = self._empty_pair(path[:-1])
        if pair is None or not self.are_the_style:
            return None
        names = (*names_of(pair, self._outline.source), str(path[-1]))
        return self._outline.spliced(pair.start_byte, pair.end_byte, _pair(names, value))

    def place_of_new(self, path: Path) -> int | None:
        """Return the row after which a fact or group goes whose table does not occur yet.

        It goes after the facts of the tables around it, else to the end of the lines above the
        first header; None where the text is not written with dotted keys.
        """
        root = self._outline.sections[0]
        outer = [self._holders.tables.get(path[:depth]) for depth in range(1, len(path))]
        is_elsewhere = any(
            holder and (holder.braces or holder.section is not root) for holder in outer
        )
        if is_elsewhere or any(isinstance(step, int) for step in path) or not self.are_the_style:
            return None
        for depth in range(len(path) - 1, 0, -1):
            alike = [
                pair
                for pair in root.pairs
                if names_of(pair, self._outline.source)[:depth] == path[:depth]
            ]
            if alike:
                return alike[-1].end_point[0]
        row = first_header(self._outline) - 1
        while row >= 0 and not self._outline.rows[row].strip():
            row -= 1
        return row

    def _sections(self, path: Path) -> Iterator[tuple[Section, Names]]:
        """Give the sections that a path may be written in, with the names to write there."""
        for section in reversed(self._outline.sections):
            below = path[len(section.path) :]
            names = tuple(step for step in below if isinstance(step, str))
            is_below = path[: len(section.path)] == section.path and len(names) == len(below)
            if is_below and names and not section.commented:
                yield section, names

    def _is_alone(self, section: Section, names: Names, rows: list[int]) -> bool:
        """Say whether the only line is one of the whole group, such as of a pipe."""
        return rows == [self._outline.commented_pair(section, names)]

    def _empty_pair(self, path: Path) -> Node | None:
        """Return the pair that states a group as {}, if there is one."""
        holder = self._holders.tables.get(path)
        if holder is None or holder.braces is None or holder.pairs:
            return None
        return next(
            (pair for pair in holder.section.pairs if value_of(pair) == holder.braces), None
        )

    def _with_fact(self, row: int, line: bytes, group: Path) -> bytes:
        """Return the text with a row replaced, and a {} that stood for its group deleted."""
        outline, pair = self._outline, self._empty_pair(group)
        if pair is None:
            return outline.with_row(row, line)
        empty = pair.start_point[0]
        edits = {row: (outline.offset(row) + len(outline.rows[row]), line)}
        edits[empty] = (outline.offset(empty + 1), b"")
        source = outline.source
        for at in sorted(edits, reverse=True):
            end, new = edits[at]
            source = source[: outline.offset(at)] + new + source[end:]
        return source


def _pair(names: Names, value: bytes) -> bytes:
    return ".".join(names).encode() + b" = " + value
