"""What is put out says which job and rules it was made from, by their digests."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from tundish import Job, Rulebook
from tundish.command.main import main
from tundish.findings.assess import digest_of

JOB = '[site]\nsnow_depth = "12 cm"\n[placement]\nheight_below = "200 mm"\n'


@pytest.fixture(name="job")
def job_file(tmp_path: Path) -> Path:
    path = tmp_path / "job.toml"
    path.write_text(JOB)
    return path


def digests(job: Path) -> tuple[str, str]:
    rules = Rulebook.built_in()
    return digest_of(rules.facts(Job.from_file(job))), rules.digest


def told(capsys: pytest.CaptureFixture[str], *words: object) -> dict[str, Any]:
    main([str(word) for word in words])
    found: dict[str, Any] = json.loads(capsys.readouterr().out)
    return found


def test_a_survey_and_an_order_say_it(job: Path, capsys: pytest.CaptureFixture[str]) -> None:
    for command in ("survey", "order"):
        data = told(capsys, command, job, "--json")
        assert (data["job_digest"], data["rulebook_digest"]) == digests(job)


def test_a_comparison_says_it_of_both(job: Path, capsys: pytest.CaptureFixture[str]) -> None:
    data = told(capsys, "compare", job, job, "--json")
    for side in ("before", "after"):
        assert (data[side]["job_digest"], data[side]["rulebook_digest"]) == digests(job)


def test_a_portfolio_says_it(job: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    parquet = pytest.importorskip("pyarrow.parquet")
    table, to = tmp_path / "homes.csv", tmp_path / "verdicts.parquet"
    table.write_text("job,site.snow_depth\na,1 m\n")
    main(["portfolio", str(table), "--base", str(job), "--to", str(to), "--processes", "1"])
    said = capsys.readouterr().out
    stored = parquet.read_schema(to).metadata
    for name, digest in zip(("base_digest", "rulebook_digest"), digests(job), strict=True):
        assert digest in "".join(said.split())
        assert stored[name.encode()] == digest.encode()


@pytest.mark.parametrize("by_columns", [True, False])
def test_each_line_of_a_portfolio_says_it(
    job: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, by_columns: bool
) -> None:
    monkeypatch.setattr("tundish.portfolio.portfolio._is_installed", lambda _: by_columns)
    table, to = tmp_path / "homes.csv", tmp_path / "verdicts.jsonl"
    table.write_text("job,site.snow_depth\na,1 m\nb,\n")
    main(["portfolio", str(table), "--base", str(job), "--to", str(to), "--processes", "1"])
    lines = [json.loads(line) for line in to.read_text().splitlines()]
    assert len(lines) == 2
    for line in lines:
        assert (line["base_digest"], line["rulebook_digest"]) == digests(job)
