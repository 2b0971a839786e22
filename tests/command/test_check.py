"""`tundish check`."""

import json

import pytest

from command.conftest import (
    BROKEN_JOB,
    CARELESS_JOB,
    DANGEROUS_JOB,
    GOOD_JOB,
    OPEN_JOB,
    SHEET,
    Run,
    Write,
)


@pytest.mark.parametrize(
    ("text", "code"),
    [(GOOD_JOB, 0), (OPEN_JOB, 0), (CARELESS_JOB, 0), (DANGEROUS_JOB, 1), (BROKEN_JOB, 2)],
)
def test_it_ends_with_what_came_out(run: Run, write, text: str, code: int) -> None:
    write("job.toml", text)
    assert run("check", "job.toml").code == code


@pytest.mark.parametrize(
    ("fail_on", "careless", "dangerous"),
    [("danger", 0, 1), ("fault", 0, 1), ("caution", 1, 1), ("note", 1, 1), ("never", 0, 0)],
)
def test_fail_on_says_from_which_severity_on_it_fails(
    run: Run, write, fail_on: str, careless: int, dangerous: int
) -> None:
    write("careless.toml", CARELESS_JOB)
    write("dangerous.toml", DANGEROUS_JOB)
    assert run("check", "careless.toml", "--fail-on", fail_on).code == careless
    assert run("check", "dangerous.toml", "--fail-on", fail_on).code == dangerous


def test_a_breach_is_told_with_its_numbers_and_line(run: Run, write) -> None:
    write("job.toml", DANGEROUS_JOB)
    out = " ".join(run("check", "job.toml").out.split())
    for part in ("DANGER", "short by 50 mm", "job.toml, lines", "Raise the unit", "[from memory]"):
        assert part in out


def test_one_job_that_cannot_be_read_does_not_hide_the_others(run: Run, write) -> None:
    write("broken.toml", BROKEN_JOB)
    write("dangerous.toml", DANGEROUS_JOB)
    ran = run("check", "broken.toml", "dangerous.toml")
    assert ran.code == 2
    assert "DANGER" in ran.out
    assert "broken.toml: could not be read" in ran.out
    assert "broken.toml, line 8" in ran.err
    assert "mmm" in ran.err
    assert "Traceback" not in ran.err


def test_a_missing_file_is_a_sentence(run: Run) -> None:
    ran = run("check", "nowhere.toml")
    assert ran.code == 2
    assert "nowhere.toml" in ran.err
    assert "no such file" in ran.err


def test_several_jobs_stand_under_headings_and_end_with_a_table(run: Run, write) -> None:
    write("a.toml", GOOD_JOB)
    write("b.toml", DANGEROUS_JOB)
    out = run("check", "a.toml", "b.toml").out
    assert out.index("Invented cottage") < out.index("Invented chalet") < out.index("ALL JOBS")
    assert out.count("BEFORE YOU ACT ON THIS") == 1


def test_one_job_has_no_table(run: Run, write) -> None:
    write("a.toml", GOOD_JOB)
    assert "ALL JOBS" not in run("check", "a.toml").out


def test_a_job_comes_from_standard_input(run: Run) -> None:
    ran = run("check", "-", stdin=DANGEROUS_JOB.encode())
    assert ran.code == 1
    assert "standard input" in ran.out


def test_a_sheet_named_on_standard_input_is_found_from_here(run: Run, write) -> None:
    write("sheets/unit.toml", SHEET)
    text = f'unit_sheet = "sheets/unit.toml"\n{GOOD_JOB}'
    assert run("check", "-", stdin=text.encode()).code == 0


@pytest.mark.parametrize(
    "stdin", [b"\xff\xfe", b"= nothing", b"x" * (4 * 1024 * 1024 + 1)], ids=["code", "toml", "long"]
)
def test_bad_standard_input_is_a_sentence(run: Run, stdin: bytes) -> None:
    ran = run("check", "-", stdin=stdin)
    assert ran.code == 2
    assert ran.err.startswith("standard input")
    assert ran.out == ""


