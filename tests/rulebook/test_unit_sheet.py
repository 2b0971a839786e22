"""The order of a unit sheet is read whole, and what is wrong in it is told at its place."""

from pathlib import Path

import pytest

from tundish import Rulebook
from tundish.rulebook.forms.unit_sheet import UNIT_SHEET, sheet_sections
from tundish.text.problem import Refused

SOURCES = '[table]\ntitle = "A table"\nbasis = "regulation"\n'
HEAD = '[[section]]\nheading = "A"\ncite = [{ source = "table" }]\nreviewed = 2026-12-01\n'


def write(folder: Path, text: str) -> None:
    """Write the order of a unit sheet into a pack."""
    path = folder / UNIT_SHEET
    path.parent.mkdir(exist_ok=True)
    path.write_text(text, encoding="utf-8")


def problems(folder: Path, text: str) -> list[str]:
    """Return what is told of a file, each with line and column."""
    (folder / "sources.toml").write_text(SOURCES, encoding="utf-8")
    write(folder, text)
    with pytest.raises(Refused) as refused:
        sheet_sections(folder)
    return [f"{one.line}:{one.column}: {one.sentence}" for one in refused.value.problems]


def test_rows_and_facts_are_read_in_order(tmp_path: Path) -> None:
    (tmp_path / "sources.toml").write_text(SOURCES, encoding="utf-8")
    text = (
        HEAD + 'rows = [{ row = "Weight", symbol = "m", facts = ["unit.mass"], note = "Dry." }]\n'
    )
    text += HEAD.replace('"A"', '"B"') + 'facts = ["unit.model", "unit.made"]\n'
    write(tmp_path, text)
    first, second = sheet_sections(tmp_path)
    assert [(row.row, row.symbol, row.note, row.facts) for row in first.rows] == [
        ("Weight", "m", "Dry.", ("unit.mass",))
    ]
    assert [row.facts for row in second.rows] == [("unit.model",), ("unit.made",)]
    assert second.heading == "B"
    assert first.citations[0].source.title == "A table"


def test_a_wrong_path_is_told_with_its_place_and_the_nearest(tmp_path: Path) -> None:
    text = HEAD + 'facts = [\n  "unit.model",\n  "unit.maas",\n]\n'
    (told,) = problems(tmp_path, text)
    assert told.startswith("7:3: 'unit.maas' is no fact of a unit.")
    assert "'unit.mass'" in told


@pytest.mark.parametrize("path", ["unit.rating", "unit.water", "site.altitude", "unit"])
def test_a_group_a_list_or_a_fact_of_the_site_is_no_fact_of_a_unit(
    tmp_path: Path, path: str
) -> None:
    (told,) = problems(tmp_path, HEAD + f'rows = [{{ row = "A", facts = ["{path}"] }}]\n')
    assert f"'{path}' is no fact of a unit." in told


def test_a_fact_that_stands_twice_is_told_at_the_second(tmp_path: Path) -> None:
    text = HEAD + 'facts = ["unit.mass"]\n' + HEAD + 'facts = ["unit.mass"]\n'
    assert problems(tmp_path, text) == ["10:10: 'unit.mass' stands here a second time."]


def test_a_source_that_is_not_in_the_bibliography_is_told(tmp_path: Path) -> None:
    text = HEAD.replace('"table"', '"tabel"') + 'facts = ["unit.mass"]\n'
    (told,) = problems(tmp_path, text)
    assert "sources.toml has no source 'tabel'." in told
    assert "'table'" in told


@pytest.mark.parametrize(
    "rest", ["", 'facts = ["unit.mass"]\nrows = [{ row = "A", facts = ["unit.made"] }]\n']
)
def test_a_section_has_rows_or_facts_and_not_both(tmp_path: Path, rest: str) -> None:
    assert problems(tmp_path, HEAD + rest) == ["1:3: A section has either 'rows' or 'facts'."]


def test_a_misspelt_key_of_a_row_is_told_with_the_nearest(tmp_path: Path) -> None:
    text = HEAD + 'rows = [{ row = "A", sybol = "m", facts = ["unit.mass"] }]\n'
    (told,) = problems(tmp_path, text)
    assert "A row has no key 'sybol'." in told
    assert "'symbol'" in told


@pytest.mark.parametrize("text", ["", "section = 3\n", '[section]\nheading = "A"\n'])
def test_a_file_without_sections_is_refused(tmp_path: Path, text: str) -> None:
    assert problems(tmp_path, text) == [
        "None:None: The order of a unit sheet is a list of [[section]]."
    ]


def test_what_is_no_section_is_told_beside_all_else(tmp_path: Path) -> None:
    told = problems(tmp_path, f'title = "A"\n{HEAD}facts = ["unit.maas"]\n')
    assert told[0].startswith("1:1: 'title' does not belong")
    assert len(told) == 2


def test_sections_that_are_no_tables_are_refused(tmp_path: Path) -> None:
    (told,) = problems(tmp_path, "section = [3]\n")
    assert told.endswith("A section is a table, [[section]].")


def test_a_folder_without_the_file_is_refused(tmp_path: Path) -> None:
    with pytest.raises(Refused):
        sheet_sections(tmp_path)


def test_a_pack_on_top_has_no_order_of_its_own_as_nothing_would_read_it(tmp_path: Path) -> None:
    (tmp_path / "pack.toml").write_text('title = "Invented"\n', encoding="utf-8")
    write(tmp_path, "section = []\n")
    with pytest.raises(Refused, match="Forms are those of the built-in rules"):
        Rulebook.load(tmp_path)
