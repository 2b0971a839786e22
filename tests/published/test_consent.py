"""Limits of permitted development, against volumes worked out in other units.

The limits themselves are those of the two Orders as the rules cite them; that of 0.6 m3, which
stood for every dwelling in England before 2025, is from memory.
"""

from __future__ import annotations

import math

import pint
import pytest

from published.calculated import calculated
from verdicts import verdict_of

UNITS = pint.get_application_registry()

ENGLAND: dict[str, object] = {
    "job.region": "GB",
    "site.nation": "England",
    "documents.planning_permission": "none",
}
NORTHERN_IRELAND = ENGLAND | {"site.nation": "Northern Ireland"}

BOXES = [
    # width, depth, height [inch], volume [cubic feet] = product / 1728, by hand
    (48, 18, 36, 18.0),
    (36, 12, 24, 6.0),
    (60, 24, 72, 60.0),
]


@pytest.mark.parametrize(("width", "depth", "height", "feet"), BOXES)
def test_volume_of_the_unit_in_cubic_feet(width: int, depth: int, height: int, feet: float) -> None:
    measures = {"width": width, "depth": depth, "height": height}
    given = {"unit.size": {name: f"{25.4 * inch!r} mm" for name, inch in measures.items()}}
    expected = (feet * UNITS.foot**3).to("m**3").magnitude
    assert calculated("unit_volume", given) == pytest.approx(expected, rel=1e-9)


@pytest.mark.parametrize(
    ("kind", "litres", "verdict"),
    [
        ("detached", 1499, "met"),
        ("detached", 1501, "breached"),
        ("terraced", 1499, "met"),
        ("flat", 599, "met"),
        ("flat", 601, "breached"),
    ],
)
def test_english_limits_of_volume_in_litres(kind: str, litres: int, verdict: str) -> None:
    edge = math.cbrt(litres) * 100
    size = dict.fromkeys(("width", "depth", "height"), f"{edge!r} mm")
    given = ENGLAND | {"building.kind": kind, "unit.size": size}
    assert verdict_of("consent/english-volume", given) == verdict


def test_what_was_allowed_before_2025_is_small_enough_for_every_english_dwelling() -> None:
    given = ENGLAND | {"unit.size": {"width": "1 m", "depth": "0.6 m", "height": "1 m"}}
    assert verdict_of("consent/english-volume", given) == "met"


@pytest.mark.parametrize(
    ("kind", "units", "verdict"),
    [
        ("detached", 2, "met"),
        ("detached", 3, "breached"),
        ("semi-detached", 2, "breached"),
        ("semi-detached", 1, "met"),
    ],
)
def test_england_allows_two_units_at_detached_houses_alone(
    kind: str, units: int, verdict: str
) -> None:
    given = ENGLAND | {"building.kind": kind, "placement.units_on_plot": units}
    assert verdict_of("consent/english-number", given) == verdict


@pytest.mark.parametrize(
    ("rule", "fact", "within", "beyond"),
    [
        ("boundary", "distance_to_boundary", "3.281 ft", "3.280 ft"),
        ("height", "height_of_top", "9.842 ft", "9.843 ft"),
    ],
)
def test_northern_irish_limits_in_feet(rule: str, fact: str, within: str, beyond: str) -> None:
    for length, verdict in ((within, "met"), (beyond, "breached")):
        metres = UNITS.Quantity(length).to("m").magnitude
        given = NORTHERN_IRELAND | {f"placement.{fact}": f"{metres!r} m"}
        assert verdict_of(f"consent/northern-irish-{rule}", given) == verdict
