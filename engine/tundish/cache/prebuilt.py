"""What travels with an installed program: made when it was built, as the rest of it was.

It stands in the same folder as the program and is trusted as that is; a check sum tells a broken
file, and what it was made from is written on it, so that it is never taken for anything else.
"""

from __future__ import annotations

import hashlib
from pathlib import Path

FOLDER = Path(__file__).resolve().parents[1] / "linked"
"""Where it stands; there is no such folder in a work tree."""

_SUM_LENGTH = 32


def is_anything_carried() -> bool:
    """Say whether anything travels with the program."""
    return FOLDER.is_dir()


def carried(part: str, identity: str) -> bytes | None:
    """Return a part that travels with the program.

    Args:
        part: Its name.
        identity: What it must have been made from.

    Returns:
        The part; None if there is none, or it is broken or made from something else.
    """
    try:
        whole = (FOLDER / part).read_bytes()
    except OSError:
        return None
    check, content = whole[:_SUM_LENGTH], whole[_SUM_LENGTH:]
    return content if check == _sum(identity, content) else None


def carry(folder: Path, part: str, identity: str, content: bytes) -> None:
    """Write a part that shall travel with the program.

    Args:
        folder: Where what travels is gathered.
        part: Its name.
        identity: What it is made from.
        content: The part.
    """
    (folder / part).write_bytes(_sum(identity, content) + content)


def _sum(identity: str, content: bytes) -> bytes:
    return hashlib.sha256(identity.encode() + b"\0" + content).digest()
