"""Reading one file of a rulebook into its shape, with every problem at its place."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from itertools import islice, takewhile
from typing import Any, TypeVar

from pydantic import ValidationError
from pydantic_core import ErrorDetails

from tundish.rulebook.files.days import day_problems
from tundish.rulebook.files.faults import Faults, Sort
from tundish.rulebook.files.file_shapes import Shape
from tundish.rulebook.model.rule_file import RuleFile
from tundish.text.bounds import LONGEST_TEXT, MOST_PROBLEMS
from tundish.text.nearest import did_you_mean, nearest
from tundish.text.place import Path
from tundish.text.problem import Problem
from tundish.text.quoted import quoted

_TRIED_TYPES = frozenset(("str", "constrained-str", "int", "float", "bool"))
_NOUNS = {
    "cite": "citation",
    "keys": "key",
    "gives": "column",
    "retire": "retirement",
    "rows": "row",
}
AnyShape = TypeVar("AnyShape", bound=Shape)


def read_shape(
    shape: type[AnyShape], data: Mapping[str, Any], source: RuleFile, at: Path, noun: str
) -> tuple[AnyShape | None, list[Problem]]:
    """Read a table of a file into its shape.

    Args:
        shape: The shape it must have.
        data: The table.
        source: The file it comes from.
        at: Where in the file the table stands.
        noun: What the table is called in a sentence, such as "rule".

    Returns:
        The shape, with problems of days that cannot be meant; or nothing and the problems.
    """
    try:
        return shape.model_validate(data, strict=True), day_problems(data, source, at)
    except ValidationError as error:
        details = list(islice(error.errors(include_url=False), MOST_PROBLEMS + 1))
        misspelt = _misspelt(details, shape)
        first_problems: dict[Path, Problem] = {}
        for detail in details:
            path = _path(detail)
            if detail["type"] == "missing" and path in misspelt:
                continue
            problem = source.problem((*at, *path), _sentence(detail, path, shape, noun))
            first_problems.setdefault(path, problem)
        return None, [*first_problems.values(), *day_problems(data, source, at)]


def shapes_in(
    shape: type[AnyShape], file: RuleFile, noun: str, faults: Faults, sort: Sort | None = None
) -> Iterator[tuple[str, AnyShape]]:
    """Give every table of a file that holds one thing a table, by its key.

    Args:
        shape: The shape each must have.
        file: The file.
        noun: What one is called in a sentence.
        faults: Gets what is wrong.
        sort: What a table declares under its name, where others use that.
    """
    for key, data in file.file.data.items():
        if not isinstance(data, dict):
            faults.append(file.problem((key,), f"'{key}' is no table of a {noun}."))
            parsed = None
        else:
            parsed, wrong = read_shape(shape, data, file, (key,), noun)
            faults.extend(wrong)
        if parsed is not None:
            yield key, parsed
        elif sort is not None:
            faults.refuse(sort, key)


def _misspelt(details: Sequence[ErrorDetails], shape: type[Shape]) -> set[Path]:
    """Return the keys that are there under a name much like theirs, so that they do not lack."""
    return {
        (*detail["loc"][:-1], key)
        for detail in details
        if detail["type"] == "extra_forbidden"
        for key in nearest(str(detail["loc"][-1]), _keys(shape), most=1)
    }


def _path(detail: ErrorDetails) -> Path:
    # Where a value may be of several types, pydantic goes on with the name of each it tried.
    return tuple(takewhile(lambda step: not _is_tried_type(step), detail["loc"]))


def _is_tried_type(step: int | str) -> bool:
    return isinstance(step, str) and (step in _TRIED_TYPES or step.startswith("list["))


def _sentence(detail: ErrorDetails, path: Path, shape: type[Shape], noun: str) -> str:
    names = [step for step in path if isinstance(step, str)]
    key = names[-1] if names else noun
    noun = _NOUNS.get(names[-2], names[-2]) if len(names) > 1 else noun
    if len(path) < len(detail["loc"]):
        return f"'{key}' cannot be {quoted(detail['input'])}."
    match detail["type"]:
        case "missing":
            return f"The {noun} has no '{key}'.{_example(key)}"
        case "extra_forbidden":
            return f"A {noun} has no key '{key}'.{did_you_mean(key, _keys(shape))}"
        case "literal_error":
            return f"'{key}' is one of {detail['ctx']['expected']}, not {quoted(detail['input'])}."
        case "too_short" if key == "cite":
            return f"The {noun} cites no source; without one it cannot be used."
        case "too_long":
            most = detail["ctx"]["max_length"]
            return f"'{key}' has {len(detail['input']):,} entries; the most is {most:,}."
        case "string_too_short":
            return f"'{key}' is empty."
        case "string_too_long":
            return f"'{key}' is longer than {LONGEST_TEXT:,} characters."
        case "value_error" if key == "regions":
            return str(detail["ctx"]["error"])
        case _:
            message = detail["msg"].removeprefix("Input ").removeprefix("Value error, ")
            return f"'{key}' {message}.{_example(key)}"


_EXAMPLES = {
    "cite": 'cite = [{ source = "common-practice" }]',
    "reviewed": "reviewed = 2026-11-25, without quotes",
    "holds_from": "holds_from = 2026-11-25, without quotes",
    "holds_until": "holds_until = 2026-11-25, without quotes",
    "regions": 'regions = ["GB"]',
    "given": 'given = { "site.snow_depth" = "120 mm" }',
    "unknown": 'unknown = ["site.snow_depth"]',
    "formerly": 'formerly = ["topic/old-name"]',
    "overrides": 'overrides = "topic/rule"',
    "case": "[[case]], in double brackets",
}


def _example(key: str) -> str:
    """Return how a key is written that is easily got wrong, with a leading space; or nothing."""
    return f" Write {_EXAMPLES[key]}." if key in _EXAMPLES else ""


def _keys(shape: type[Shape]) -> list[str]:
    """Return all keys of a shape and of the shapes in it, for suggesting the nearest."""
    keys = list(shape.model_fields)
    for field in shape.model_fields.values():
        for inner in getattr(field.annotation, "__args__", ()):
            if isinstance(inner, type) and issubclass(inner, Shape):
                keys.extend(inner.model_fields)
    return keys
