"""What is worked out when it is first asked for, as a check of a job asks for a part of it only.

Working a thing out twice, where two threads ask at once, gives the same thing twice: no harm.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from typing import TYPE_CHECKING, Any, Self, TypeVar

Key = TypeVar("Key")
Value = TypeVar("Value")

WorkedOut = Callable[[str], Mapping[str, Any]]
"""Gives the attribute of a name, and others that come with it; nothing where it knows none."""


class Late:
    """Something frozen, some of whose attributes are there only once they have been asked for."""

    __slots__ = ("_stored",)

    @classmethod
    def of_stored(cls, now: Mapping[str, Any], stored: WorkedOut) -> Self:
        """Return one that was stored.

        Args:
            now: The attributes it has from the start.
            stored: Gives the others.
        """
        made = object.__new__(cls)
        for name, value in now.items():
            object.__setattr__(made, name, value)
        object.__setattr__(made, "_stored", stored)
        return made

    def _worked_out(self, name: str) -> Mapping[str, Any]:
        """Return an attribute that follows from the others; nothing where it does not."""
        return {}

    # Hidden from the checker of types, or it would let every name pass.
    if not TYPE_CHECKING:

        def __getattr__(self, name: str) -> Any:
            """Work an attribute out, and keep it."""
            if not name.startswith("_"):
                found = self._from_store(name) or self._worked_out(name)
                for each, value in found.items():
                    object.__setattr__(self, each, value)
                if name in found:
                    return found[name]
            raise AttributeError(f"'{type(self).__name__}' has no attribute '{name}'")

        def _from_store(self, name: str) -> Mapping[str, Any]:
            try:
                stored = object.__getattribute__(self, "_stored")
            except AttributeError:
                return {}
            return stored(name)


class LateItems(Mapping[Key, Value]):
    """A mapping whose keys are known, and whose values are made as they are asked for.

    Args:
        keys: The keys, in their order.
        make: Makes the value of a key.
    """

    def __init__(self, keys: Iterable[Key], make: Callable[[Key], Value]) -> None:
        self._keys = dict.fromkeys(keys)
        self._make = make
        self._made: dict[Key, Value] = {}

    def __getitem__(self, key: Key) -> Value:
        """Return the value of a key, made now if nobody asked for it before."""
        if key not in self._made:
            if key not in self._keys:
                raise KeyError(key)
            # Whoever comes first has made the one that all get.
            return self._made.setdefault(key, self._make(key))
        return self._made[key]

    def __contains__(self, key: object) -> bool:
        """Say whether there is such a key, without making its value."""
        return key in self._keys

    def __iter__(self) -> Iterator[Key]:
        """Give the keys, in their order."""
        return iter(self._keys)

    def __len__(self) -> int:
        """Return how many there are."""
        return len(self._keys)

    def __repr__(self) -> str:
        """Return it as a dictionary is shown."""
        return repr(dict(self))


class LateFunctions(dict[Key, Value]):
    """A dictionary that makes what it lacks: as quick as any once a value is there.

    Args:
        make: Makes the value of a key; raises KeyError where there is none.
    """

    def __init__(self, make: Callable[[Key], Value]) -> None:
        super().__init__()
        self._make = make

    def __missing__(self, key: Key) -> Value:
        """Make the value of a key and keep it."""
        return self.setdefault(key, self._make(key))


class LateWhole(Mapping[Key, Value]):
    """A mapping that is made as a whole when anything of it is first asked for.

    Args:
        make: Makes it.
    """

    def __init__(self, make: Callable[[], Mapping[Key, Value]]) -> None:
        self._make = make
        self._made: Mapping[Key, Value] | None = None

    def __getitem__(self, key: Key) -> Value:
        """Return the value of a key."""
        return self._whole()[key]

    def __iter__(self) -> Iterator[Key]:
        """Give the keys, in their order."""
        return iter(self._whole())

    def __len__(self) -> int:
        """Return how many there are."""
        return len(self._whole())

    def __repr__(self) -> str:
        """Return it as a dictionary is shown."""
        return repr(dict(self))

    def _whole(self) -> Mapping[Key, Value]:
        made = self._made
        if made is None:
            made = self._made = self._make()
        return made
