"""Writing files: whole or not at all, and never over one that is there."""

from __future__ import annotations

import contextlib
import errno
import os
import secrets
import sys
from pathlib import Path

from tundish.command.page import CANNOT_READ
from tundish.text.quoted import escaped


class AlreadyThereError(Exception):
    """A file of that name is there already."""


def write_new(path: Path, text: str) -> None:
    """Write a new file, as UTF-8 with the line ends of the text.

    It is written beside its place under another name, on to the disk, and then linked there, so
    that nobody ever sees half of it, a file that came meanwhile is not lost, and a link that leads
    elsewhere is not followed. Who may read it is what the system gives any new file.

    Args:
        path: Where.
        text: What.

    Raises:
        AlreadyThereError: If a file, a folder or a link of that name is there.
        OSError: If it cannot be written.
    """
    if path.exists() or path.is_symlink():
        raise AlreadyThereError(path)
    # A name too long with more added to it would be refused though the file's own is not.
    aside = path.parent / f".tundish-{secrets.token_hex(8)}"
    handle = os.open(aside, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o666)
    try:
        with os.fdopen(handle, "w", encoding="utf-8", newline="") as file:
            file.write(text)
            file.flush()
            os.fsync(file.fileno())
        _put_in_place(aside, path)
    finally:
        with contextlib.suppress(FileNotFoundError):
            os.unlink(aside)


def _put_in_place(aside: Path, path: Path) -> None:
    try:
        os.link(aside, path)
    except FileExistsError:
        raise AlreadyThereError(path) from None
    except OSError as error:
        if error.errno not in _NO_LINKS:
            raise
        if path.exists() or path.is_symlink():
            raise AlreadyThereError(path) from None
        os.rename(aside, path)


_NO_LINKS = (errno.EPERM, errno.ENOTSUP, errno.ENOSYS, errno.EMLINK)
"""What a file system answers that gives a file one name alone, as those of memory cards do."""


def put_in_file(path: Path, text: str, then: str = "") -> int:
    """Write a new file and say so on standard error.

    Args:
        path: Where.
        text: What.
        then: What to do next, said after its name.

    Returns:
        0, or what the command ends with where it cannot be written.
    """
    told = escaped(str(path))
    try:
        write_new(path, text)
    except AlreadyThereError:
        sys.stderr.write(f"{told} is there already and is not written over; name another file.\n")
        return CANNOT_READ
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or error
        sys.stderr.write(f"{told} cannot be written: {reason}.\n")
        return CANNOT_READ
    sys.stderr.write(f"Written: {told}.{escaped(then)}\n")
    return 0
