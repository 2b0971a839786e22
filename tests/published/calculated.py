"""Quantities of the rulebook, worked out for a few facts."""

from __future__ import annotations

from collections.abc import Mapping

from tundish import Job, Rulebook
from tundish.job.facts import flatten


def calculated(name: str, given: Mapping[str, object], of: str = "") -> object:
    """Return what a quantity comes out as.

    Args:
        name: The quantity.
        given: The facts of the job.
        of: Path of the list it belongs to; its first item is taken.

    Returns:
        Its value in SI units, or None where it is unknown.
    """
    rulebook = Rulebook.built_in()
    values = flatten(Job.from_data(dict(given))).values
    items = values[of] if of else []
    assert isinstance(items, list)
    quantity = rulebook.quantities[of, name]
    return quantity.calculate(values, rulebook.session(values), *items[:1])
