"""Reading a TOML file whole, and refusing it with a sentence when it cannot be read."""

from __future__ import annotations

import contextlib
import os
import re
import stat
import tomllib
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from tundish.reading.bounds import DEEPEST_NESTING, LARGEST_FILE
from tundish.reading.problem import Refused, refusal

_PLACE = re.compile(r"\s*\(at (?:line (\d+), column (\d+)|end of document)\)$")
_BYTE_ORDER_MARK = "\ufeff"


@dataclass(frozen=True, slots=True)
class TomlFile:
    """A TOML file as text and as data.

    Args:
        name: Name of the file, as problems show it.
        text: The whole text, without a byte order mark.
        data: The tables, as Python dictionaries, lists and values.
    """

    name: str
    text: str
    data: dict[str, Any]


def read_toml(path: str | Path) -> TomlFile:
    """Return the TOML file at a path.

    Args:
        path: Where the file is; problems name it as written here.

    Returns:
        The file.

    Raises:
        Refused: If there is no such file, or it cannot be read as TOML in UTF-8 within the bounds.
    """
    return toml_of(content_of(path), str(path))


def toml_of(content: bytes, name: str) -> TomlFile:
    """Return the bytes of a TOML file as a file.

    Args:
        content: The bytes.
        name: Name of the file, as problems show it.

    Returns:
        The file.

    Raises:
        Refused: If they are not TOML in UTF-8, or past the bounds; with line and column.
    """
    return parse_toml(_decoded(content, name), name)


def parse_toml(text: str, name: str) -> TomlFile:
    """Return TOML text as a file.

    Args:
        text: The TOML text; a byte order mark and Windows line ends are accepted.
        name: Name of the file, as problems show it.

    Returns:
        The file.

    Raises:
        Refused: If the text is not TOML, or is past the bounds; with line and column.
    """
    text = text.removeprefix(_BYTE_ORDER_MARK)
    # A surrogate cannot stand in a file, yet can in a Python text; it would break the places.
    size = len(text.encode("utf-8", "surrogatepass"))
    if size > LARGEST_FILE:
        raise refusal(name, _too_large(size))
    try:
        data = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise _broken(str(error), text, name) from None
    except RecursionError:
        raise refusal(name, _TOO_DEEP) from None
    except ValueError as error:
        # A whole number of thousands of digits is TOML, but Python declines to convert it.
        raise refusal(name, f"A value cannot be read: {error}.") from None
    if _deeper_than(data, DEEPEST_NESTING):
        raise refusal(name, _TOO_DEEP)
    return TomlFile(name, text, data)


_TOO_DEEP = f"Tables and lists stand inside one another more than {DEEPEST_NESTING} deep."


def content_of(path: str | Path) -> bytes:
    """Return the bytes of a file, never more than one byte past the bound.

    Args:
        path: Where the file is; problems name it as written here.

    Raises:
        Refused: If there is no such file, or it is no plain file within the bound.
    """
    name = str(path)
    try:
        # A pipe that nobody writes to would be waited for without end.
        descriptor = os.open(path, os.O_RDONLY | _AT_ONCE)
        with open(descriptor, "rb") as file:
            state = os.fstat(descriptor)
            _refuse_other_than_a_file(state.st_mode, name)
            if state.st_size > LARGEST_FILE:
                raise refusal(name, _too_large(state.st_size))
            content = file.read(state.st_size + 1)
            if len(content) > state.st_size:  # it grows while it is read
                content += file.read(LARGEST_FILE)
    except FileNotFoundError:
        raise refusal(name, "There is no such file.") from None
    except (OSError, ValueError) as error:
        with contextlib.suppress(OSError, ValueError):  # not everything lets itself be opened
            _refuse_other_than_a_file(os.stat(path).st_mode, name)
        reason = getattr(error, "strerror", None) or str(error)
        raise refusal(name, f"The file cannot be opened: {reason}.") from None
    if len(content) > LARGEST_FILE:
        raise refusal(name, _too_large(len(content)))
    return content


_AT_ONCE = getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_CLOEXEC", 0) | getattr(os, "O_BINARY", 0)


def _refuse_other_than_a_file(mode: int, name: str) -> None:
    if stat.S_ISDIR(mode):
        raise refusal(name, "This is a folder; name a TOML file in it.")
    if not stat.S_ISREG(mode):
        raise refusal(name, "This is no plain file; name a TOML file.")


def _too_large(size: int) -> str:
    return f"The file holds {size} bytes; the most that is read is {LARGEST_FILE} bytes."


def _decoded(content: bytes, name: str) -> str:
    """Return the bytes as text, keeping line ends as they are so that places stay right."""
    try:
        return content.decode("utf-8")
    except UnicodeDecodeError as error:
        before = content[: error.start]
        line = before.count(b"\n") + 1
        column = len(before[before.rfind(b"\n") + 1 :].decode("utf-8")) + 1
        sentence = (
            f"The file is not UTF-8: byte {error.start + 1} (0x{content[error.start]:02X}) "
            "does not belong; save it as UTF-8."
        )
        raise refusal(name, sentence, line, column) from None


def _broken(message: str, text: str, name: str) -> Refused:
    """Return the refusal for broken TOML, with the place taken out of the reader's message."""
    found = _PLACE.search(message)
    sentence = f"This is not TOML: {_PLACE.sub('', message)}."
    if found and found.group(1):
        return refusal(name, sentence, int(found.group(1)), int(found.group(2)))
    last = text.rsplit("\n", 1)[-1]
    return refusal(name, sentence, text.count("\n") + 1, len(last) + 1)


def _deeper_than(data: object, bound: int) -> bool:
    """Return whether tables and lists are nested past a bound, without recursion."""
    layer = [data]
    for _ in range(bound + 1):
        layer = [
            inner
            for outer in layer
            if isinstance(outer, dict | list)
            for inner in (outer.values() if isinstance(outer, dict) else outer)
            if isinstance(inner, dict | list)
        ]
        if not layer:
            return False
    return True
