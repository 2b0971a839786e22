"""Reading a JSON file whole, and refusing it with a sentence when it cannot be read."""

from __future__ import annotations

import json
from collections import Counter
from pathlib import Path
from typing import Any, NoReturn

from tundish.text.bounds import DEEPEST_NESTING
from tundish.text.file import decoded, read_content
from tundish.text.problem import refusal
from tundish.text.quoted import quoted
from tundish.text.toml_file import deeper_than


def read_json(path: str | Path, most: int) -> Any:
    """Return the data in a JSON file.

    Args:
        path: Where the file is; problems name it as written here.
        most: The most bytes that it may hold [1].

    Returns:
        Dictionaries, lists, texts, truths and numbers.

    Raises:
        Refused: If there is no such file, or it cannot be read as JSON in UTF-8 within the bound.
    """
    name = str(path)
    text = decoded(read_content(Path(path), name, most, "JSON file"), name)
    try:
        data = json.loads(text, object_pairs_hook=_object, parse_constant=_no_number)
    except json.JSONDecodeError as error:
        raise refusal(name, f"This is not JSON: {error.msg}.", error.lineno, error.colno) from None
    except RecursionError:
        raise refusal(name, _TOO_DEEP) from None
    except ValueError as error:  # a key twice, or a number of thousands of digits
        raise refusal(name, f"A value cannot be read: {error}.") from None
    if deeper_than(data, DEEPEST_NESTING):
        raise refusal(name, _TOO_DEEP)
    return data


_TOO_DEEP = f"Objects and lists stand inside one another more than {DEEPEST_NESTING} deep."


def _object(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    """Refuse a key that occurs twice, as readers differ in which of them they take."""
    table = dict(pairs)
    if len(table) < len(pairs):
        twice = next(key for key, times in Counter(key for key, _ in pairs).items() if times > 1)
        raise ValueError(f"the key {quoted(twice)} stands twice in one object")
    return table


def _no_number(word: str) -> NoReturn:
    raise ValueError(f"{word} is no number in JSON")
