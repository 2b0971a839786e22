"""Writing a file piece by piece, and yet whole or not at all, and never over one that is there."""

from __future__ import annotations

import os
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import BinaryIO

from tundish.command.files import AlreadyThereError


@contextmanager
def new_file(path: Path) -> Iterator[BinaryIO]:
    """Open a file to be written; it gets its name only when all is written without an error.

    Args:
        path: Where.

    Raises:
        AlreadyThereError: If a file of that name is there, or comes meanwhile.
        OSError: If it cannot be written.
    """
    if path.exists() or path.is_symlink():
        raise AlreadyThereError(path)
    handle, name = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name}.")
    try:
        with os.fdopen(handle, "wb") as file:
            yield file
        os.chmod(name, 0o644)
        try:
            os.link(name, path)
        except FileExistsError:
            raise AlreadyThereError(path) from None
    finally:
        os.unlink(name)
