"""What is said of the place: the plan, the space on each side, the places near it."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.findings.siting import Flank, Siting, Spot
from tundish.report.page.line import GAP, Line, entries
from tundish.report.tell.phrases import listed

_SORTS = {"hears": "heard at ", "openings": "", "other_units": "unit "}


def siting_lines(siting: Siting | None) -> Iterator[Line]:
    """Give the section that shows the place.

    Args:
        siting: What stands around the unit, or None where nothing is known of it.
    """
    yield from (GAP, Line("section", "the place"))
    if siting is None:
        yield Line("words", "Nothing is told of the place of the unit: there is no [placement].")
        return
    yield Line("words", _orientation(siting))
    yield from (GAP, Line("plan", siting=siting), GAP)
    yield from entries("space", [_space(flank) for flank in siting.flanks])
    yield from entries("zone", [_zone(siting)])
    if siting.boundary.written:
        yield Line("entry", f"{siting.boundary.written} to the boundary of the plot", "boundary")
    for number, spot in enumerate(siting.spots, start=1):
        yield Line("entry", _spot(spot), f"[{number}]")
    whole = [f"{figure.label}: {figure.value or 'not known'}" for figure in siting.figures]
    yield from entries("worked out", whole)
    if any(figure.recall for spot in siting.spots for figure in spot.figures):
        yield Line("words", "Levels follow a procedure that was written down from memory.")


def _orientation(siting: Siting) -> str:
    front = f", which looks {siting.faces}" if siting.faces else ""
    caption = f"Seen from above. The air leaves at the front, drawn below{front}."
    if siting.width.metres is None or siting.depth.metres is None:
        caption += " The size of the unit is not known; it is drawn as wide and deep as is usual."
    return (
        f"{caption} A place is drawn on its side at its distance; an arrow points to those too far "
        "out to be drawn there."
    )


def _space(flank: Flank) -> str:
    distance = flank.given.written or "not known"
    asked = f"asked {flank.asked.written}" if flank.asked.written else "asked: not known"
    stands = f", {flank.stands}" if flank.stands else ""
    return f"{flank.side}: {distance}{stands} ({asked})"


def _zone(siting: Siting) -> str:
    if not siting.zone_known:
        return "protective zone: not known"
    reaching = [flank for flank in siting.flanks if flank.zone.written]
    if not reaching:
        return "no protective zone is asked for"
    sides = listed([f"{flank.zone.written} to the {flank.side}" for flank in reaching])
    return f"protective zone reaches {sides}"


def _spot(spot: Spot) -> str:
    kind = f" ({spot.kind})" if spot.kind and spot.kind not in spot.name else ""
    distance = spot.distance.written or "at a distance not known"
    side = f"to the {spot.side}" if spot.side else "on a side not known"
    text = f"{_SORTS[spot.sort]}{spot.name}{kind}, {distance} {side}"
    figures = [f"{figure.label} {figure.value or 'not known'}" for figure in spot.figures]
    return f"{text}: {', '.join(figures)}" if figures else text
