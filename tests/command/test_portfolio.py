"""`tundish portfolio`."""

import json
from pathlib import Path

import pytest

from command.conftest import GOOD_JOB, Run

CSV = "job,site.snow_depth\nLow,100 mm\nDeep,2 m\nUnknown,\n"


def test_a_table_is_summed_up_and_written_out(run: Run) -> None:
    Path("base.toml").write_text(GOOD_JOB)
    Path("homes.csv").write_text(CSV)
    ran = run("portfolio", "homes.csv", "--base", "base.toml", "--to", "out.jsonl", "--plain")
    assert ran.code == 0, ran.err
    assert "Portfolio of three jobs" in ran.out
    assert "1 (33 %): The unit stands above the snow" in ran.out
    found = [json.loads(line) for line in Path("out.jsonl").read_text().splitlines()]
    assert [(one["job"], one["breached"]) for one in found] == [
        ("Low", []),
        ("Deep", ["placement/snow"]),
        ("Unknown", []),
    ]
    assert found[2]["undecided"] == ["placement/snow"]


def test_json_lines_are_a_table_too(run: Run) -> None:
    Path("base.toml").write_text(GOOD_JOB)
    Path("homes.jsonl").write_text('{"site.snow_depth": "2 m"}\n{"site.snow_depth": null}\n')
    ran = run("portfolio", "homes.jsonl", "--base", "base.toml", "--plain")
    assert ran.code == 0
    assert "Portfolio of two jobs" in ran.out


@pytest.mark.parametrize(
    ("name", "text", "said"),
    [
        ("a.csv", "", "names the columns"),
        ("a.csv", "site.snow_depth,site.snow_depth\n", "each once"),
        ("a.csv", "site.snow_depht\n1 m\n", "Did you mean 'site.snow_depth'?"),
        ("a.csv", "site.snow_depth\n1 m,2 m\n", "has 2 cells"),
        ("a.csv", "site.snow_depth\n1 mm mm\n", "row 1"),
        ("a.jsonl", "{", "not JSON"),
        ("a.jsonl", "[1]\n", "object of facts"),
        ("a.jsonl", "\n", "no row"),
        ("a.txt", "x", "A table is a .csv file"),
    ],
)
def test_a_table_that_cannot_be_read_is_told(run: Run, name: str, text: str, said: str) -> None:
    Path("base.toml").write_text(GOOD_JOB)
    Path(name).write_text(text)
    ran = run("portfolio", name, "--base", "base.toml")
    assert ran.code == 2
    assert said in ran.err
