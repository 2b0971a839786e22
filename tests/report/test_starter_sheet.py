"""A starter of a unit sheet is in the published order, and is a sheet once its marks are off."""

import re
import tomllib
from dataclasses import replace
from pathlib import Path

import pytest

from tundish import Job, assess
from tundish.job.hints import example
from tundish.job.model.schema import Fact, Record
from tundish.job.schema import job_schema
from tundish.report.forms.starter_lines import WIDTH, prose, taken_up
from tundish.report.forms.starter_sheet import starter_sheet
from tundish.rulebook.forms.unit_sheet import sheet_sections

# The items of the table for heat pumps in Commission Regulation (EU) No 813/2013, Annex II, point
# 5(a) (Table 2), each line from left to right. Read in a public copy of EUR-Lex's text, CELEX
# 32013R0813, last updated on 2017-01-09.
TABLE = (
    ("Model(s)", ""),
    ("Air-to-water heat pump", ""),
    ("Water-to-water heat pump", ""),
    ("Brine-to-water heat pump", ""),
    ("Low-temperature heat pump", ""),
    ("Equipped with a supplementary heater", ""),
    ("Heat pump combination heater", ""),
    ("Rated heat output", "Prated"),
    ("Seasonal space heating energy efficiency", "ηs"),
    (
        "Declared capacity for heating for part load at indoor temperature 20 °C and outdoor "
        "temperature Tj",
        "Pdh",
    ),
    (
        "Declared coefficient of performance or primary energy ratio for part load at indoor "
        "temperature 20 °C and outdoor temperature Tj",
        "COPd or PERd",
    ),
    ("Bivalent temperature", "Tbiv"),
    ("Operation limit temperature", "TOL"),
    ("Cycling interval capacity for heating", "Pcych"),
    ("Cycling interval efficiency", "COPcyc or PERcyc"),
    ("Degradation co-efficient", "Cdh"),
    ("Heating water operating limit temperature", "WTOL"),
    ("Off mode", "POFF"),
    ("Supplementary heater: Rated heat output", "Psup"),
    ("Thermostat-off mode", "PTO"),
    ("Standby mode", "PSB"),
    ("Supplementary heater: Type of energy input", ""),
    ("Crankcase heater mode", "PCK"),
    ("Capacity control", ""),
    ("Rated air flow rate, outdoors", ""),
    ("Sound power level, indoors/outdoors", "LWA"),
    ("Rated brine or water flow rate, outdoor heat exchanger", ""),
    ("Emissions of nitrogen oxides", "NOx"),
    ("Declared load profile", ""),
    ("Water heating energy efficiency", "ηwh"),
    ("Daily electricity consumption", "Qelec"),
    ("Daily fuel consumption", "Qfuel"),
    ("Contact details", ""),
)

ASKED = (
    "unit.model",
    "unit.water.minimum_flow",
    "unit.rating.output",
    "unit.rating",
    "unit.electricity.backup_heater",
    "unit.water.pump_head.head",
    "unit.placing.feet.height",
    "unit.placing.coil",
    "unit.lowest_air_temperature",
    "site.altitude",
)


def facts() -> list[Fact]:
    unit = job_schema().fields["unit"]
    assert isinstance(unit, Record)
    return list(unit.facts())


def unit_facts() -> list[str]:
    return [fact.path for fact in facts()]


def keys(text: str) -> list[str]:
    """Return the keys of a starter's lines of TOML, in order."""
    return re.findall(r"^# (\S+) = ", text, re.M)


def test_every_fact_of_a_unit_has_one_place() -> None:
    placed = [path for part in sheet_sections() for row in part.rows for path in row.facts]
    # A new fact of the model is told here by its name: rules/forms/unit-sheet.toml places it.
    assert sorted(placed) == sorted(unit_facts())


def test_the_first_section_follows_the_lines_of_the_regulation() -> None:
    table = iter(TABLE)
    for row in sheet_sections()[0].rows:
        assert any(
            item.startswith(row.row) and symbol.split(" or ")[0] == row.symbol
            for item, symbol in table
        ), f"{row.row} is not in the table, or not where it stands there"


def test_the_regulation_is_cited_with_its_place() -> None:
    (citation,) = sheet_sections()[0].citations
    assert citation.source.basis == "regulation"
    assert citation.at == "Annex II, point 5(a), Table 2"
    assert not citation.recall


