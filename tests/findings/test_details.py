"""What a finding rests on: inputs with places, workings with numbers, open facts, assumptions."""

from pathlib import Path
from typing import Any

import pytest

from findings.judged_job import FACTS, book, finding, findings, rule
from rulebook.packs import QUANTITY, load
from tundish.findings.assess import assess
from tundish.findings.finding import Finding
from tundish.job.job import Job

JOB = """\
unit_sheet = "sheet.toml"

[job]
title = "Invented cottage"

[site]
snow_depth = "120 mm"

[[water.run]]
name   = "flow"
length = "3 m"

[[water.run]]
length = "700 cm"
"""
SHEET = """\
[unit.water]
minimum_free_volume = "20 L"
"""


def from_files(folder: Path, requires: str) -> Finding:
    (folder / "sheet.toml").write_text(SHEET)
    (folder / "job.toml").write_text(JOB)
    job = Job.from_file(folder / "job.toml")
    (found,) = assess(job, book(folder / "rules", requires)).findings
    return found


def test_inputs_say_what_was_written_and_where(tmp_path: Path) -> None:
    found = from_files(
        tmp_path,
        "sum(run.length for run in water.run) * 1 m2 > unit.water.minimum_free_volume"
        " and site.snow_depth > 1 m",
    )
    seen = {
        each.path: (each.value, each.place.removeprefix(f"{tmp_path}/")) for each in found.inputs
    }
    assert seen == {
        "water.run[1].length": ("3 m", "job.toml:11"),
        "water.run[2].length": ("700 cm", "job.toml:14"),
        "unit.water.minimum_free_volume": ("20 L", "sheet.toml:2"),
        "site.snow_depth": ("120 mm", "job.toml:7"),
    }
    assert all(each.label for each in found.inputs)


def test_facts_that_were_not_read_from_a_file_have_no_place(tmp_path: Path) -> None:
    found = finding(tmp_path, "site.snow_depth > 1 m")
    assert [(each.path, each.place) for each in found.inputs] == [("site.snow_depth", "")]


def test_an_input_stands_once_however_often_it_is_read(tmp_path: Path) -> None:
    found = finding(tmp_path, "site.snow_depth > 1 m or site.snow_depth * 2 > 3 m")
    assert [each.path for each in found.inputs] == ["site.snow_depth"]


def test_what_decided_nothing_is_no_input(tmp_path: Path) -> None:
    found = finding(tmp_path, "site.snow_depth > 1 m and placement.height_below > 1 m")
    assert [each.path for each in found.inputs] == ["site.snow_depth"]
    found = finding(tmp_path / "b", "assume(site.snow_depth + site.altitude, 5 m) > 1 m")
    assert not found.inputs


def test_yes_no_lists_and_dates_are_shown_in_words(tmp_path: Path) -> None:
    facts = {**FACTS, "water.treatment": [], "unit.placing.protective_zone": []}
    found = finding(tmp_path, "'biocide' in water.treatment or job.date > job.date", facts)
    assert {each.path: each.value for each in found.inputs} == {
        "water.treatment": "none",
        "job.date": "2026-11-02",
    }


# -- workings -------------------------------------------------------------------------------

WORKINGS = """\
[{name}]
label    = "{name} in words"
about    = "For this test."
formula  = "{formula}"
{unit}
cite     = [{{ source = "code", recall = true }}]
reviewed = 2026-11-25
"""


SIGNED = 'unit = "m"\nat_least = "none"\nrange_because = "this may be less than nothing"'


def worked(folder: Path, formula: str, unit: str = SIGNED, requires: str = "") -> Finding:
    text = WORKINGS.format(name="result", formula=formula, unit=unit)
    files = {
        "snow/base.toml": rule(requires or "result > 1000 m"),
        "snow/quantities.toml": QUANTITY + text,
    }
    (found,) = assess(Job.from_data(FACTS), load(folder, files)).findings
    return found


