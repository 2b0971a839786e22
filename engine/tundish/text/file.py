"""Reading the bytes of one untrusted file: a plain file, never past a bound."""

from __future__ import annotations

import contextlib
import os
import stat
from pathlib import Path

from tundish.text.problem import Refused, refusal


def read_content(path: str | Path, name: str, most: int, kind: str) -> bytes:
    """Return the bytes of a file; at most one byte past the bound is read.

    Args:
        path: Where the file is.
        name: Name of the file, as problems show it.
        most: The most bytes that it may hold [1].
        kind: What is wanted, such as "TOML file".

    Raises:
        Refused: If it is no plain file, cannot be opened or is too large.
    """
    try:
        # A pipe that nobody writes to would be waited for without end.
        descriptor = os.open(path, os.O_RDONLY | _AT_ONCE)
        try:
            state = os.fstat(descriptor)
            _refuse_other_than_a_file(state.st_mode, name, kind)
            if state.st_size > most:
                raise refusal(name, too_large(state.st_size, most))
            content = os.read(descriptor, state.st_size + 1)
            if len(content) != state.st_size:  # it comes in pieces, or grows while it is read
                content += _rest(descriptor, most)
        finally:
            os.close(descriptor)
    except FileNotFoundError:
        raise refusal(name, "There is no such file.") from None
    except (OSError, ValueError) as error:
        with contextlib.suppress(OSError, ValueError):  # some files cannot even be opened
            _refuse_other_than_a_file(os.stat(path).st_mode, name, kind)
        reason = getattr(error, "strerror", None) or str(error)
        raise refusal(name, f"The file cannot be opened: {reason}.") from None
    if len(content) > most:
        raise refusal(name, too_large(len(content), most))
    return content


_AT_ONCE = getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_CLOEXEC", 0) | getattr(os, "O_BINARY", 0)


def _rest(descriptor: int, most: int) -> bytes:
    with open(descriptor, "rb", closefd=False) as file:
        return file.read(most + 1)


def _refuse_other_than_a_file(mode: int, name: str, kind: str) -> None:
    if stat.S_ISDIR(mode):
        raise refusal(name, f"This is a folder; name a {kind} in it.")
    if not stat.S_ISREG(mode):
        raise refusal(name, f"This is no plain file; name a {kind}.")


def too_large(size: int, most: int) -> str:
    """Return the sentence for a file that is too large."""
    return f"The file holds {size} bytes; the most that is read is {most} bytes."


def decoded(content: bytes, name: str) -> str:
    """Return bytes as text, keeping line ends as they are so that places stay right.

    Raises:
        Refused: If they are not UTF-8; with line and column.
    """
    try:
        return content.decode("utf-8")
    except UnicodeDecodeError as error:
        raise _not_utf_8(content, error, name) from None


def _not_utf_8(content: bytes, error: UnicodeDecodeError, name: str) -> Refused:
    before = content[: error.start]
    line = before.count(b"\n") + 1
    column = len(before[before.rfind(b"\n") + 1 :].decode("utf-8")) + 1
    sentence = (
        f"The file is not UTF-8: byte {error.start + 1} (0x{content[error.start]:02X}) "
        "does not belong; save it as UTF-8."
    )
    return refusal(name, sentence, line, column)


def path_from(folder: str | Path, path: str | Path) -> str:
    """Return the path of a file as from a folder, with forward slashes as files state it.

    Example:
        >>> path_from("jobs/sheets", "jobs/cottage.toml")
        '../cottage.toml'
    """
    return Path(os.path.relpath(path, folder)).as_posix()
