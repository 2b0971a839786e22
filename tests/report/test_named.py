"""Whatever has a name is explained, all that it means."""

from pathlib import Path

import pytest

from tundish.job.model.schema import below
from tundish.job.schema import job_schema
from tundish.report.page.plain_text import as_plain
from tundish.report.tell.explain_fact import fact_lines
from tundish.report.tell.explain_unit import si_symbol
from tundish.report.tell.named import name_lines, no_such_name
from tundish.rulebook.rulebook import Rulebook
from tundish.rulebook.search.readers import Readers
from tundish.units.unit import KNOWN, read_unit

BOOK = Rulebook.built_in()


def explained(name: str, book: Rulebook = BOOK, width: int = 100) -> str:
    return as_plain(name_lines(name, book), width)


def told(name: str, *parts: str) -> None:
    text = " ".join(explained(name).split())
    for part in parts:
        assert part in text, (part, text)


def test_a_fact_is_explained_with_all_that_reads_it_the_worst_first() -> None:
    told(
        "site.snow_depth",
        "fact site.snow_depth",
        "What snow depth is expected at the unit? From the national snow map",
        "the surveyor",
        "RULES THAT READ IT",
        "(clearances/above-snow, through snow_depth_at_unit)",
        "expected snow depth (snow_depth_at_unit)",
        "(snow-hood)",
    )
    text = explained("site.snow_depth")
    assert text.index("FAULT") < text.index("CAUTION")


def test_a_fact_of_a_list_is_explained_with_or_without_a_position() -> None:
    assert explained("water.run[3].length") == explained("water.run.length")
    told("water.run.length", "fact water.run.length", "[[water.run]] length = ")


def test_groups_lists_and_pipe_sizes_say_what_stands_in_them() -> None:
    told("placement.base", "table placement.base", "WHAT STANDS IN IT", "level: base in level, yes")
    told("water.run", "list water.run", "insulation: insulation, a table of seven keys")
    told("water.run.pipe", "fact water.run.pipe", "WHAT CONDITIONS READ OF IT", "outside_diameter")


def test_every_fact_can_be_explained_on_a_narrow_page() -> None:
    readers = Readers.of(BOOK)
    for entry in list(below(job_schema()))[::20]:
        rows = as_plain(fact_lines(entry, BOOK, readers), 40).splitlines()
        assert rows
        assert all(len(row) <= 40 for row in rows)


def test_a_table_is_explained_with_its_range_its_rows_and_who_uses_it() -> None:
    told(
        "cable-capacities",
        "table cable-capacities",
        "cross-section, read exactly, from 1.5 mm2 to 25 mm2",
        "two loaded in A",
        "[from memory]",
        "THE FIRST OF ITS 112 ROWS",
        "copper, 70 degC, A1, 1.5 mm2: two loaded 14.5 A; three loaded 13.5 A",
        "(tabulated_capacity)",
        "(cable-sizing/cable-carries-device)",
    )
    told("sound-directivity", "ITS ROWS", "3: 8", "directivity, a plain number")


def test_tables_parts_and_sources_can_be_explained() -> None:
    for name in (*list(BOOK.tables)[::5], *BOOK.provisions, *list(BOOK.sources)[::5]):
        assert explained(name).strip()


@pytest.mark.parametrize("name", ["sun-cover", "sun cover", "Sun Cover", "cladding"])
def test_a_part_is_explained_by_its_key_its_words_or_another_name(name: str) -> None:
    told(
        name,
        "part sun-cover of the order list",
        "always, where the amount is above zero",
        "sum(run.length for run in water.run",
        "in m",
        "heating supplier",
        "Common practice of the trade",
        "needed, 18.5 m: ",
        "undecided: the runs are not designed yet",
    )


def test_a_source_is_explained_with_what_cites_it_and_where() -> None:
    told(
        "en-1991-1-3",
        "source en-1991-1-3",
        "standard",
        "(clearances/above-snow): snow load on the ground [from memory]",
        "(snow_depth_at_unit): annex on the bulk weight of snow [from memory]",
    )


@pytest.mark.parametrize(
    ("name", "parts"),
    [
        ("kPa", ("pressure", "1 kPa = 1000 Pa", "mbar: 1 kPa = 10 mbar", "bar: 1 bar = 100 kPa")),
        ("L/min", ("flow", "1 L/min = 1/60000 = 0.0000166667 m3/s", "unit.water.minimum_flow")),
        ("mH2O", ("1 mH2O = 9806.65 Pa", "m of water", "1 mH2O = 9.80665 kPa")),
        ("degC", ("plus 273.15, is in K", "differences are written in K")),
        ("dB", ("sound level", "levels never add as numbers")),
        ("%", ("a plain number", "1 % = 0.01")),
        ("°C", ("temperature", "also written °C")),
    ],
)
def test_a_unit_says_what_it_measures_and_how_it_turns_into_others(
    name: str, parts: tuple[str, ...]
) -> None:
    told(name, *parts)


def test_every_unit_of_the_trade_can_be_explained_by_its_name_in_si() -> None:
    for symbol, unit in KNOWN.items():
        assert symbol in explained(symbol)
        if symbol != "dB":
            assert read_unit(si_symbol(unit)).dimension == unit.dimension
            assert read_unit(si_symbol(unit)).factor == 1


def test_a_name_with_several_meanings_is_told_in_all_of_them(tmp_path: Path) -> None:
    (tmp_path / "sources.toml").write_text(
        '[kPa]\ntitle = "A book named as a unit"\nbasis = "handbook"\n'
    )
    (tmp_path / "pack.toml").write_text('title = "A pack"\n')
    text = explained("kPa", Rulebook.load(tmp_path))
    assert "A book named as a unit" in text
    assert "1 kPa = 1000 Pa" in text


def test_a_fact_of_a_pack_is_explained(tmp_path: Path) -> None:
    (tmp_path / "facts.toml").write_text(
        '[crane_reach]\nkind = "quantity"\nunit = "m"\nquestion = "How far does the crane reach?"\n'
    )
    text = explained("more.crane_reach", Rulebook.load(tmp_path))
    assert "How far does the crane reach?" in text
    assert 'crane_reach = "1 m"' in text
    assert "No rule reads it." in text


@pytest.mark.parametrize(
    ("name", "near"),
    [
        ("site.snow_dept", "site.snow_depth"),
        ("snow_depth", "site.snow_depth"),
        ("free-volume", "defrost-water/free-volume"),
        ("sun-cvoer", "sun cover"),
        ("kPaa", "kPa"),
        ("cable-capacity", "cable-capacities"),
        ("en-1991-1-4-x", "en-1991-1"),
        ("defrost-water", "'tundish rules defrost-water' lists its rules"),
        ("xyzzyxyzzy", "'tundish rules' lists all rules"),
    ],
)
def test_what_has_no_such_name_is_told_with_what_is_near(name: str, near: str) -> None:
    assert name_lines(name, BOOK) == []
    assert near in no_such_name(name, BOOK)


@pytest.mark.parametrize("name", ["", ".", "/", "site.", "..", "x" * 10_000, "more.", "[1]"])
def test_an_odd_name_means_nothing_and_breaks_nothing(name: str) -> None:
    assert name_lines(name, BOOK) == []
    assert "Nothing is called" in no_such_name(name, BOOK)
