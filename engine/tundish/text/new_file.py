"""Writing files: whole or not at all, and a new one never over another."""

from __future__ import annotations

import contextlib
import errno
import os
import secrets
import stat
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import BinaryIO


class AlreadyThereError(Exception):
    """A file of that name is there already."""


@contextmanager
def new_file(path: Path) -> Iterator[BinaryIO]:
    """Open a new file for writing; it gets its name once all is written without an error.

    The content goes to a file of another name beside it, is flushed to the disk and then linked
    to its name. So nobody sees half of it, a file that came meanwhile is not lost, and a link is
    not followed. Who may read it is what the system gives any new file.

    Args:
        path: Where.

    Raises:
        AlreadyThereError: If a file, a folder or a link of that name is there, or comes meanwhile.
        OSError: If it cannot be written.
    """
    if path.exists() or path.is_symlink():
        raise AlreadyThereError(path)
    with _file_beside(path, 0o666) as (aside, file):
        yield file
        _finish(file)
        _put_in_place(aside, path)


def replace_file(path: Path, content: bytes) -> None:
    """Put bytes in place of a file's, whole or not at all; its name and mode stay.

    Args:
        path: A file that is there.
        content: The bytes.

    Raises:
        OSError: If it cannot be written; the file is then as it was.
    """
    if not os.access(path, os.W_OK):
        raise PermissionError(errno.EACCES, os.strerror(errno.EACCES))
    mode = stat.S_IMODE(os.stat(path).st_mode)
    with _file_beside(path, 0o600) as (aside, file):
        file.write(content)
        _finish(file)
        os.chmod(aside, mode)
        os.replace(aside, path)


@contextmanager
def _file_beside(path: Path, mode: int) -> Iterator[tuple[Path, BinaryIO]]:
    """Open a file of another name in the same folder; it is gone at the end if it still is there.

    The name is short, as a long name with more added to it could be refused.
    """
    aside = path.parent / f".tundish-{secrets.token_hex(8)}"
    handle = os.open(aside, os.O_WRONLY | os.O_CREAT | os.O_EXCL, mode)
    try:
        with os.fdopen(handle, "wb") as file:
            yield aside, file
    finally:
        with contextlib.suppress(FileNotFoundError):
            os.unlink(aside)


def _finish(file: BinaryIO) -> None:
    """Send all that was written on to the disk, and close the file."""
    file.flush()
    os.fsync(file.fileno())
    file.close()


def write_new(path: Path, text: str) -> None:
    """Write a new file, as UTF-8 with the line ends of the text.

    Args:
        path: Where.
        text: What.

    Raises:
        AlreadyThereError: If a file, a folder or a link of that name is there.
        OSError: If it cannot be written.
    """
    with new_file(path) as file:
        file.write(text.encode("utf-8"))


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