@pytest.mark.parametrize(
    ("formula", "numbers", "result"),
    [
        ("site.snow_depth + placement.height_below", "120 mm + 100 mm", "0.22 m"),
        ("(site.snow_depth + 1 m) * 2", "(120 mm + 1 m) x 2", "2.24 m"),
        ("site.snow_depth + 1 m * 2", "120 mm + 1 m x 2", "2.12 m"),
        ("site.snow_depth - (1 m - 20 cm)", "120 mm - (1 m - 20 cm)", "-0.68 m"),
        ("site.snow_depth / (4 / 2)", "120 mm / (4 / 2)", "0.06 m"),
        ("-(site.snow_depth + 1 m)", "-(120 mm + 1 m)", "-1.12 m"),
        ("(site.snow_depth + 1 m) ^ 2 / 1 m", "(120 mm + 1 m)^2 / 1 m", "1.254 m"),
        ("pi * site.snow_depth", "pi x 120 mm", "0.377 m"),
        ("least(site.snow_depth, 2 * 1 m)", "least(120 mm, 2 x 1 m)", "0.12 m"),
        ("assume(site.altitude, 3 m) * 2", "3 m (assumed) x 2", "6 m"),
        ("assume(site.snow_depth, 3 m) * 2", "120 mm x 2", "0.24 m"),
        ("if site.snow_depth > 1 cm then 2 m + 1 m else 0 m", "2 m + 1 m", "3 m"),
        ("if known(site.altitude) then 1 m else 2 m", "2 m", "2 m"),
        ("if site.altitude > 1 m then 2 m else 2 m", "2 m", "2 m"),
        ("sum(run.length for run in water.run)", "3 m + 7 m", "10 m"),
        ("sum(run.length for run in water.run) * 2", "(3 m + 7 m) x 2", "20 m"),
        ("sum(run.length for run in water.run if run.length > 5 m)", "7 m", "7 m"),
        ("sum(run.length for run in water.run if run.length > 50 m)", "0 m", "0 m"),
        ("greatest(run.length for run in water.run)", "greatest of 3 m, 7 m", "7 m"),
        ("count(water.run) * 1 m", "2 x 1 m", "2 m"),
        ("count(run.length > 5 m for run in water.run) * 1 m", "1 x 1 m", "1 m"),
        ("spare_height * 2", "-20 mm x 2", "-0.04 m"),
    ],
)
def test_workings_put_the_numbers_into_the_formula(
    tmp_path: Path, formula: str, numbers: str, result: str
) -> None:
    work = worked(tmp_path, formula).workings[-1]
    assert (work.name, work.label) == ("result", "result in words")
    assert (work.formula, work.numbers, work.result) == (formula, numbers, result)


@pytest.mark.parametrize(
    ("formula", "numbers"),
    [
        ("site.snow_depth > 1 m", "120 mm > 1 m"),
        ("site.snow_depth * 2 > 1 m", "120 mm x 2 > 1 m"),
        ("not (site.snow_depth > 1 cm)", "not 120 mm > 1 cm"),
        ("site.snow_depth < 1 m and site.snow_depth > 1 m", "120 mm < 1 m and 120 mm > 1 m"),
        ("present(water.bypass)", "no"),
        ("site.exposure in ['open shore'] and false", "yes and no"),
        ("all(run.length < 5 m for run in water.run)", "no"),
    ],
)
def test_workings_of_a_condition_show_its_values(
    tmp_path: Path, formula: str, numbers: str
) -> None:
    found = worked(tmp_path, formula, 'gives = "truth"', "result")
    (work,) = found.workings
    assert (work.numbers, work.result) == (numbers, "no")
    assert "result in words: no" in found.statement.lower()


def test_quantities_that_others_need_come_first_and_once(tmp_path: Path) -> None:
    found = worked(tmp_path, "spare_height * 2 + spare_height")
    assert [each.name for each in found.workings] == ["spare_height", "result"]
    assert found.workings[1].sources[0].recall
    assert found.from_memory


def test_a_finding_from_memory_says_so_only_where_it_is(tmp_path: Path) -> None:
    assert not finding(tmp_path, "spare_height > 1 m").from_memory
    cited = finding(
        tmp_path / "b", "site.snow_depth > 1 m", cite='[{ source = "code", recall = true }]'
    )
    assert cited.from_memory


def test_a_quantity_that_is_not_known_is_shown_so(tmp_path: Path) -> None:
    found = worked(tmp_path, "site.altitude + site.snow_depth")
    work = found.workings[-1]
    assert (work.numbers, work.result) == ("not known + 120 mm", "not known")


