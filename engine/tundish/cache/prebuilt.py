"""Prebuilt files: made when the program was packaged, and installed with it.

They lie in the program's own folder and are trusted as its code is. A check sum detects a broken
file; the identity of what a file was made from is part of that sum, so it is used for nothing else.
"""

from __future__ import annotations

import hashlib
from pathlib import Path

FOLDER = Path(__file__).resolve().parents[1] / "linked"
"""Where they lie; there is no such folder in a work tree."""

_SUM_LENGTH = 32


def has_prebuilt() -> bool:
    """Say whether the program has prebuilt files."""
    return FOLDER.is_dir()


def load_prebuilt(part: str, identity: str) -> bytes | None:
    """Return a prebuilt part.

    Args:
        part: Its name.
        identity: What it must have been made from.

    Returns:
        The part; None if there is none, or it is broken or made from something else.
    """
    try:
        with open(FOLDER / part, "rb") as file:
            check, content = file.read(_SUM_LENGTH), file.read()
    except OSError:
        return None
    return content if check == _sum(identity, content) else None


def save_prebuilt(folder: Path, part: str, identity: str, content: bytes) -> None:
    """Write a prebuilt part.

    Args:
        folder: Where the prebuilt files are gathered.
        part: Its name.
        identity: What it is made from.
        content: The part.
    """
    (folder / part).write_bytes(_sum(identity, content) + content)


def _sum(identity: str, content: bytes) -> bytes:
    digest = hashlib.sha256(identity.encode() + b"\0")
    digest.update(content)  # on its own, as joining the two would copy a large file
    return digest.digest()
