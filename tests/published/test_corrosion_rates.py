"""Corrosion rates of ISO 9223 in both of the units it prints, and what they make of a zinc coat.

The categories C1 to C5 of steel and zinc were read where the standard is quoted; CX, copper and the
course over the years (ISO 9224) are from memory. Densities are handbook values.
"""

from __future__ import annotations

import pytest

from published.calculated import calculated

CATEGORIES = ("C1", "C2", "C3", "C4", "C5", "CX")

# The same rates as losses of mass in the first year [g/m2], the other column of the standard.
GRAMS = {
    "steel": (10, 200, 400, 650, 1500, 5500),
    "zinc": (0.7, 5, 15, 30, 60, 180),
    "copper": (0.9, 5, 12, 25, 50, 90),
}
KILOGRAMS_PER_LITRE = {"steel": 7.86, "zinc": 7.14, "copper": 8.96}
YEAR = 31557600.0


def loss(metal: str, category: str) -> float:
    """Return the most that a category takes of a metal [um/year]."""
    value = calculated(f"{metal}_loss", {"site.corrosivity": category})
    assert isinstance(value, float)
    return value * YEAR * 1e6


@pytest.mark.parametrize("metal", GRAMS)
@pytest.mark.parametrize("category", CATEGORIES)
def test_thickness_and_mass_of_what_is_lost_agree(metal: str, category: str) -> None:
    # A gram on a square metre is a micrometre divided by the density in kg/L. Both columns are
    # rounded apart, the small figures to one digit and steel of C2 and C4 to the next five: 6 %.
    grams = GRAMS[metal][CATEGORIES.index(category)]
    micrometres = grams / KILOGRAMS_PER_LITRE[metal]
    assert loss(metal, category) == pytest.approx(micrometres, rel=0.06, abs=0.05)


@pytest.mark.parametrize("metal", GRAMS)
def test_each_category_takes_more_than_the_one_before(metal: str) -> None:
    taken = [loss(metal, category) for category in CATEGORIES]
    assert taken == sorted(set(taken))


@pytest.mark.parametrize("category", CATEGORIES)
def test_steel_goes_faster_than_zinc_and_zinc_no_slower_than_copper(category: str) -> None:
    # Why steel is galvanised, and why copper roofs last.
    assert loss("steel", category) > 10 * loss("zinc", category)
    assert loss("zinc", category) >= loss("copper", category)


def test_ten_micrometres_of_zinc_last_one_to_two_years_in_the_harshest_shore_air() -> None:
    # C5 takes from 4.2 to 8.4 um a year: 1.2 to 2.4 years, worked out apart.
    shortest, longest = 10 / loss("zinc", "C5"), 10 / loss("zinc", "C4")
    assert shortest == pytest.approx(1.19, abs=0.01)
    assert longest == pytest.approx(2.38, abs=0.01)


@pytest.mark.parametrize("fixings", ["galvanised steel", "zinc-plated steel"])
@pytest.mark.parametrize("category", CATEGORIES[1:5])
def test_life_of_the_zinc_is_on_the_safe_side_of_its_course_over_the_years(
    category: str, fixings: str
) -> None:
    # ISO 9224, from memory: the loss after some years is the first year's times years ^ 0.813, so
    # that zinc lasts longer than at its first rate, as soon as it lasts a year.
    coat = {"galvanised steel": 40, "zinc-plated steel": 8}[fixings]
    seconds = calculated("zinc_life", {"site.corrosivity": category, "placement.fixings": fixings})
    assert isinstance(seconds, float)
    years = seconds / YEAR
    by_the_course = (coat / loss("zinc", category)) ** (1 / 0.813)
    assert (years <= by_the_course) == (by_the_course >= 1)
    assert years * loss("zinc", category) == pytest.approx(coat, rel=1e-9)


@pytest.mark.parametrize(
    ("milligrams", "category"),
    [(3, "C3"), (4, "C3"), (60, "C3"), (61, "C4"), (300, "C4"), (301, "C5"), (1500, "C5")],
)
def test_classes_of_chloride_begin_and_end_where_the_standard_prints_them(
    milligrams: int, category: str
) -> None:
    # S0 up to 3, S1 4 to 60, S2 61 to 300, S3 301 to 1500 mg/(m2.day).
    given = {"site.chloride_deposition": f"{milligrams} mg/(m2.day)"}
    assert calculated("salt_corrosivity", given) == category


def test_proven_categories_rank_as_the_categories_do() -> None:
    ranks = [
        calculated("zinc_loss_proven", {"unit.placing.proven_category": category})
        for category in CATEGORIES
    ]
    assert ranks == [
        calculated("zinc_loss", {"site.corrosivity": category}) for category in CATEGORIES
    ]
    assert len(set(ranks)) == len(CATEGORIES)
