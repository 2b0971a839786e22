"""A linked rulebook in the store and out of it, and one that travels with the program.

What is stored is plain data, and code that the emitter made; `tundish.storing` sees to it that
nothing is read back but what was put there.
"""

from __future__ import annotations

import marshal
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import TypeVar

from tundish.cache.prebuilt import has_prebuilt, load_prebuilt, save_prebuilt
from tundish.cache.store import can_save, load, save
from tundish.rulebook.cache.fingerprint import identity_of, linked_identity
from tundish.rulebook.cache.serialise import Entry, Linked, Part, parts_of
from tundish.rulebook.files.pack import PackFiles

_Work = TypeVar("_Work")


def stored(identity: str, packs: Sequence[PackFiles]) -> Linked | None:
    """Return the rulebook that is stored under an identity.

    Args:
        identity: The identity of the packs and the code.
        packs: The packs, whose files are read where someone asks for a place in them.

    Returns:
        The rulebook; None if there is none.
    """
    return _linked(lambda part: load(_name(identity, part)), packs) if identity else None


def store(identity: str, linked: Linked, packs: Sequence[PackFiles]) -> bool:
    """Store a rulebook, if there is anywhere to store it.

    Args:
        identity: The identity of the packs and the code.
        linked: The rulebook.
        packs: The packs.

    Returns:
        Whether it is stored now.
    """
    if not identity or not can_save():
        return False
    # The entry comes last, so that whoever finds it finds the others as well.
    return all(save(_name(identity, part), content) for part, content in parts_of(linked, packs))


def travelling(packs: Sequence[PackFiles]) -> Linked | None:
    """Return the rulebook that was linked when the program was built, if it is that of the packs.

    Args:
        packs: The packs.
    """
    if not has_prebuilt():
        return None
    identities = {"codes": identity_of(packs)}
    whole = linked_identity(packs)
    return _linked(lambda part: load_prebuilt(part, identities.get(part, whole)), packs)


def send_along(folder: Path, linked: Linked, packs: Sequence[PackFiles]) -> None:
    """Write a rulebook that shall travel with the program.

    Args:
        folder: Where what travels is gathered.
        linked: The rulebook.
        packs: The packs.
    """
    identities = {"codes": identity_of(packs)}
    whole = linked_identity(packs)
    for part, content in parts_of(linked, packs):
        save_prebuilt(folder, part, identities.get(part, whole), content)


def send_work_along(folder: Path, identity: str, name: str, work: object) -> None:
    """Write what was made of a whole rulebook and shall travel with the program.

    Args:
        folder: Where what travels is gathered.
        identity: The identity of the packs and the code.
        name: What it is called, as for `kept_work`.
        work: Plain data and code.
    """
    save_prebuilt(folder, name, identity, marshal.dumps(work))  # type: ignore[arg-type]


def sending_along(folder: Path, identity: str) -> Callable[[str, Callable[[], _Work]], _Work]:
    """Return what stands in for `Rulebook.kept` while a program is built: it makes and sends.

    Args:
        folder: Where what travels is gathered.
        identity: The identity of the packs and the code.
    """

    def send(name: str, make: Callable[[], _Work]) -> _Work:
        work = make()
        send_work_along(folder, identity, name, work)
        return work

    return send


def kept_work(identity: str, name: str, make: Callable[[], _Work]) -> _Work:
    """Return what was made of a whole rulebook: as it is kept, or made and kept for the next run.

    Args:
        identity: The identity of the packs and the code; empty if nothing is to be kept.
        name: What it is called.
        make: Makes it, of plain data and code.
    """
    content = (load_prebuilt(name, identity) or load(_name(identity, name))) if identity else None
    if content is not None:
        found: _Work = marshal.loads(content)
        return found
    work = make()
    if identity:
        save(_name(identity, name), marshal.dumps(work))  # type: ignore[arg-type]
    return work


def _name(identity: str, part: str) -> str:
    return f"rulebook-{identity}.{part}"


def _linked(part: Part, packs: Sequence[PackFiles]) -> Linked | None:
    entry = part("entry")
    return None if entry is None else Entry(marshal.loads(entry), part, packs).linked()
