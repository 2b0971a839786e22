"""Putting one value into a TOML text without any other change: comments, order, line ends."""

from __future__ import annotations

import tomllib
from collections.abc import Callable, Mapping
from typing import Any

from tundish.groundwork.dataclass import dataclass
from tundish.text.inline_toml import inline
from tundish.text.key_places import Path
from tundish.text.merge import put_at
from tundish.text.toml_edit.dotted import DottedComments
from tundish.text.toml_edit.holders import Holder, Holders, items_of, names_of
from tundish.text.toml_edit.outline import IsTable, Outline, Section, comment_behind, uncommented
from tundish.text.toml_edit.places import first_header, place_for

Names = tuple[str, ...]


class EditError(Exception):
    """A value has no place in a text that it could be put into."""


@dataclass(frozen=True, slots=True)
class Guide:
    """What is known of the tables that a text may have.

    Attributes:
        is_table: Says which paths are those of tables, so that a comment is taken for a header.
        rank: Gives the order of tables.
    """

    is_table: IsTable
    rank: Callable[[Names], Any]


def with_value(text: str, path: Path, value: Any, guide: Guide) -> str:
    r"""Return a text with one value put in, or put otherwise.

    A commented-out line of that key in the right table is replaced, a commented-out header is
    uncommented; a new table is put where the guide ranks it.

    Args:
        text: TOML text that has been read without an error, of any line ends.
        path: The way to the value; the last position of a list may be the next one.
        value: Text, number, truth, date, list; a table goes into braces or under a header.
        guide: What is known of the tables.

    Raises:
        EditError: If it cannot be put in without changing anything else.

    Example:
        >>> guide = Guide(lambda names: False, lambda names: names)
        >>> with_value("[site]\n# snow = '1 m'\n", ("site", "snow"), "2 m", guide)
        '[site]\nsnow = "2 m"\n'
    """
    try:
        wanted = put_at(tomllib.loads(text), path, value)
    except IndexError:
        raise EditError from None
    source = text.encode("utf-8")
    # A comment may only look like a header or key; then try again with comments ignored.
    for is_table in (guide.is_table, None):
        edited = _Editor(source, is_table, guide).put(path, value)
        if edited is not None and _holds(edited, wanted):
            return edited.decode("utf-8")
    raise EditError


def _holds(source: bytes, wanted: Any) -> bool:
    try:
        return bool(tomllib.loads(source.decode("utf-8")) == wanted)
    except tomllib.TOMLDecodeError:
        return False


