"""Reading the bytes of one file of a stranger's: a plain file, never past a bound."""

from __future__ import annotations

from pathlib import Path

from tundish.reading.problem import Refused, refusal


def read_content(path: Path, name: str, most: int, kind: str) -> bytes:
    """Return the bytes of a file, of which never more than one past the bound is read.

    Args:
        path: Where the file is.
        name: Name of the file, as problems show it.
        most: The most bytes that it may hold [1].
        kind: What is wanted, such as "TOML file".

    Raises:
        Refused: If it is no plain file, cannot be opened or is too large.
    """
    try:
        if path.is_dir():
            raise refusal(name, f"This is a folder; name a {kind} in it.")
        if path.exists() and not path.is_file():
            # A pipe that nobody writes to would be waited for without end.
            raise refusal(name, f"This is no plain file; name a {kind}.")
        with path.open("rb") as file:
            content = file.read(most + 1)
        size = path.stat().st_size if len(content) > most else len(content)
    except FileNotFoundError:
        raise refusal(name, "There is no such file.") from None
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or str(error)
        raise refusal(name, f"The file cannot be opened: {reason}.") from None
    if len(content) > most:
        raise refusal(name, too_large(size, most))
    return content


def too_large(size: int, most: int) -> str:
    """Return what is said of a file that holds too much."""
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