def test_a_folder_is_judged_job_by_job_in_order(run: Run, write) -> None:
    write("jobs/b.toml", DANGEROUS_JOB)
    write("jobs/deep/a.toml", GOOD_JOB)
    write("jobs/unit.toml", SHEET)
    ran = run("check", "jobs")
    assert ran.code == 1
    assert ran.out.index("Invented chalet") < ran.out.index("Invented cottage")
    assert "unit.toml" not in ran.out
    assert ran.err == ""


def test_a_folder_without_a_job_is_a_sentence(run: Run, write) -> None:
    write("jobs/unit.toml", SHEET)
    ran = run("check", "jobs")
    assert ran.code == 2
    assert "no job in this folder" in ran.err


def test_stage_and_region_are_put_over_those_of_the_job(run: Run, write) -> None:
    write("job.toml", OPEN_JOB)
    now = run("check", "job.toml", "--stage", "commissioning")
    assert "What snow depth" in now.out
    assert "decides" in now.out
    early = run("check", "job.toml", "--stage", "survey", "--region", "de")
    assert "decides" not in early.out  # asked in a line, as it can wait
    assert "until design" in early.out
    assert "region: DE" in early.out


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (("--stage", "desing"), "Did you mean 'design'?"),
        (("--region", "GBR"), "two letters such as GB"),
        (("--region", "UK"), "'UK' is no country of ISO 3166-1. Did you mean 'GB'?"),
        (("--region", "bx"), "'bx' is no country of ISO 3166-1"),
        (("--region", "\u00e9\u00e9"), "two letters such as GB"),
        (("--show", "everything"), "breached, open, all"),
        (("--fail-on", "fatal"), "danger, fault, caution, note, never"),
        (("--json", "--plain"), "not allowed with"),
        (("--frobnicate",), "has no place in 'tundish check'"),
        (("--jsn",), "Did you mean '--json'?"),
        (("--stag", "design"), "Did you mean '--stage'?"),
        (("--show", "\x1b[2J"), "is none of"),
    ],
)
def test_a_wrong_option_is_a_sentence(run: Run, arguments: tuple[str, ...], said: str) -> None:
    ran = run("check", "job.toml", *arguments)
    assert ran.code == 2
    assert said in ran.err
    assert "tundish check --help" in ran.err
    assert "\x1b" not in ran.err
    assert ran.out == ""


def test_json_is_one_assessment_for_one_job(run: Run, write) -> None:
    write("job.toml", DANGEROUS_JOB)
    ran = run("check", "job.toml", "--json")
    data = json.loads(ran.out)
    assert ran.code == 1
    assert data["form"] == 1
    assert data["findings"][0]["severity"] == "danger"
    assert data["findings"][0]["margin"]["value"] == "250 mm"


def test_json_of_a_folder_is_a_list_even_of_one_job(run: Run, write) -> None:
    write("jobs/a.toml", GOOD_JOB)
    data = json.loads(run("check", "jobs", "--json").out)
    assert [one["job"] for one in data["assessments"]] == ["Invented cottage"]
    assert data["problems"] == []


def test_json_of_several_jobs_keeps_what_was_refused(run: Run, write) -> None:
    write("a.toml", GOOD_JOB)
    write("b.toml", BROKEN_JOB)
    ran = run("check", "a.toml", "b.toml", "--json")
    data = json.loads(ran.out)
    assert ran.code == 2
    assert len(data["assessments"]) == 1
    assert data["problems"][0]["file"] == "b.toml"
    assert data["problems"][0]["line"] == 8


def test_plain_output_is_ascii_and_72_columns_wide(run: Run, write) -> None:
    write("job.toml", DANGEROUS_JOB)
    out = run("check", "job.toml", "--plain", "--show", "all").out
    assert out.isascii()
    assert max(len(row) for row in out.splitlines()) <= 72