def test_a_starter_says_nothing_yet() -> None:
    assert tomllib.loads(starter_sheet()) == {"unit": {}}
    assert tomllib.loads(starter_sheet(ASKED)) == {"unit": {}}


def test_all_facts_stand_in_the_full_form_once() -> None:
    sheet = tomllib.loads(taken_up(starter_sheet()))
    assert sorted(_leaves(sheet)) == sorted(unit_facts())


def _leaves(data: object, path: str = "") -> list[str]:
    if isinstance(data, dict):
        return [leaf for key, value in data.items() for leaf in _leaves(value, f"{path}.{key}")]
    if isinstance(data, list) and any(isinstance(item, dict) for item in data):
        return [leaf for item in data for leaf in _leaves(item, path)]
    return [path.removeprefix(".")]


def test_the_short_form_has_what_is_asked_and_no_more() -> None:
    assert keys(starter_sheet(ASKED)) == [
        "model",
        "electricity.backup_heater.fitted",
        "rating",
        "lowest_air_temperature",
        "water.minimum_flow",
        "water.pump_head",
        "electricity.backup_heater.power",
        "electricity.backup_heater.phases",
        "electricity.backup_heater.device_rating",
        "electricity.backup_heater.switched_by",
        "placing.feet.height",
        "placing.coil",
    ]


@pytest.mark.parametrize("asked", [None, ASKED])
def test_with_its_marks_off_a_job_is_judged_with_it(
    tmp_path: Path, asked: tuple[str, ...] | None
) -> None:
    (tmp_path / "unit.toml").write_text(taken_up(starter_sheet(asked)), encoding="utf-8")
    job = tmp_path / "job.toml"
    job.write_text(
        'unit_sheet = "unit.toml"\n[job]\nregion = "GB"\nstage = "design"\n', encoding="utf-8"
    )
    assert assess(Job.from_file(job)).findings


def test_a_first_line_for_editors_stands_first_and_stays() -> None:
    line = "#:schema schemas/unit.json"
    text = starter_sheet(ASKED, line)
    assert text.splitlines()[0] == line
    assert taken_up(text).splitlines()[0] == line
    assert starter_sheet(ASKED) == text.removeprefix(f"{line}\n")


def test_every_line_is_for_reading_or_toml_and_fits() -> None:
    for row in starter_sheet().splitlines():
        assert row in ("", "[unit]") or re.match(r"## \S|# [a-z_.]+ = \S", row), row
        assert len(row) <= WIDTH, row


def test_forty_facts_take_a_hundred_lines_at_most() -> None:
    for start in range(0, len(unit_facts()), 20):
        asked = unit_facts()[start : start + 40]
        assert len(starter_sheet(asked).splitlines()) <= 100


def test_a_line_of_the_table_bears_its_name_and_symbol() -> None:
    (row,) = [row for row in starter_sheet().splitlines() if "# lowest_air_temperature" in row]
    assert row.endswith("# Operation limit temperature, TOL")


def test_words_to_choose_from_are_told() -> None:
    text = " ".join(row.removeprefix("## ") for row in starter_sheet().splitlines())
    assert "(untreated or treated)" in text
    assert "(any of openings, " not in text  # of a list it is said which of its facts is meant
    assert "free_of: any of openings, drains, " in text


def test_how_to_write_that_a_group_is_absent_is_told_once() -> None:
    text = starter_sheet()
    assert text.count('electricity.backup_heater = "none"') == 1
    assert text.count('placing.feet = "none"') == 1


def test_a_list_without_words_to_choose_from_says_no_choice() -> None:
    (row,) = [row for row in starter_sheet().splitlines() if row.startswith("# water.pump_head")]
    assert row.endswith("# What does the built-in pump give?")


def test_long_prose_is_wrapped_behind_its_mark() -> None:
    rows = prose("word " * 60)
    assert len(rows) > 1
    assert all(row.startswith("## word") and len(row) <= WIDTH for row in rows)


def test_a_text_without_an_example_leaves_a_gap() -> None:
    fact = next(one for one in facts() if one.kind == "text" and not one.choices)
    assert example(replace(fact, example="")) == '"…"'