class _Editor:
    """Puts one value into one text."""

    def __init__(self, source: bytes, is_table: IsTable | None, guide: Guide) -> None:
        self._outline = Outline(source, is_table)
        self._holders = Holders.of(self._outline)
        self._dots = DottedComments(self._outline, self._holders)
        self._guide = guide

    def put(self, path: Path, value: Any) -> bytes | None:
        """Return the text with the value in it, or None where it finds no place."""
        if path in self._holders.values:
            node = self._holders.values[path]
            return self._outline.spliced(node.start_byte, node.end_byte, _text(value))
        if path in self._holders.tables:
            return None
        if isinstance(path[-1], int):
            return self._put_item(path, value) if isinstance(value, Mapping) else None
        if isinstance(value, Mapping):
            return self._put_table(path, value)
        return self._dots.filled_in(path, _text(value)) or self._put_pair(path, value)

    # -- tables and items ---------------------------------------------------------------------

    def _put_item(self, path: Path, item: Mapping[str, Any]) -> bytes | None:
        *outer, position = path
        at = tuple(outer)
        array = self._holders.values.get(at)
        if array is not None:
            items = list(items_of(array))
            end = items[-1].end_byte if items else array.start_byte + 1
            return self._outline.spliced(end, end, (b", " if items else b"") + _text(item))
        if self._outline.in_comment(path):
            return self._uncommented(path, item)
        if position == 0 and self._goes_inline(at):
            return self._put_pair(at, [item])
        return self._new_section(path, item)

    def _put_table(self, path: Path, table: Mapping[str, Any]) -> bytes | None:
        if self._outline.in_comment(path):
            return self._uncommented(path, table)
        begun = None if table else self._dots.begun(path, _text(table))
        dotted = begun or self._put_dotted(path, table)
        if dotted is not None:
            return dotted
        if self._goes_inline(path):
            return self._put_pair(path, table)
        return self._new_section(path, table)

    def _put_dotted(self, path: Path, table: Mapping[str, Any]) -> bytes | None:
        """Put a table as keys with dots, where the text is written so and has room for it."""
        if not table and self._dots.are_the_style:
            beside = self._dots.beside(path, _text(table))
            if beside is not None:
                return beside
        last = self._dots.place_of_new(path)
        if last is None:
            return None
        key = ".".join(str(step) for step in path)
        pairs = {f"{key}.{name}": inner for name, inner in table.items()} or {key: table}
        lines = [f"{name} = {_text(inner).decode()}".encode() for name, inner in pairs.items()]
        rows = self._outline.rows
        is_apart = last >= 0 and not rows[last].startswith(f"{path[0]}.".encode())
        is_before = last + 1 < len(rows) - 1 and rows[last + 1].strip() and is_apart
        block = [*([b""] if is_apart else []), *lines, *([b""] if is_before else [])]
        return self._outline.with_inserted(last + 1, block)

    def _goes_inline(self, path: Path) -> bool:
        """Say whether a new table is written in braces: inside an item, or if its outer table is.

        It is too where a starter has it as a commented-out line.
        """
        if any(isinstance(step, int) for step in path):
            return True
        outer = path[:-1]
        while outer and outer not in self._holders.tables:
            outer = outer[:-1]
        holder = self._holders.tables.get(outer)
        if holder is None or not outer:
            return False
        if holder.braces is not None or holder.dotted:
            return True
        return self._row_in_comment(holder, str(path[-1])) is not None and outer == path[:-1]

    def _uncommented(self, path: Path, table: Mapping[str, Any]) -> bytes | None:
        """Uncomment a header, and put the facts of its table below it."""
        section = self._outline.in_comment(path)
        assert section is not None
        edited = self._outline.with_row(section.row, uncommented(self._outline.rows[section.row]))
        return self._below(edited, path, table)

    def _new_section(self, path: Path, table: Mapping[str, Any]) -> bytes:
        """Put a header where its table ranks, with an empty row before and after it."""
        outline = self._outline
        row = place_for(outline, path, self._guide.rank)
        names = [step for step in path if isinstance(step, str)]
        header = ".".join(names)
        lines = [f"[[{header}]]" if isinstance(path[-1], int) else f"[{header}]"]
        lines += [f"{key} = {_text(value).decode()}" for key, value in table.items()]
        block = [line.encode() for line in lines]
        if row > 0 and outline.rows[row - 1].strip():
            block.insert(0, b"")
        if row < len(outline.rows) and any(outline.rows[row:]):
            block.append(b"")
        return self._outline.with_inserted(row, block)

    def _below(self, edited: bytes, path: Path, table: Mapping[str, Any]) -> bytes | None:
        for key, value in table.items():
            editor = _Editor(edited, self._guide.is_table, self._guide)
            with_pair = editor.put((*path, key), value)
            if with_pair is None:
                return None
            edited = with_pair
        return edited

    # -- pairs --------------------------------------------------------------------------------

    def _put_pair(self, path: Path, value: Any) -> bytes | None:
        outer, key = path[:-1], str(path[-1])
        holder = self._holders.tables.get(outer)
        if holder is None:
            # An item must exist first, as it has a position among the others.
            if isinstance(outer[-1], int):
                return None
            beside = self._dots.beside(path, _text(value))
            return beside or self._put_table(outer, {key: value})
        line = f"{'.'.join((*holder.dotted, key))} = ".encode() + _text(value)
        if holder.braces is not None:
            dotted = self._dots.instead_of_empty(path, _text(value))
            return dotted or self._into_braces(holder, line)
        return self._into_section(holder, path, line)

    def _into_braces(self, holder: Holder, line: bytes) -> bytes:
        braces = holder.braces
        assert braces is not None
        pairs = holder.pairs
        if pairs:
            end = pairs[-1].end_byte
            return self._outline.spliced(end, end, b", " + line)
        return self._outline.spliced(braces.start_byte, braces.end_byte, b"{ " + line + b" }")

    def _into_section(self, holder: Holder, path: Path, line: bytes) -> bytes:
        outline = self._outline
        row = self._row_in_comment(holder, str(path[-1]))
        if row is not None:
            return self._outline.with_row(row, self._filled_in(row, line))
        waiting = outline.in_comment(path) or outline.in_comment((*path, 0))
        if (
            waiting is not None
            and not holder.dotted
            and self._real_before(waiting) is holder.section
        ):
            return self._outline.with_inserted(waiting.row, [line])
        last = self._last_row(holder)
        if last < 0:  # at the top, where nothing but comments stands yet
            return self._outline.with_inserted(first_header(outline), [line, b""])
        apart = [b""] if outline.holds_pair_in_comment(last) else []
        return self._outline.with_inserted(last + 1, [*apart, line])

    def _row_in_comment(self, holder: Holder, key: str) -> int | None:
        if holder.braces is not None or holder.dotted:
            return None
        return self._outline.commented_pair(holder.section, (key,))

    def _last_row(self, holder: Holder) -> int:
        """Return the row after which a pair is inserted: the last of its own table."""
        section, dotted = holder.section, holder.dotted
        if not dotted:
            return self._outline.last_entry(section)
        alike = [
            pair
            for pair in section.pairs
            if names_of(pair, self._outline.source)[: len(dotted)] == dotted
        ]
        return alike[-1].end_point[0]

    def _filled_in(self, row: int, line: bytes) -> bytes:
        """Return a commented-out line with its value, and the comment behind it."""
        before = self._outline.rows[row]
        bare = uncommented(before)
        indent = bare[: len(bare) - len(bare.lstrip())]
        return indent + line + comment_behind(before)

    def _real_before(self, section: Section) -> Section:
        """Return the section around one whose header is commented out."""
        sections = self._outline.sections
        before = sections[: sections.index(section)]
        return [section for section in before if not section.commented][-1]


def _text(value: Any) -> bytes:
    """Return a value as TOML on one line; tables in braces."""
    return inline(value, flat=False).encode()