def test_show_chooses_what_is_told(run: Run, write) -> None:
    write("job.toml", OPEN_JOB)
    assert "What snow depth" not in run("check", "job.toml", "--show", "breached").out
    assert "What snow depth" in run("check", "job.toml", "--show", "open").out


def test_rules_of_ones_own_are_put_on_top(run: Run, write) -> None:
    write("job.toml", GOOD_JOB)
    write(
        "ours/placement/high.toml",
        'title = "The unit stands high"\nrequires = "placement.height_below >= 1 m"\n'
        'severity = "fault"\nstage = "design"\nbecause = "So we say."\nremedy = "Raise it."\n'
        'cite = [{ source = "practice" }]\nreviewed = 2026-11-25\n',
    )
    ran = run("check", "job.toml", "--rules", "ours")
    assert ran.code == 1
    assert "The unit stands high" in ran.out


def test_rules_that_cannot_be_used_are_refused_with_a_caret(run: Run, write) -> None:
    write("job.toml", GOOD_JOB)
    write(
        "ours/placement/high.toml",
        'title = "High"\nrequires = "placement.height_belov >= 1 m"\n'
        'severity = "fault"\nstage = "design"\nbecause = "So."\nremedy = "Raise it."\n'
        'cite = [{ source = "practice" }]\nreviewed = 2026-11-25\n',
    )
    ran = run("check", "job.toml", "--rules", "ours")
    assert ran.code == 2
    assert "line 2" in ran.err
    rows = ran.err.splitlines()
    caret = next(at for at, row in enumerate(rows) if row.strip("^ ") == "")
    assert rows[caret].index("^") == rows[caret - 1].index("placement.height_belov")


def test_a_job_named_twice_is_judged_once(run: Run, write) -> None:
    write("jobs/a.toml", GOOD_JOB)
    out = run("check", "jobs", "jobs/a.toml", "./jobs/../jobs/a.toml").out
    assert out.count("Invented cottage") == 1


def test_mistakes_of_toml_are_told_with_those_of_the_job_in_one_run(run: Run, write: Write) -> None:
    write(
        "job.toml",
        '[job]\nregion = UK\nstage = "desing"\n\n[site]\nsnow_depht = "1 m"\n'
        "altitude = 40 m\n\n[water.run]\n",
    )
    ran = run("check", "job.toml")
    assert (ran.code, ran.out) == (2, "")
    assert ran.err.startswith(
        "job.toml, line 2, column 10\n"
        '  A text stands in quotes; write "UK".\n'
        "      region = UK\n"
        "               ^^\n"
        "job.toml, line 3, column 10\n"
    )
    assert "Did you mean 'snow_depth'?" in ran.err
    assert 'A quantity stands in quotes; write "40 m".' in ran.err
    assert "water.run: Write a list of tables: [[water.run]] above each of them" in ran.err


def test_mistakes_of_a_unit_sheet_are_told_in_the_same_run(run: Run, write: Write) -> None:
    write("unit.toml", '[unit]\nmodel = “Invented”\nmodle = "x"\n')
    write("job.toml", 'unit_sheet = "unit.toml"\n[site]\naltitude = 3 m\n')
    ran = run("check", "job.toml")
    assert ran.code == 2
    places = [row for row in ran.err.splitlines() if not row.startswith(" ")]
    assert [place.partition(", ")[2] for place in places] == [
        "line 3, column 12",
        "line 2, column 9",
        "line 3, column 1",
    ]


def test_a_job_in_no_country_is_told_at_its_place(run: Run, write: Write) -> None:
    write("job.toml", '[job]\nregion = "UK"\n')
    ran = run("check", "job.toml")
    assert (ran.code, ran.out) == (2, "")
    assert ran.err.startswith("job.toml, line 2, column 11\n  job.region: 'UK' is no country")
