"""Rules and quantities explained."""

from pathlib import Path

import pytest

from report.packs import write_pack
from tundish.report.page.plain_text import as_plain
from tundish.report.tell.dependencies import rules_that_use, used_facts, used_quantities
from tundish.report.tell.explain import quantity_lines, rule_lines
from tundish.rulebook.rulebook import Rulebook

BOOK = Rulebook.built_in()


@pytest.fixture(name="rulebook")
def small_rulebook(tmp_path: Path) -> Rulebook:
    return Rulebook.load(write_pack(tmp_path / "pack"), with_built_in=False)


@pytest.fixture(name="either", params=["toy", "built-in"])
def either_rulebook(request: pytest.FixtureRequest) -> Rulebook:
    rulebook: Rulebook = request.getfixturevalue("rulebook") if request.param == "toy" else BOOK
    return rulebook


def explained(rulebook: Rulebook, rule: str) -> str:
    return as_plain(rule_lines(rulebook.rules[rule], rulebook), 100)


def test_a_rule_is_explained_whole(rulebook: Rulebook) -> None:
    text = explained(rulebook, "placement/snow")
    for part in (
        "The unit stands above the snow",
        "placement/snow",
        "#### DANGER",
        "Snow that reaches the coil",
        "Raise the unit on a frame.",
        "height below the unit (placement.height_below)",
        "always",
        "placement.height_below >= height_needed",
        "from design on",
        "everywhere",
        "Invented standard 12 (2020), clause 4 [from memory]; others ask more",
        "25 November 2026",
        "placement/old-snow",
        "met: exactly at the limit",
        "breached: a millimetre short",
        "undecided: no snow depth",
    ):
        assert part in text


def test_a_built_in_rule_is_explained_whole() -> None:
    rule = BOOK.rules["defrost-water/free-volume"]
    text = " ".join(explained(BOOK, rule.name).split())
    for part in (
        *(rule.title, rule.name, rule.because, rule.remedy, "###. FAULT", "from design on"),
        *("volume of the volume vessel (water.volume_vessel.volume)", "everywhere"),
        *("Product data of the unit", "WORKED OUT ON THE WAY", "free_water_volume"),
        *(case.why for case in rule.cases),
    ):
        assert part in text, part


def test_a_built_in_rule_for_items_and_one_country_says_which() -> None:
    of_items = next(rule for rule in BOOK.rules.values() if rule.each)
    assert of_items.each is not None
    said = f"each of {of_items.each.path}, called {of_items.each.variable}"
    assert said in explained(BOOK, of_items.name)
    national = next(rule for rule in BOOK.rules.values() if rule.regions == ("DE",))
    assert "in DE" in explained(BOOK, national.name)


def test_a_built_in_quantity_is_explained_with_the_rules_that_use_it() -> None:
    quantity = BOOK.quantities["", "free_water_volume"]
    text = as_plain(quantity_lines(quantity, BOOK), 100)
    for part in (
        "Free water volume",
        "formula",
        "RULES THAT USE IT",
        "(defrost-water/free-volume)",
    ):
        assert part in text
    assert "clearances/above-snow" not in text
    item = next(one for one in BOOK.quantities.values() if one.each)
    assert item.each is not None
    said = f"each of {item.each.path}, called {item.each.variable}"
    assert said in as_plain(quantity_lines(item, BOOK), 100)


def test_the_quantities_of_a_rule_are_explained_with_it(rulebook: Rulebook) -> None:
    text = explained(rulebook, "placement/snow")
    assert "height that is needed: height_needed" in text
    assert "site.snow_depth + 200 mm" in text
    assert "room for it to drift" in text
    assert "expected snow depth (site.snow_depth)" in text


def test_a_rule_for_items_and_regions_says_which(rulebook: Rulebook) -> None:
    text = explained(rulebook, "pipes/insulation")
    assert "each of water.run, called run" in text
    assert "in GB and IE" in text
    assert "run.place == 'outdoors'" in text


def test_the_cautions_stand_where_people_may_be_hurt_and_only_there(either: Rulebook) -> None:
    for name, rule in either.rules.items():
        hurts = rule.severity == "danger"
        assert ("BEFORE YOU ACT" in explained(either, name)) == hurts, name


def test_a_quantity_is_explained_with_the_rules_that_use_it(rulebook: Rulebook) -> None:
    quantity = rulebook.quantities["", "height_needed"]
    text = as_plain(quantity_lines(quantity, rulebook), 100)
    for part in ("Height that is needed", "formula", "mm", "200 mm: no snow", "placement/snow"):
        assert part in text
    assert "pipes/insulation" not in text


def test_what_uses_no_quantity_is_said_to_use_none(rulebook: Rulebook) -> None:
    assert used_quantities(rulebook.rules["pipes/insulation"], rulebook) == []
    assert "WORKED OUT" not in explained(rulebook, "pipes/insulation")


def test_an_explanation_fits_a_narrow_page(either: Rulebook) -> None:
    for name, rule in list(either.rules.items())[:: len(either.rules) // 50 + 1]:
        page = as_plain(rule_lines(rule, either), 40)
        assert name in page.replace("\n", "")
        assert all(len(row) <= 40 for row in page.splitlines())


def test_quantities_and_facts_of_items_are_found_by_their_list(rulebook: Rulebook) -> None:
    whole = rulebook.quantities["", "bare_length"]
    item = rulebook.quantities["water.run", "bare"]
    assert used_quantities(whole, rulebook) == [item]
    assert list(used_facts([whole, item])) == ["water.run.length", "water.run.insulation.thickness"]


def test_a_quantity_of_items_is_explained_with_its_cases(rulebook: Rulebook) -> None:
    text = as_plain(quantity_lines(rulebook.quantities["water.run", "bare"], rulebook), 100)
    assert "each of water.run, called run" in text
    assert "yes: nothing around it" in text
    assert "not known: nothing known" in text
    assert "a condition (true or false)" in text
    assert "RULES THAT USE IT" not in text


def test_the_rules_that_use_a_quantity_are_those_that_name_it_through_whatever_others() -> None:
    used = {rule.name: used_quantities(rule, BOOK) for rule in BOOK.rules.values()}
    for quantity in list(BOOK.quantities.values())[::9]:
        users = [name for name, those in used.items() if any(one is quantity for one in those)]
        assert [rule.name for rule in rules_that_use([quantity], BOOK)] == users
