"""A file of the user's that answers go into: read whole, changed whole or not at all."""

from __future__ import annotations

import os
from pathlib import Path

from tundish.text.file import decoded
from tundish.text.new_file import replace_file
from tundish.text.toml_file import content_of

_BYTE_ORDER_MARK = "\ufeff"


class WrittenFile:
    """One file, as it was last read or written here.

    Args:
        path: Where it is, as the user named it. A link is followed: what it leads to is changed.

    Raises:
        Refused: If it cannot be read.
    """

    def __init__(self, path: Path) -> None:
        self.path = path
        self.content = content_of(path)

    @property
    def text(self) -> str:
        """Return the text, without a byte order mark."""
        return decoded(self.content, str(self.path)).removeprefix(_BYTE_ORDER_MARK)

    def read_again(self) -> bool:
        """Read the file anew; return whether somebody else has changed it meanwhile.

        Raises:
            Refused: If it can no longer be read.
        """
        before, self.content = self.content, content_of(self.path)
        return self.content != before

    def write(self, text: str) -> None:
        """Write a text in place of the one that is there.

        Raises:
            OSError: If it cannot be written; the file is then as it was.
        """
        mark = _BYTE_ORDER_MARK if decoded(self.content, "").startswith(_BYTE_ORDER_MARK) else ""
        self.write_bytes((mark + text).encode("utf-8"))

    def write_bytes(self, content: bytes) -> None:
        """Write bytes in place of those that are there."""
        try:
            replace_file(Path(os.path.realpath(self.path)), content)
        except OSError as error:
            raise OSError(error.errno, error.strerror, str(self.path)) from None
        self.content = content
