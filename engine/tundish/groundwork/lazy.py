"""Lazy values: computed on first access, as one check uses a small part of the rulebook.

Two threads that ask at once may both compute a value; both get the same one, so nothing is locked.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from typing import TYPE_CHECKING, Any, Self, TypeVar

Key = TypeVar("Key")
Value = TypeVar("Value")

WorkedOut = Callable[[str], Mapping[str, Any]]
"""Gives the attribute of a name, and others that come with it; nothing where it knows none."""


class Lazy:
    """A frozen object, some of whose attributes are computed on first access."""

    __slots__ = ("_stored",)

    @classmethod
    def of_stored(cls, now: Mapping[str, Any], stored: WorkedOut) -> Self:
        """Return one that was stored.

        Args:
            now: The attributes it has from the start.
            stored: Gives the others.
        """
        instance = object.__new__(cls)
        for name, value in now.items():
            object.__setattr__(instance, name, value)
        object.__setattr__(instance, "_stored", stored)
        return instance

    def _worked_out(self, name: str) -> Mapping[str, Any]:
        """Return an attribute that follows from the others; nothing where it does not."""
        return {}

    # Hidden from the checker of types, or it would let every name pass.
    if not TYPE_CHECKING:

        def __getattr__(self, name: str) -> Any:
            """Work an attribute out, and keep it."""
            if not name.startswith("_"):
                computed = self._from_store(name) or self._worked_out(name)
                for each, value in computed.items():
                    object.__setattr__(self, each, value)
                if name in computed:
                    return computed[name]
            raise AttributeError(f"'{type(self).__name__}' has no attribute '{name}'")

        def _from_store(self, name: str) -> Mapping[str, Any]:
            try:
                stored = object.__getattribute__(self, "_stored")
            except AttributeError:
                return {}
            return stored(name)


class LazyItems(Mapping[Key, Value]):
    """A mapping whose keys are known and whose values are computed one by one on first access.

    Args:
        keys: The keys, in their order.
        make: Computes the value of a key.
    """

    def __init__(self, keys: Iterable[Key], make: Callable[[Key], Value]) -> None:
        self._keys = dict.fromkeys(keys)
        self._make = make
        self._made: dict[Key, Value] = {}

    def __getitem__(self, key: Key) -> Value:
        """Return the value of a key, computed on the first call."""
        if key not in self._made:
            if key not in self._keys:
                raise KeyError(key)
            # Of several threads the first one's value is kept, and all return that.
            return self._made.setdefault(key, self._make(key))
        return self._made[key]

    def __contains__(self, key: object) -> bool:
        """Say whether there is such a key, without computing its value."""
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


class LazyDict(dict[Key, Value]):
    """A dictionary that computes a missing value and keeps it: later reads cost no call.

    Args:
        make: Computes the value of a key; raises KeyError where there is none.
    """

    def __init__(self, make: Callable[[Key], Value]) -> None:
        super().__init__()
        self._make = make

    def __missing__(self, key: Key) -> Value:
        """Compute the value of a key and keep it."""
        return self.setdefault(key, self._make(key))


class LazyMapping(Mapping[Key, Value]):
    """A mapping that is computed as a whole on first access.

    Args:
        make: Returns the whole mapping.
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
        whole = self._made
        if whole is None:
            whole = self._made = self._make()
        return whole
