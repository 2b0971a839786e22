"""What is told later: data whose fields are worked out when somebody looks at them.

A check judges some hundred rules and shows a few of them; to write the rest would be most of its
work.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from threading import RLock
from typing import Any, TypeVar

from tundish.groundwork.lazy import Lazy

Supply = Callable[..., Mapping[str, Any]]
"""Takes the name of a field and what it was promised with; gives that field, and any others that
came up."""

_Told = TypeVar("_Told", bound="Later")

_LOCK = RLock()


class Later(Lazy):
    """Data that may be promised instead of given; once looked at, there is no difference.

    Fields that were not given are supplied when they are first read, under a lock, so that
    threads may share what was promised.
    """

    __slots__ = ("_promise",)

    def _worked_out(self, name: str) -> Mapping[str, Any]:
        if name not in self.__dataclass_fields__:  # type: ignore[attr-defined]
            return {}
        supply, *about = self._promise  # type: ignore[attr-defined]
        with _LOCK:
            found: Mapping[str, Any] = supply(name, *about)
        return found


def promised(kind: type[_Told], supply: Supply, *about: object, **given: object) -> _Told:
    """Return data whose other fields are supplied when they are looked at.

    Args:
        kind: What it is.
        supply: Gives the other fields.
        about: What to hand to `supply`.
        given: Fields that are known already.
    """
    made = object.__new__(kind)
    for name, value in {"_promise": (supply, *about), **given}.items():
        object.__setattr__(made, name, value)
    return made
