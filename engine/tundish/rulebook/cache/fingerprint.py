"""What a linked rulebook depends on: every byte of its packs and of the program that links them."""

from __future__ import annotations

import hashlib
import os
import sys
from collections.abc import Iterable, Iterator
from functools import cache
from pathlib import Path

from tundish.groundwork.dataclass import dataclass
from tundish.rulebook.files.pack import PackFiles

_ENGINE = Path(__file__).resolve().parents[2]
_ROOMS = ("groundwork", "text", "units", "physics", "language", "job", "rulebook", "cache")


@dataclass(frozen=True, slots=True)
class Fingerprint:
    """SHA-256 over all that a linked rulebook is made from.

    Attributes:
        rules: That of the rulebook without its code, whatever Python runs it; empty where the
            program has no sources to be read.
        code: That of its compiled code, which depends on the Python too; empty likewise.
    """

    rules: str = ""
    code: str = ""


def fingerprint_of(packs: Iterable[PackFiles]) -> Fingerprint:
    """Return the fingerprint of some packs.

    Args:
        packs: The packs, later ones on top.
    """
    engine = _engine()
    if not engine:
        return Fingerprint()
    digest = hashlib.sha256(engine.encode())
    for pack in packs:
        digest.update(f"\0pack\0{pack.region}\0{len(pack.contents)}\0".encode())
        for inside, content in pack.contents.items():
            # The length stands before the content, so that no two packs come to the same bytes.
            digest.update(f"{inside}\0{len(content)}\0".encode())
            digest.update(content)
    rules = digest.hexdigest()
    running = f"{sys.version}\0{sys.implementation.cache_tag}\0{rules}"
    return Fingerprint(rules, hashlib.sha256(running.encode()).hexdigest())


@cache
def _engine() -> str:
    """Return a digest of the program: of its own sources, which say more than a version does."""
    digest, has_sources = hashlib.sha256(), False
    try:
        for module in [module for room in _ROOMS for module in sorted(_modules_in(room))]:
            with open(f"{_ENGINE}/{module}", "rb", buffering=0) as file:
                content = file.read()
            digest.update(f"{module}\0{len(content)}\0".encode())
            digest.update(content)
            has_sources = True
    except OSError:
        return ""
    return digest.hexdigest() if has_sources else ""


def _modules_in(folder: str) -> Iterator[str]:
    """Give the paths, from the program's own folder, of the modules in one of its folders."""
    with os.scandir(f"{_ENGINE}/{folder}") as entries:
        for entry in entries:
            path = f"{folder}/{entry.name}"
            if entry.name.endswith(".py"):
                yield path
            elif entry.is_dir() and entry.name != "__pycache__":
                yield from _modules_in(path)