TABLE = """\
title    = "Invented depths"
keys     = [{ name = "depth", unit = "m", read = "next up" }]
gives    = [{ name = "height", unit = "mm" }]
cite     = [{ source = "code" }]
reviewed = 2026-11-25
rows     = [[0.1, 200], [0.5, 700]]
"""


def test_a_reading_of_a_table_names_the_table_and_where_it_was_entered(tmp_path: Path) -> None:
    text = WORKINGS.format(
        name="result", formula="lookup('heights', site.snow_depth)", unit='unit = "mm"'
    )
    files = {
        "snow/base.toml": rule("result > 1000 m"),
        "snow/quantities.toml": text,
        "tables/heights.toml": TABLE,
    }
    (found,) = assess(Job.from_data(FACTS), load(tmp_path, files)).findings
    (work,) = found.workings
    assert (work.numbers, work.result) == ("table 'heights' at 120 mm", "700 mm")


def test_a_quantity_of_an_item_is_named_with_its_place(tmp_path: Path) -> None:
    text = WORKINGS.format(
        name="result", formula="run.length * 2", unit='unit = "m"\nof = "water.run as run"'
    )
    files = {
        "snow/base.toml": rule("all(run.result < 10 m for run in water.run)"),
        "snow/quantities.toml": text,
    }
    (found,) = assess(Job.from_data(FACTS), load(tmp_path, files)).findings
    assert {each.name: each.numbers for each in found.workings} == {
        "water.run[1].result": "3 m x 2",
        "water.run[2].result": "7 m x 2",
    }
    assert "14 m" in found.statement and "over by 4 m" in found.statement


# -- what is open ------------------------------------------------------------------------------


def test_what_is_open_comes_with_its_question_and_who_to_ask(tmp_path: Path) -> None:
    found = finding(tmp_path, "site.altitude > site.snow_depth")
    (asked,) = found.open
    assert asked.path == "site.altitude"
    assert asked.question.endswith("?") and asked.how and asked.who and asked.label


def test_open_facts_come_sorted_and_those_of_items_name_them(tmp_path: Path) -> None:
    facts: dict[str, Any] = {"water.run": [{"length": "1 m"}, {"name": "flow"}, {}]}
    found = finding(tmp_path, "sum(run.length for run in water.run) < site.altitude", facts)
    assert [each.path for each in found.open] == [
        "site.altitude",
        "water.run[2].length",
        "water.run[3].length",
    ]
    assert found.open[1].label.endswith("(flow)") and found.open[2].label.endswith("(run 3)")
    assert "(flow)" in found.statement and "(run 3)" in found.statement


def test_whether_a_thing_is_there_is_asked_before_how_large_it_is(tmp_path: Path) -> None:
    found = finding(
        tmp_path,
        "(if present(water.volume_vessel) then water.volume_vessel.volume else 0 L) > 5 L",
        {},
    )
    assert [each.path for each in found.open] == ["water.volume_vessel"]


def test_a_list_that_is_not_known_is_asked_for_once(tmp_path: Path) -> None:
    found = finding(tmp_path, "run.length < 5 m", {}, each='"water.run as run"')
    assert [each.path for each in found.open] == ["water.run"]
    assert found.item == ""


def test_nothing_is_asked_where_all_is_decided(tmp_path: Path) -> None:
    found = finding(tmp_path, "site.altitude > 1 m and site.snow_depth > 1 m")
    assert found.verdict == "breached" and not found.open


def test_an_open_question_of_whether_a_rule_applies_is_asked_too(tmp_path: Path) -> None:
    found = finding(tmp_path, "site.snow_depth < 1 m", applies='"site.altitude > 1 m"')
    assert found.verdict == "undecided"
    assert [each.path for each in found.open] == ["site.altitude"]


def test_an_unknown_region_is_asked_for(tmp_path: Path) -> None:
    found = finding(tmp_path, "site.snow_depth < 1 m", regions='["GB"]')
    assert [each.path for each in found.open] == ["job.region"]


def test_each_item_gets_a_finding(tmp_path: Path) -> None:
    found = findings(tmp_path, "run.length <= 5 m", each='"water.run as run"')
    assert [(each.item, each.verdict) for each in found] == [("run 2", "breached"), ("flow", "met")]
    assert [each.path for each in found[0].inputs] == ["water.run[2].length"]
