"""Jobs made of the sample jobs by leaving facts out, so that some verdicts stay open."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from random import Random
from typing import Any

from tundish import Job, Rulebook
from tundish.groundwork.open_list import OpenList
from tundish.job.facts import Facts
from tundish.text.bundled_folders import bundled_folder

SAMPLES = sorted(bundled_folder("sample_jobs").glob("*.toml"))
BOOK = Rulebook.built_in()


@cache
def sample_facts(at: int) -> Facts:
    """Return the facts of a sample job."""
    return BOOK.facts(Job.from_file(SAMPLES[at]))


def thinned(
    chance: Random, values: dict[str, Any], share: float, open_ends: float = 0.0
) -> dict[str, Any]:
    """Return facts with a share of them left out, those of items and whole lists too.

    A group that is there stays there, whatever is still known of it.

    Args:
        chance: Chooses.
        values: The facts.
        share: The share that is left out.
        open_ends: The share of lists of which nobody says any more that they are complete.
    """
    found: dict[str, Any] = {}
    for path, value in values.items():
        if value is not True and chance.random() < share:
            continue
        if isinstance(value, list):
            items = [thinned(chance, item, share) for item in value]
            value = OpenList(items) if items and chance.random() < open_ends else items
        found[path] = value
    return found


def read_again(values: dict[str, Any], facts: Facts) -> Facts:
    """Return values as facts, their items called as before."""
    return Facts(values, facts.written, facts.names)


def each_left_out(values: dict[str, Any], above: str = "") -> Iterator[tuple[str, dict[str, Any]]]:
    """Give each fact, group and list, of items too, with what is left where it is left out.

    A group is left out with all that is in it; of a list, also that it is complete.
    """
    for path, value in values.items():
        inside = f"{path}."
        rest = {
            other: kept
            for other, kept in values.items()
            if other != path and not other.startswith(inside)
        }
        yield above + path, rest
        if not isinstance(value, list):
            continue
        if value:
            yield above + path, {**values, path: OpenList(value)}
        for at, item in enumerate(value):
            for inner, left in each_left_out(item, f"{above}{path}[{at + 1}]."):
                items = type(value)([*value[:at], left, *value[at + 1 :]])
                yield inner, {**values, path: items}
