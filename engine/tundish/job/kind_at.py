"""The kind of a fact by its path: how it is read, and the bounds of what can be."""

from __future__ import annotations

from tundish.job.model.fields import PartClass
from tundish.job.model.kinds import Kind
from tundish.job.model.paths import without_positions


def kind_at(path: str) -> Kind | None:
    """Return the kind of what a job states at a path.

    Args:
        path: A dotted path; list positions are passed over.

    Returns:
        The kind; None where no fact is written there, as at a group or inside a pipe size.

    Example:
        >>> kind_at("site.snow_depth").least
        '0 mm'
    """
    from tundish.job.job import Job

    part: PartClass = Job
    *outer, last = without_positions(path).split(".")
    for name in outer:
        member = part.members.get(name)
        if member is None or member.kind is not None or name == "more":
            return None
        part = member.part
    member = part.members.get(last)
    return member.kind if member else None
