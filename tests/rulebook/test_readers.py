"""Who reads a fact."""

from pathlib import Path

import pytest

from report.packs import write_pack
from tundish.rulebook.link.facts_read import facts_read, quantities_read, tables_read
from tundish.rulebook.model.choices import SEVERITIES
from tundish.rulebook.rulebook import Rulebook
from tundish.rulebook.search.readers import Readers


@pytest.fixture(name="rulebook")
def small_rulebook(tmp_path: Path) -> Rulebook:
    return Rulebook.load(write_pack(tmp_path / "pack"), with_built_in=False)


def test_a_rule_that_names_a_fact_reads_it_directly(rulebook: Rulebook) -> None:
    (reader,) = Readers.of(rulebook).rules_of("placement.height_below")
    assert (reader.definition.name, reader.directly) == ("placement/snow", True)


def test_a_rule_reads_what_its_quantities_read_but_not_directly(rulebook: Rulebook) -> None:
    readers = Readers.of(rulebook)
    (reader,) = readers.rules_of("site.snow_depth")
    assert (reader.definition.name, reader.directly) == ("placement/snow", False)
    assert [one.definition.name for one in readers.quantities_of("site.snow_depth")] == [
        "height_needed"
    ]


def test_a_group_is_read_by_what_reads_anything_in_it(rulebook: Rulebook) -> None:
    readers = Readers.of(rulebook)
    assert [one.definition.name for one in readers.rules_of("water.run.insulation")] == [
        "pipes/insulation"
    ]
    assert readers.rules_of("water.run.insul") == []


def test_the_worst_comes_first_and_of_one_severity_who_names_the_fact() -> None:
    book = Rulebook.built_in()
    readers = Readers.of(book)
    for path in ("site.snow_depth", "water.run", "unit.water.minimum_free_volume"):
        ranks = [
            (
                SEVERITIES.index(one.definition.severity),
                not one.directly,
            )
            for one in readers.rules_of(path)
        ]
        assert ranks == sorted(ranks) and ranks


def test_readers_are_what_the_rules_say_they_read() -> None:
    book = Rulebook.built_in()
    readers = Readers.of(book)
    for name in ("defrost-water/free-volume", "clearances/above-snow"):
        rule = book.rules[name]
        for path in facts_read(rule, book.quantities):
            assert rule in [one.definition for one in readers.rules[path]]


def test_tables_and_quantities_of_a_quantity_are_those_it_names_itself() -> None:
    book = Rulebook.built_in()
    assert tables_read(book.quantities["water.run", "usual_bore"]) == {"pipe-bores"}
    rule = book.rules["defrost-water/free-volume"]
    assert ("", "free_water_volume") in quantities_read(rule)
    assert tables_read(rule) == frozenset()
