"""`tundish order`."""

import csv
import io
import json
from pathlib import Path

from command.conftest import GOOD_JOB, Run
from rulebook.packs import PROVISIONS, RULE, write_pack

JOB = GOOD_JOB.replace('snow_depth = "100 mm"', 'snow_depth = "300 mm"').replace(
    "run = []", 'run = [{ name = "flow", place = "outdoors", length = "2.5 m" }]'
)
ORDER = '\n[[order]]\nname = "frame"\nnumber = 2\n[[order]]\nname = "=1+1"\nnumber = 1\n'


def pack(folder: Path) -> str:
    files = {
        "parts/provisions.toml": PROVISIONS.replace('"code"', '"invented-standard"'),
        "parts/base.toml": RULE,
    }
    written = write_pack(folder / "pack", files)
    (written / "sources.toml").unlink()  # those of the pack below have the same names
    return str(written)


def test_a_list_of_what_is_needed(run: Run, tmp_path: Path) -> None:
    Path("job.toml").write_text(JOB)
    ran = run("order", "job.toml", "--rules", pack(tmp_path), "--plain")
    assert ran.code == 0, ran.err
    assert "2.5 m of cover against the sun" in ran.out
    assert "Order list: Invented cottage" in ran.out
    assert "does not say what was ordered" in " ".join(ran.out.split())
    assert "table 2" not in ran.out


def test_workings_tell_sums_and_sources(run: Run, tmp_path: Path) -> None:
    Path("job.toml").write_text(JOB)
    out = run("order", "job.toml", "--rules", pack(tmp_path), "--plain", "--workings").out
    assert "table 2" in out
    assert "= 2.5 m" in out


def test_something_missing_ends_with_one(run: Run, tmp_path: Path) -> None:
    Path("job.toml").write_text(JOB + ORDER)
    ran = run("order", "job.toml", "--rules", pack(tmp_path), "--plain")
    assert ran.code == 1
    assert "MISSING FROM THE ORDER" in ran.out


def test_what_came_is_told_with_what_is_needed_of_it(run: Run, tmp_path: Path) -> None:
    roll = '\n[[order]]\nname = "sun cover"\nlength = "10 m"\n'
    Path("job.toml").write_text(JOB + roll)
    out = run("order", "job.toml", "--rules", pack(tmp_path), "--plain").out
    assert "10 m of cover against the sun; needed: 2.5 m" in " ".join(out.split())


def test_a_table_for_spreadsheets(run: Run, tmp_path: Path) -> None:
    Path("job.toml").write_text(JOB + ORDER)
    out = run("order", "job.toml", "--rules", pack(tmp_path), "--csv").out
    rows = list(csv.DictReader(io.StringIO(out)))
    assert {row["order as"]: row["standing"] for row in rows} == {
        "sun cover": "missing",
        "frame": "doubtful",
        "'=1+1": "doubtful",
    }
    assert next(row for row in rows if row["order as"] == "sun cover")["needed"] == "2.5 m"


def test_data_for_programs(run: Run, tmp_path: Path) -> None:
    Path("job.toml").write_text(JOB + ORDER)
    data = json.loads(run("order", "job.toml", "--rules", pack(tmp_path), "--json").out)
    assert data["compared"] is True
    assert [line["standing"] for line in data["lines"]] == ["missing", "doubtful", "doubtful"]


def test_a_job_that_cannot_be_read_is_told(run: Run) -> None:
    ran = run("order", "nowhere.toml")
    assert (ran.code, ran.out) == (2, "")
    assert "nowhere.toml" in ran.err
