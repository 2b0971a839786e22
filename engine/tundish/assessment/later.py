"""What is told later: data whose fields are worked out when somebody looks at them.

A check judges some hundred rules and shows a few of them; to write the rest would be most of its
work.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from threading import RLock
from typing import TYPE_CHECKING, Any, TypeVar

Supply = Callable[..., Mapping[str, Any]]
"""Takes the name of a field and what it was promised with; gives that field, and any others that
came up."""

_Told = TypeVar("_Told", bound="Later")

_LOCK = RLock()


class Later:
    """Data that may be promised instead of given; once looked at, there is no difference.

    Fields that were not given are supplied when they are first read, under a lock, so that
    threads may share what was promised.
    """

    __slots__ = ("_promise",)

    if not TYPE_CHECKING:  # else every misspelt name would pass for a field

        def __getattr__(self, name: str) -> Any:
            """Return a field that has no value yet."""
            if name not in type(self).__dataclass_fields__:
                raise AttributeError(f"{type(self).__name__} has no {name}")
            supply, *about = self._promise
            with _LOCK:
                for field, value in supply(name, *about).items():
                    object.__setattr__(self, field, value)
            return object.__getattribute__(self, name)


def promised(kind: type[_Told], supply: Supply, *about: object, **given: object) -> _Told:
    """Return data whose other fields are supplied when they are looked at.

    Args:
        kind: What it is.
        supply: Gives the other fields.
        about: What to hand to `supply`.
        given: Fields that are known already.
    """
    made = object.__new__(kind)
    object.__setattr__(made, "_promise", (supply, *about))
    for name, value in given.items():
        object.__setattr__(made, name, value)
    return made
