"""Where each table of a TOML text is written: in a section, in braces, or as dotted keys."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import field
from typing import TYPE_CHECKING

from tundish.groundwork.dataclass import dataclass
from tundish.text.key_places import Path, is_value, key_name, key_segments, value_of
from tundish.text.toml_edit.outline import Outline, Section

if TYPE_CHECKING:
    from tree_sitter import Node


@dataclass(frozen=True, slots=True)
class Holder:
    """Where a table is written.

    Attributes:
        section: The section that it is in.
        braces: The inline table; None where it is the section itself.
        dotted: The names that are written before each of its keys.
    """

    section: Section
    braces: Node | None = None
    dotted: tuple[str, ...] = ()

    @property
    def pairs(self) -> list[Node]:
        """Return the pairs that stand in the section or between the braces."""
        if self.braces is None:
            return self.section.pairs
        return [node for node in self.braces.children if node.type == "pair"]


@dataclass(slots=True)
class Holders:
    """Where the tables and values of one text are written.

    Attributes:
        tables: The holder of each table, by its path.
        values: The value at each path.
    """

    tables: dict[Path, Holder] = field(default_factory=dict)
    values: dict[Path, Node] = field(default_factory=dict)

    @classmethod
    def of(cls, outline: Outline) -> Holders:
        """Return the holders of a text."""
        holders = cls()
        for section in outline.sections:
            if section.commented:
                continue
            holder = Holder(section)
            holders.tables.setdefault(section.path, holder)
            for pair in section.pairs:
                holders._add(pair, section.path, holder, outline.source)
        return holders

    def _add(self, pair: Node, base: Path, holder: Holder, source: bytes) -> None:
        names = names_of(pair, source)
        for depth in range(1, len(names)):
            dotted = (*holder.dotted, *names[:depth])
            inner = Holder(holder.section, holder.braces, dotted)
            self.tables.setdefault((*base, *names[:depth]), inner)
        self._value(value_of(pair), (*base, *names), holder.section, source)

    def _value(self, node: Node, path: Path, section: Section, source: bytes) -> None:
        self.values[path] = node
        if node.type == "inline_table":
            holder = Holder(section, node)
            self.tables[path] = holder
            for pair in holder.pairs:
                self._add(pair, path, holder, source)
        elif node.type == "array":
            for position, item in enumerate(items_of(node)):
                self._value(item, (*path, position), section, source)


def items_of(array: Node) -> Iterator[Node]:
    """Give the values in an array."""
    return (node for node in array.named_children if is_value(node))


def names_of(pair: Node, source: bytes) -> tuple[str, ...]:
    """Return the names of a pair's key, one unless it has dots."""
    key = next(node for node in pair.children if node.type.endswith("key"))
    return tuple(key_name(node, source) for node in key_segments(key))
