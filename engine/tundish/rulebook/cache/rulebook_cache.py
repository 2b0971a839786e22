"""The cache of linked rulebooks: in the user's cache folder, or prebuilt with the program.

What is cached is plain data, and code that the program compiled. `tundish.cache` makes sure that
nothing is read back but what the program wrote.
"""

from __future__ import annotations

import marshal
from collections.abc import Callable, Mapping, Sequence
from functools import cached_property
from pathlib import Path
from typing import Any, TypeVar

from tundish.cache.prebuilt import has_prebuilt, load_prebuilt, save_prebuilt
from tundish.cache.store import can_save, load, save
from tundish.rulebook.cache.fingerprint import Fingerprint, fingerprint_of
from tundish.rulebook.cache.serialise import Entry, Part, parts_of
from tundish.rulebook.files.pack import PackFiles
from tundish.rulebook.model.linked import Linked

_Computed = TypeVar("_Computed")


class RulebookCache:
    """The rulebook of some packs, cached from one run to the next.

    Args:
        packs: The packs, later ones on top. Where one could not be read, nothing is cached.

    Attributes:
        linked: The rulebook that was loaded or saved; None until then.
    """

    def __init__(self, packs: Sequence[PackFiles]) -> None:
        self.linked: Linked | None = None
        self._packs = packs

    @cached_property
    def fingerprint(self) -> Fingerprint:
        """Return what the rulebook is cached under; empty where nothing is cached."""
        is_readable = not any(pack.problems for pack in self._packs)
        return fingerprint_of(self._packs) if is_readable else Fingerprint()

    def is_of(self, *mappings: Mapping[Any, Any]) -> bool:
        """Say whether rules, quantities and parts are those of the rulebook that is cached.

        A copy of a rulebook with others in their place is another rulebook.
        """
        if self.linked is None:
            return False
        own = self.linked.rules, self.linked.quantities, self.linked.provisions
        return all(mapping is other for mapping, other in zip(mappings, own, strict=True))

    def load(self, relink: Callable[[], Linked]) -> Linked | None:
        """Return the rulebook as it is cached or was prebuilt; None if it is neither.

        Args:
            relink: Links the packs anew, for a part that is gone from the cache.
        """

        def read(part: Part) -> Linked | None:
            content = part("entry")
            if content is None:
                return None
            return Entry(marshal.loads(content), part, self._packs, relink).linked()

        if self.fingerprint.rules:
            self.linked = read(lambda part: load(self._name(part)))
            if self.linked is None and has_prebuilt():
                self.linked = read(lambda part: load_prebuilt(part, self._made_from(part)))
        return self.linked

    def save(self, linked: Linked) -> None:
        """Cache the rulebook, if there is anywhere to write it."""
        self.linked = linked
        if self.fingerprint.rules and can_save():
            # The entry comes last: whoever reads it finds the other parts too.
            for part, content in parts_of(linked, self._packs):
                if not save(self._name(part), content):
                    break

    def computed(self, name: str, compute: Callable[[], _Computed]) -> _Computed:
        """Return what is computed from the whole rulebook: as it is cached, or now.

        Args:
            name: Its name: letters and digits.
            compute: Computes it, of plain data and code.
        """
        code = self.fingerprint.code
        content = (load_prebuilt(name, code) or load(self._name(name))) if code else None
        if content is not None:
            result: _Computed = marshal.loads(content)
            return result
        result = compute()
        if code:
            save(self._name(name), marshal.dumps(result))  # type: ignore[arg-type]
        return result

    def _name(self, part: str) -> str:
        return f"rulebook-{self.fingerprint.code}.{part}"

    def _made_from(self, part: str) -> str:
        return self.fingerprint.code if part == "codes" else self.fingerprint.rules


class PrebuiltCache(RulebookCache):
    """Writes a rulebook for the program that is being built, whatever is cached.

    Args:
        folder: Where the prebuilt files are gathered.
        packs: The packs, later ones on top.
    """

    def __init__(self, folder: Path, packs: Sequence[PackFiles]) -> None:
        super().__init__(packs)
        self._folder = folder

    def save(self, linked: Linked) -> None:
        """Write the rulebook."""
        self.linked = linked
        for part, content in parts_of(linked, self._packs):
            save_prebuilt(self._folder, part, self._made_from(part), content)

    def computed(self, name: str, compute: Callable[[], _Computed]) -> _Computed:
        """Compute something from the whole rulebook, and write it."""
        result = compute()
        content = marshal.dumps(result)  # type: ignore[arg-type]
        save_prebuilt(self._folder, name, self.fingerprint.code, content)
        return result
