"""`tundish facts`, on the built-in rulebook."""

import json
from pathlib import Path

import pytest

from command.conftest import Ran
from tundish.command.main import main
from tundish.job.schema import job_schema


@pytest.fixture(name="facts")
def command(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], tmp_path: Path):
    monkeypatch.setenv("COLUMNS", "100")
    monkeypatch.chdir(tmp_path)

    def run(*arguments: str) -> Ran:
        code = main(["facts", *arguments])
        told = capsys.readouterr()
        return Ran(code, told.out, told.err)

    return run


def test_without_a_word_tables_and_lists_are_told_on_a_screen_or_two(facts) -> None:
    ran = facts()
    assert ran.code == 0
    rows = ran.out.splitlines()
    assert len(rows) < 60
    for part in ("site: 30 facts", "water.run (a list): 33 facts", "tundish facts WORD"):
        assert part in ran.out
    assert f"{sum(1 for _ in job_schema().facts())} facts in all" in ran.out


def test_a_fact_is_told_with_all_that_one_needs_to_state_it(facts) -> None:
    ran = facts("site.snow_depth", "--plain")
    assert ran.code == 0
    for part in (
        "expected snow depth",
        "What snow depth is expected at the unit?",
        "From the national snow map",
        "a length with its unit, such as",
        'site.snow_depth = "',
        "the surveyor",
        "three rules: clearances/above-snow",
        "One fact found.",
    ):
        assert part.replace("\n", "") in " ".join(ran.out.split()) or part in ran.out


def test_what_more_rules_read_than_can_be_named_says_where_all_are(facts) -> None:
    assert "all in: tundish explain electricity.service_fuse" in " ".join(
        facts("main", "fuse", "--plain").out.split()
    )


def test_past_25_facts_are_a_line_each_unless_all_are_asked_for(facts) -> None:
    short = facts("defrost-water", "--plain").out
    whole = facts("defrost-water", "--plain", "--all").out
    assert short.count("who knows") == 25
    assert whole.count("who knows") > 60
    assert "--all tells all" in " ".join(short.split())
    assert "--all" not in whole


def test_what_nothing_has_to_do_with_is_said_with_words_near(facts) -> None:
    ran = facts("snwo")
    assert (ran.code, ran.out) == (2, "")
    assert ran.err.startswith("No fact of a job has to do with 'snwo'. Near it: snow")
    assert "'snow' finds 17 facts and 'fuse' finds seven facts" in facts("snow", "fuse").err
    assert facts(".").code == 2


def test_facts_are_data_too(facts) -> None:
    data = json.loads(facts("main fuse", "--json").out)
    (fact,) = data["facts"]
    assert fact["path"] == "electricity.service_fuse"
    assert fact["dimension"] == "current"
    assert fact["least"] == "0 A"
    assert fact["rules"][0]["severity"] in ("danger", "fault")
    assert data["rulebook_digest"]
    tables = json.loads(facts("--json").out)["tables"]
    assert {"path": "water.run", "sort": "list"}.items() <= {
        **next(one for one in tables if one["path"] == "water.run")
    }.items()
    every = json.loads(facts("--all", "--json").out)["facts"]
    assert len(every) > 1050


def test_facts_of_packs_are_found(facts) -> None:
    Path("ours").mkdir()
    Path("ours/facts.toml").write_text(
        '[crane_reach]\nkind = "quantity"\nunit = "m"\nquestion = "How far does the crane reach?"\n'
    )
    assert facts("crane", "reach").code == 2
    ran = facts("crane", "reach", "--rules", "ours", "--plain")
    assert "more.crane_reach" in ran.out
    assert 'more.crane_reach = "1 m"' in ran.out
    assert "no rule" in ran.out
    assert "more: one fact of packs of rules" in facts("--rules", "ours").out


def test_no_row_is_wider_than_a_narrow_page(facts, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("COLUMNS", "40")
    assert all(len(row) <= 40 for row in facts("snow").out.splitlines())
