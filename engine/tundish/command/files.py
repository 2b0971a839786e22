"""Writing files: whole or not at all, and never over one that is there."""

from __future__ import annotations

import os
import sys
import tempfile
from pathlib import Path

from tundish.command.page import CANNOT_READ


class AlreadyThereError(Exception):
    """A file of that name is there already."""


def write_new(path: Path, text: str) -> None:
    """Write a new file, as UTF-8 with the line ends of the text.

    It is written beside its place under another name and then linked there, so that nobody ever
    sees half of it and a file that came meanwhile is not lost.

    Args:
        path: Where.
        text: What.

    Raises:
        AlreadyThereError: If a file of that name is there.
        OSError: If it cannot be written.
    """
    if path.exists() or path.is_symlink():
        raise AlreadyThereError(path)
    handle, name = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name}.")
    try:
        with os.fdopen(handle, "w", encoding="utf-8", newline="") as file:
            file.write(text)
        os.chmod(name, 0o644)
        try:
            os.link(name, path)
        except FileExistsError:
            raise AlreadyThereError(path) from None
    finally:
        os.unlink(name)


def put_in_file(path: Path, text: str, then: str = "") -> int:
    """Write a new file and say so on standard error.

    Args:
        path: Where.
        text: What.
        then: What to do next, said after its name.

    Returns:
        0, or what the command ends with where it cannot be written.
    """
    try:
        write_new(path, text)
    except AlreadyThereError:
        sys.stderr.write(f"{path} is there already and is not written over; name another file.\n")
        return CANNOT_READ
    except OSError as error:
        sys.stderr.write(f"{path} cannot be written: {error.strerror or error}.\n")
        return CANNOT_READ
    sys.stderr.write(f"Written: {path}.{then}\n")
    return 0
