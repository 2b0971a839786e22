"""Reading a TOML file whole, and refusing it with a sentence when it cannot be read."""

from __future__ import annotations

import re
import tomllib
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from tundish.reading.bounds import DEEPEST_NESTING, LARGEST_FILE, LONGEST_NAME, MOST_VALUES
from tundish.reading.problem import Refused, refusal
from tundish.reading.shown import shown

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
    return parse_toml(_decoded(_content(Path(path), str(path)), str(path)), str(path))


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
    wrong = _past_bounds(data)
    if wrong:
        raise refusal(name, wrong)
    return TomlFile(name, text, data)


_TOO_DEEP = f"Tables and lists stand inside one another more than {DEEPEST_NESTING} deep."


def _content(path: Path, name: str) -> bytes:
    """Return the bytes of a file, never more than one byte past the bound."""
    try:
        if path.is_dir():
            raise refusal(name, "This is a folder; name a TOML file in it.")
        if path.exists() and not path.is_file():
            # A pipe that nobody writes to would be waited for without end.
            raise refusal(name, "This is no plain file; name a TOML file.")
        with path.open("rb") as file:
            content = file.read(LARGEST_FILE + 1)
    except FileNotFoundError:
        raise refusal(name, "There is no such file.") from None
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or str(error)
        raise refusal(name, f"The file cannot be opened: {reason}.") from None
    if len(content) > LARGEST_FILE:
        raise refusal(name, _too_large(path.stat().st_size))
    return content


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


def _past_bounds(data: object) -> str:
    """Say which bound tables and lists are past, or nothing; without recursion."""
    layer, values = [data], 0
    for _ in range(DEEPEST_NESTING + 1):
        held: list[object] = []
        for outer in layer:
            if isinstance(outer, dict):
                longest = max(outer, key=len, default="")
                if len(longest) > LONGEST_NAME:
                    return _too_long_a_name(longest)
                held.extend(outer.values())
            elif isinstance(outer, list):
                held.extend(outer)
        values += len(held)
        if values > MOST_VALUES:
            return _TOO_MANY
        layer = [inner for inner in held if isinstance(inner, dict | list)]
        if not layer:
            return ""
    return _TOO_DEEP


_TOO_MANY = (
    f"The file holds more than {MOST_VALUES:,} keys and entries of lists; the most that is read is "
    "that many."
)


def _too_long_a_name(name: str) -> str:
    return f"The key {shown(name)} has {len(name):,} characters; the most is {LONGEST_NAME}."
