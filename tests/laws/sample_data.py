"""The sample jobs as data, with their unit sheets put in, to be written otherwise."""

from __future__ import annotations

import tomllib
from collections.abc import Callable, Iterator
from functools import cache
from typing import Any

from laws.thinning import SAMPLES
from tundish.text.merge import merge


@cache
def _sample(at: int) -> dict[str, Any]:
    path = SAMPLES[at]
    data = tomllib.loads(path.read_text())
    if "of_job" in data:
        return {}
    if "unit_sheet" in data:
        sheet = tomllib.loads((path.parent / data.pop("unit_sheet")).read_text())
        data["unit"] = merge(data.get("unit", {}), sheet["unit"])
    return data


def sample_data(at: int) -> dict[str, Any]:
    """Return a sample job as nested data; a sheet over another job is none, and left out."""
    return _sample(at)


WHOLE = [at for at in range(len(SAMPLES)) if _sample(at)]
"""The sample jobs that are whole by themselves."""


def rewritten(data: Any, path: str, write: Callable[[str, Any], Any]) -> Any:
    """Return data with every value in it written as a function does.

    Args:
        data: Tables, lists and values.
        path: Where it stands, without positions.
        write: Takes the path of a value and the value; gives what stands in its place.
    """
    if isinstance(data, dict):
        return {
            key: rewritten(value, f"{path}.{key}" if path else key, write)
            for key, value in data.items()
        }
    if isinstance(data, list) and any(isinstance(item, dict) for item in data):
        return [rewritten(item, path, write) for item in data]
    return write(path, data)


def values_in(data: Any, path: str = "") -> Iterator[tuple[str, Any]]:
    """Give every value in data with its path."""
    found: list[tuple[str, Any]] = []
    rewritten(data, path, lambda where, value: found.append((where, value)))
    return iter(found)
