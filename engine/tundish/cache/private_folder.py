"""A folder that nobody else can have written to, and its files; in any doubt there is none.

Owner and mode are asked of what has been opened, never of a name that someone could exchange in
between; no symbolic link is followed, and nothing is waited for, as opening a pipe would.
"""

from __future__ import annotations

import contextlib
import os
import stat
from collections.abc import Iterator
from pathlib import Path

LARGEST = 64 * 1024 * 1024
"""Bytes in one file at most."""

_SAFELY = getattr(os, "O_NOFOLLOW", 0) | getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_CLOEXEC", 0)
_OTHERS = stat.S_IRWXG | stat.S_IRWXO


@contextlib.contextmanager
def opened(folder: Path, make: bool = False) -> Iterator[int]:
    """Open a folder that is the user's own and closed to all others.

    Args:
        folder: The folder.
        make: Whether to make it where there is none.

    Yields:
        Its descriptor.

    Raises:
        OSError: If there is none, or it is not the user's alone.
    """
    if make:
        folder.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
        with contextlib.suppress(FileExistsError):
            folder.mkdir(mode=0o700)
    descriptor = os.open(folder, os.O_RDONLY | os.O_DIRECTORY | _SAFELY)
    try:
        _refuse_others(os.fstat(descriptor))
        yield descriptor
    finally:
        os.close(descriptor)


def read(folder: int, name: str) -> bytes:
    """Read a whole file of the folder.

    Args:
        folder: Descriptor of the folder.
        name: Name of the file in it.

    Raises:
        OSError: If there is none, or it is no plain file of the user's alone within the bound.
    """
    descriptor = os.open(name, os.O_RDONLY | _SAFELY, dir_fd=folder)
    with open(descriptor, "rb") as file:
        state = os.fstat(descriptor)
        _refuse_others(state)
        if not stat.S_ISREG(state.st_mode) or state.st_nlink != 1 or state.st_size > LARGEST:
            raise OSError("no plain file of ours")
        return file.read(LARGEST + 1)


def write(folder: int, name: str, content: bytes, replace: bool = True) -> None:
    """Write a whole file of the folder, or nothing: readers see the old one or the new one.

    Args:
        folder: Descriptor of the folder.
        name: Name of the file in it.
        content: What it shall hold.
        replace: Whether it may take the place of one that is there.

    Raises:
        FileExistsError: If there is one and it is not to be replaced.
        OSError: If it cannot be written.
    """
    beside = f".{os.urandom(8).hex()}"
    new = os.O_WRONLY | os.O_CREAT | os.O_EXCL | _SAFELY
    descriptor = os.open(beside, new, 0o600, dir_fd=folder)
    try:
        with open(descriptor, "wb") as file:
            file.write(content)
        if replace:
            os.rename(beside, name, src_dir_fd=folder, dst_dir_fd=folder)
            return
        os.link(beside, name, src_dir_fd=folder, dst_dir_fd=folder)
        os.unlink(beside, dir_fd=folder)
    except OSError:
        with contextlib.suppress(OSError):
            os.unlink(beside, dir_fd=folder)
        raise


def _refuse_others(state: os.stat_result) -> None:
    if state.st_uid != os.geteuid() or stat.S_IMODE(state.st_mode) & _OTHERS:
        raise OSError("it is not the user's alone")
