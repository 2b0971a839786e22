"""Data classes as the standard library's, defined in an eighth of the time.

Python writes and compiles up to six functions for each data class. A check loads some hundred
classes and would spend a fifth of its time on that. The functions here are written once and serve
every class; what else a data class is (fields, slots, `replace`) the standard library makes.
"""

from __future__ import annotations

import dataclasses as standard
from collections.abc import Callable, Mapping
from dataclasses import FrozenInstanceError
from operator import attrgetter
from types import MemberDescriptorType
from typing import TYPE_CHECKING, Any, NoReturn

if TYPE_CHECKING:
    from dataclasses import dataclass as dataclass
else:

    def dataclass(kind=None, /, *, frozen=False, slots=False, **others):
        """Make a data class, as `dataclasses.dataclass` does.

        Args:
            kind: The class.
            frozen: Whether what is made of it stays as it is.
            slots: Whether it has its fields and no other attributes.
            others: What the standard library's takes besides; it makes such a class itself.
        """

        def made(kind):
            if others:
                return standard.dataclass(frozen=frozen, slots=slots, **others)(kind)
            return _made(kind, frozen, slots)

        return made if kind is None else made(kind)


def _made(kind: type, frozen: bool, slots: bool) -> type:
    made: Any = standard.dataclass(init=False, repr=False, eq=False, slots=slots)(kind)
    fields = standard.fields(made)
    equal, hashed = _comparing(tuple(field.name for field in fields if field.compare))
    state, restore = _carrying(tuple(field.name for field in fields))
    methods = {
        "__init__": _making(made, fields),
        "__eq__": equal,
        "__hash__": hashed if frozen else None,
        "__repr__": _showing(tuple(field.name for field in fields if field.repr)),
    }
    if frozen:
        methods |= {
            "__setattr__": _refuse_setting,
            "__delattr__": _refuse_deleting,
            "__getstate__": state,
            "__setstate__": restore,
        }
    for name, method in methods.items():
        if name not in kind.__dict__:
            setattr(made, name, method)
    found: type = made
    return found


def _making(kind: type, fields: tuple[standard.Field[Any], ...]) -> Callable[..., None]:
    names = tuple(field.name for field in fields if field.init)
    count, setters = len(names), [_setter(kind, name) for name in names]
    defaults = {field.name: _default(field) for field in fields if not _is_wanted(field)}
    given_anyway = [
        (_setter(kind, field.name), defaults[field.name])
        for field in fields
        if not field.init and field.name in defaults
    ]

    def make(self: object, *values: object, **named: object) -> None:
        if named or len(values) != count:
            given = tuple(named)
            try:
                values += tuple(
                    [
                        named.pop(name) if name in named else defaults[name]()
                        for name in names[len(values) :]
                    ]
                )
            except KeyError:
                named[""] = None  # something is missing
            if named or len(values) != count:
                raise TypeError(_misfit(kind, names, len(values), given, defaults))
        for set_value, value in zip(setters, values, strict=True):
            set_value(self, value)
        for set_value, default in given_anyway:
            set_value(self, default())

    return make


def _setter(kind: type, name: str) -> Callable[[object, object], None]:
    """Return what sets a field of something frozen: its slot, where it has one."""
    slot = getattr(kind, name, None)
    if isinstance(slot, MemberDescriptorType):
        return slot.__set__
    return lambda made, value: object.__setattr__(made, name, value)


def _misfit(
    kind: type,
    names: tuple[str, ...],
    count: int,
    given: tuple[str, ...],
    defaults: Mapping[str, object],
) -> str:
    """Return what is wrong with the values that something is to be made of."""
    rest = names[count:]
    told = [
        f"{count} values are given for {len(names)} fields" * (count > len(names)),
        *(f"'{name}' is given twice" for name in names[:count] if name in given),
        *(f"'{name}' is missing" for name in rest if name not in given and name not in defaults),
        *(f"there is no field '{name}'" for name in given if name not in names),
    ]
    return f"{kind.__name__}: {'; '.join(filter(None, told))}"


def _is_wanted(field: standard.Field[Any]) -> bool:
    """Say whether a field has no value of its own."""
    return field.default is standard.MISSING and field.default_factory is standard.MISSING


def _default(field: standard.Field[Any]) -> Callable[[], object]:
    """Return what makes the value of a field that is given none."""
    if field.default_factory is not standard.MISSING:
        return field.default_factory
    return lambda: field.default


def _comparing(names: tuple[str, ...]) -> tuple[Callable[..., object], Callable[..., int]]:
    # Two names or more come as a tuple.
    values: Callable[[object], object] = attrgetter(*names) if len(names) > 1 else _few(names)

    def equal(self: object, other: object) -> object:
        if other.__class__ is not self.__class__:
            return NotImplemented
        return values(self) == values(other)

    def hashed(self: object) -> int:
        return hash(values(self))

    return equal, hashed


def _few(names: tuple[str, ...]) -> Callable[[object], object]:
    return lambda made: tuple([getattr(made, name) for name in names])


def _showing(names: tuple[str, ...]) -> Callable[[object], str]:
    def show(self: object) -> str:
        shown = ", ".join(f"{name}={getattr(self, name)!r}" for name in names)
        return f"{type(self).__qualname__}({shown})"

    return show


def _carrying(names: tuple[str, ...]) -> tuple[Callable[..., object], Callable[..., None]]:
    """Return what copying and sending to another process takes, as setting is refused."""

    def state(self: object) -> list[object]:
        return [getattr(self, name) for name in names]

    def restore(self: object, state: list[object]) -> None:
        for name, value in zip(names, state, strict=True):
            object.__setattr__(self, name, value)

    return state, restore


def _refuse_setting(self: object, name: str, value: object) -> NoReturn:
    raise FrozenInstanceError(f"cannot assign to field '{name}'")


def _refuse_deleting(self: object, name: str) -> NoReturn:
    raise FrozenInstanceError(f"cannot delete field '{name}'")
