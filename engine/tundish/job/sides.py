"""The sides of the unit: a list that every job has, although none states it.

A rule that asks the same of every side goes through it by `each`. No form asks for it, no job may
write it, and it is no part of what a job is recognised by.
"""

from tundish.job.facts import Facts, Value
from tundish.job.model.schema import Fact, Items, Record

SIDES = "placement.side"
"""The path of the list."""

SIDE_NAMES = ("back", "left", "right", "front")
"""The names of the sides, as the members of a clearance have them."""


def with_sides(facts: Facts) -> Facts:
    """Return the facts of a job with the list of sides among them; `facts` stay as they are."""
    sides: list[dict[str, Value]] = [{"name": name} for name in SIDE_NAMES]
    names = {f"{SIDES}[{at}]": name for at, name in enumerate(SIDE_NAMES, start=1)}
    return Facts({**facts.values, SIDES: sides}, facts.written, {**facts.names, **names})


def sides_as_asked() -> Items:
    """Return what rules know of the list."""
    name = Fact(f"{SIDES}.name", "side", "Which side?", "", "surveyor", "text", choices=SIDE_NAMES)
    side = Record(SIDES, "side", "Which side?", "", "surveyor", {"name": name})
    return Items(SIDES, "sides of the unit", "Which sides?", "", "surveyor", side)
