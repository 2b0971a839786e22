"""The siting: what stands around the unit, on which side and how far, for a plan of the place."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from tundish.findings.figures import Figure
from tundish.groundwork.dataclass import dataclass
from tundish.job.facts import Facts
from tundish.job.parts.common import SIDES, Side
from tundish.units.quantity import parse_quantity


@dataclass(frozen=True, slots=True)
class Distance:
    """A length as it was written, and in metres; both empty while it is not known."""

    written: str = ""
    metres: float | None = None


@dataclass(frozen=True, slots=True)
class Flank:
    """One side of the unit.

    Attributes:
        side: Which one.
        stands: What stands there, or "" while it is not known.
        given: The space there is.
        asked: The space that the product data ask for.
        zone: How far the protective zone reaches there.
    """

    side: Side
    stands: str
    given: Distance
    asked: Distance
    zone: Distance


@dataclass(frozen=True, slots=True)
class Spot:
    """A place near the unit: where it is heard, an opening, another unit.

    Attributes:
        path: Its path in the job.
        sort: What the job lists it under.
        name: What it is called.
        kind: What it is, or "".
        side: On which side of the unit it lies, or "" while it is not known.
        distance: How far it is.
        figures: What is worked out for it.
    """

    path: str
    sort: str
    name: str
    kind: str
    side: str
    distance: Distance
    figures: tuple[Figure, ...]


@dataclass(frozen=True, slots=True)
class Siting:
    """All that a plan of the place shows.

    Attributes:
        faces: The direction of the discharge side, or "".
        width: Width of the unit.
        depth: Depth of the unit.
        flanks: Its four sides.
        spots: The places near it, in the order of the job.
        zone_known: Whether the product data say what protective zone there is, if any.
        boundary: How far the boundary of the plot is.
        figures: What is worked out for the place as a whole.
    """

    faces: str
    width: Distance
    depth: Distance
    flanks: tuple[Flank, ...]
    spots: tuple[Spot, ...]
    zone_known: bool
    boundary: Distance
    figures: tuple[Figure, ...]


def siting_of(facts: Facts, figures: Sequence[Figure]) -> Siting | None:
    """Return the siting of a job, or None where nothing is known of the place.

    Args:
        facts: The job's facts.
        figures: What the rulebook wants shown.
    """
    if facts.values.get("placement") is not True:
        return None
    shown = [figure for figure in figures if figure.section == "siting"]
    return Siting(
        faces=_text(facts, "placement.faces"),
        width=_distance(facts, "unit.size.width"),
        depth=_distance(facts, "unit.size.depth"),
        flanks=tuple(_flank(facts, side) for side in SIDES),
        spots=tuple(_spots(facts, shown)),
        zone_known="unit.placing.protective_zone" in facts.values,
        boundary=_distance(facts, "placement.distance_to_boundary"),
        figures=tuple(figure for figure in shown if not figure.of),
    )


def _flank(facts: Facts, side: Side) -> Flank:
    return Flank(
        side,
        _text(facts, f"placement.around.{side}"),
        _distance(facts, f"placement.clearance.{side}"),
        _distance(facts, f"unit.clearance.{side}"),
        _zone(facts, side),
    )


def _zone(facts: Facts, side: Side) -> Distance:
    """Return the farthest reach of the zones that lie on a side."""
    zones = facts.values.get("unit.placing.protective_zone")
    farthest = Distance()
    for position in range(1, len(zones) + 1 if isinstance(zones, list) else 1):
        path = f"unit.placing.protective_zone[{position}]"
        reach = _distance(facts, f"{path}.reach")
        if _text(facts, f"{path}.side") in (side, "all sides") and reach.metres is not None:
            farthest = max(farthest, reach, key=lambda distance: distance.metres or 0.0)
    return farthest


def _spots(facts: Facts, figures: Sequence[Figure]) -> Iterator[Spot]:
    for sort in ("hears", "openings", "other_units"):
        items = facts.values.get(f"placement.{sort}")
        for position in range(1, len(items) + 1 if isinstance(items, list) else 1):
            path = f"placement.{sort}[{position}]"
            yield Spot(
                path,
                sort,
                facts.names[path],
                _text(facts, f"{path}.kind"),
                _text(facts, f"{path}.side"),
                _distance(facts, f"{path}.distance"),
                tuple(figure for figure in figures if figure.of == path),
            )


def _text(facts: Facts, path: str) -> str:
    return facts.written.get(path, "")


def _distance(facts: Facts, path: str) -> Distance:
    """Return a length; one inside a list item is found by what was written."""
    written = facts.written.get(path, "")
    return Distance(written, parse_quantity(written).si) if written else Distance()
