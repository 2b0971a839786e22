"""Every key and value of a TOML text with its place, by the syntax tree of the text."""

from __future__ import annotations

import tomllib
from array import array
from itertools import islice
from typing import TYPE_CHECKING, TypeAlias

from tundish.text.bounds import LONGEST_LIST

if TYPE_CHECKING:
    from tree_sitter import Node

Path: TypeAlias = tuple[str | int, ...]
"""A way into TOML data: keys, and positions in lists counted from 0."""

Place: TypeAlias = tuple[int, int]
"""Line and character, both counted from 1."""


class PlaceIndex:
    """Every path of a TOML text with the places of its key and its value.

    One pass over the syntax tree is enough: the pairs of a table follow its header, and the headers
    of an array of tables are counted on the way.
    """

    def __init__(self, text: str) -> None:
        self.keys: dict[Path, Place] = {}
        self.values: dict[Path, Place] = {}
        self._lengths: dict[Path, int] = {}
        self._source = text.encode("utf-8", "replace")
        self._lines = self._source.split(b"\n")
        self._before: dict[int, array[int] | None] = {}
        self._document(syntax_tree(self._source))

    def _document(self, root: Node) -> None:
        for child in root.children:
            if child.type == "pair":
                self._pairs([(child, ())])
            elif child.type in ("table", "table_array_element"):
                self._table(child)

    def _table(self, table: Node) -> None:
        """Note a header and the pairs below it."""
        names = [node for node in table.children if node.type.endswith("key")]
        path: Path = ()
        for segment in key_segments(names[0]) if names else []:
            if path in self._lengths:  # a header that goes on from the newest item of a list
                path = (*path, self._lengths[path] - 1)
            path = (*path, self._name(segment))
            self.keys.setdefault(path, self._place(segment))
        if table.type == "table_array_element":
            item = self._lengths.get(path, 0)
            self._lengths[path] = item + 1
            path = (*path, item)
            self.keys[path] = self._place(names[0])
        elif path in self._lengths:
            path = (*path, self._lengths[path] - 1)
        self._pairs([(child, path) for child in table.children if child.type == "pair"])

    def _pairs(self, pairs: list[tuple[Node, Path]]) -> None:
        """Note pairs and all that stands inside their values, without recursion."""
        waiting = pairs[::-1]  # down the page: a group stands where it is first named
        while waiting:
            pair, path = waiting.pop()
            key = next(node for node in pair.children if node.type.endswith("key"))
            for segment in key_segments(key):
                path = (*path, self._name(segment))
                self.keys.setdefault(path, self._place(segment))
            waiting.extend(self._value(value_of(pair), path)[::-1])

    def _value(self, value: Node, path: Path) -> list[tuple[Node, Path]]:
        """Note a value and the items of a list; return the pairs found inside."""
        pairs: list[tuple[Node, Path]] = []
        waiting = [(value, path)]
        while waiting:
            node, path = waiting.pop()
            self.values[path] = self._inside(node)
            if node.type == "inline_table":
                pairs.extend((child, path) for child in node.children if child.type == "pair")
            elif node.type == "array":
                items = (child for child in node.named_children if is_value(child))
                # A longer list is refused as a whole, so its later items need no place.
                for position, item in enumerate(islice(items, LONGEST_LIST + 1)):
                    self.keys[(*path, position)] = self._place(item)
                    waiting.append((item, (*path, position)))
        return pairs

    def _inside(self, node: Node) -> Place:
        """Return the place of a value, past the opening quotes of a text."""
        if node.type != "string" or not node.children:
            return self._place(node)
        row, column = node.children[0].end_point
        start = node.children[0].end_byte
        # TOML drops a line end straight after the three opening quotes.
        begins = self._source[start : start + 2]
        if len(node.children[0].type) == 3 and (begins[:1] == b"\n" or begins == b"\r\n"):
            return (row + 2, 1)
        return (row + 1, self._character(row, column))

    def _place(self, node: Node) -> Place:
        row, column = node.start_point
        return (row + 1, self._character(row, column))

    def _character(self, row: int, column: int) -> int:
        """Return a column in characters [1], as the syntax tree counts bytes."""
        if row not in self._before:
            self._before[row] = _characters_before(self._lines[row])
        before = self._before[row]
        return (column if before is None else before[column]) + 1

    def _name(self, node: Node) -> str:
        return key_name(node, self._source)


def syntax_tree(source: bytes) -> Node:
    """Return the root of the syntax tree of a TOML text in UTF-8."""
    # Imported here, as only a file with a place to name needs the parser.
    import tree_sitter_toml
    from tree_sitter import Language, Parser

    return Parser(Language(tree_sitter_toml.language())).parse(source).root_node


def key_name(node: Node, source: bytes) -> str:
    """Return the name that a single key has, without its quotes."""
    text = source[node.start_byte : node.end_byte].decode("utf-8", "replace")
    if node.type != "quoted_key":
        return text
    # The TOML parser decodes the escapes.
    return next(iter(tomllib.loads(f"{text} = 0")))


def _characters_before(line: bytes) -> array[int] | None:
    """Return how many characters begin before each byte of a line; None where each is one.

    Computed once for each line, as one line may hold a million values.
    """
    if line.isascii():
        return None
    before, count = array("I", [0]), 0
    for byte in line:
        count += byte & 0xC0 != 0x80  # any byte but one that continues a character
        before.append(count)
    return before


def key_segments(key: Node) -> list[Node]:
    """Return the single keys of a key, in order; a dotted key nests to the left."""
    segments: list[Node] = []
    while key.type == "dotted_key":
        inner = [node for node in key.children if node.type.endswith("key")]
        segments.append(inner[-1])
        if len(inner) == 1:
            return segments[::-1]
        key = inner[0]
    segments.append(key)
    return segments[::-1]


def value_of(pair: Node) -> Node:
    """Return the value of a pair."""
    # A comment behind the pair may hang on it as its last child.
    return [node for node in pair.children if is_value(node)][-1]


def is_value(node: Node) -> bool:
    """Return whether a node of a pair or an array is a value or a key, and no comment."""
    return node.is_named and node.type not in ("comment", "ERROR")
