"""Parts of a rulebook as plain data, and back: what a store can hold without knowing any class.

Texts, numbers, truths and None stand for themselves. All else is a tuple whose first item says what
it was. What stands in very many places, such as a kind or a unit, is written once and then meant by
its number.
"""

from __future__ import annotations

import datetime
from collections.abc import Callable, Iterable
from dataclasses import fields
from fractions import Fraction
from typing import Any

from tundish.language.evaluate.environment import Formula
from tundish.language.operations.functions import FUNCTIONS
from tundish.language.operations.table import Column, Key, Level, Table
from tundish.language.tree import tree
from tundish.language.tree.kind import Kind
from tundish.language.tree.operation import Function
from tundish.rulebook.model.definition import Case, Each, Override
from tundish.rulebook.model.sizes import Sizes
from tundish.rulebook.model.source import Citation, Source
from tundish.units.dimension import Dimension
from tundish.units.unit import Unit

_TUPLE, _LIST, _DICT, _LEVEL, _SET, _DATE, _MOMENT, _TIME, _FRACTION, _FUNCTION, _SHARED = range(11)
_FIRST_CLASS = 11

_ITSELF = (str, int, float, bool, type(None))
_SHARED_CLASSES = (Dimension, Kind, Unit, Source)
_NODES = [
    kind for kind in vars(tree).values() if isinstance(kind, type) and issubclass(kind, tree.Node)
]
_CLASSES: tuple[type, ...] = (
    *_SHARED_CLASSES,
    *_NODES,
    *(Formula, Each, Override, Case, Citation, Sizes, Table, Key, Column),
)
_TAGS = {kind: _FIRST_CLASS + at for at, kind in enumerate(_CLASSES)}
_FIELDS = {kind: tuple(field.name for field in fields(kind)) for kind in _CLASSES}


class Writer:
    """Encodes values as plain data; what one writer encodes, one reader decodes.

    Attributes:
        shared: What is meant by number, as plain data.
    """

    def __init__(self) -> None:
        self.shared: list[Any] = []
        self._numbers: dict[object, int] = {}

    def plain(self, value: Any) -> Any:
        """Return a value as plain data.

        Raises:
            TypeError: If nothing is known of its class.
        """
        kind = type(value)
        if kind in _ITSELF:
            return value
        if kind is tuple or kind is list:
            return (_TUPLE if kind is tuple else _LIST, *map(self.plain, value))
        if kind is dict or kind is Level:
            pairs = [self.plain(item) for pair in value.items() for item in pair]
            return (_DICT if kind is dict else _LEVEL, *pairs)
        if kind is frozenset:
            return (_SET, *map(self.plain, sorted(value)))
        if kind in _MOMENTS:
            return (_MOMENTS[kind], value.isoformat())
        if kind is Fraction:
            return (_FRACTION, value.numerator, value.denominator)
        if kind is Function:
            return (_FUNCTION, value.name)
        if kind in _SHARED_CLASSES:
            return (_SHARED, self._number(value))
        return self._fields(value)

    def _number(self, value: object) -> int:
        if value not in self._numbers:
            plain = self._fields(value)
            self._numbers[value] = len(self.shared)
            self.shared.append(plain)
        return self._numbers[value]

    def _fields(self, value: object) -> tuple[Any, ...]:
        kind = type(value)
        if kind not in _TAGS:
            raise TypeError(f"a {kind.__name__} cannot be made plain")
        return (_TAGS[kind], *(self.plain(getattr(value, name)) for name in _FIELDS[kind]))


_MOMENTS = {datetime.date: _DATE, datetime.datetime: _MOMENT, datetime.time: _TIME}


class Reader:
    """Decodes values from plain data.

    Args:
        shared: What is meant by number, as its writer left it.
    """

    def __init__(self, shared: list[Any]) -> None:
        self._plain = shared
        self._shared: dict[int, Any] = {}

    def value(self, plain: Any) -> Any:
        """Return the value that some plain data stands for."""
        if type(plain) is not tuple:
            return plain
        tag, *parts = plain
        if tag == _SHARED:
            number = parts[0]
            if number not in self._shared:
                self._shared.setdefault(number, self.value(self._plain[number]))
            return self._shared[number]
        # Most parts stand for themselves, and are not worth a call.
        values = [self.value(part) if type(part) is tuple else part for part in parts]
        if tag >= _FIRST_CLASS:
            return _CLASSES[tag - _FIRST_CLASS](*values)
        return _BUILDERS[tag](values)


def _pairs(flat: Iterable[Any]) -> dict[Any, Any]:
    items = iter(flat)
    return dict(zip(items, items, strict=True))


_BUILDERS: dict[int, Callable[[Iterable[Any]], Any]] = {
    _TUPLE: tuple,
    _LIST: list,
    _DICT: _pairs,
    _LEVEL: lambda flat: Level(_pairs(flat)),
    _SET: frozenset,
    _DATE: lambda text: datetime.date.fromisoformat(*text),
    _MOMENT: lambda text: datetime.datetime.fromisoformat(*text),
    _TIME: lambda text: datetime.time.fromisoformat(*text),
    _FRACTION: lambda numbers: Fraction(*numbers),
    _FUNCTION: lambda name: FUNCTIONS[next(iter(name))],
}
