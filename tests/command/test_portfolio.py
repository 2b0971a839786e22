"""`tundish portfolio`."""

import importlib.util
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


# -- tables of every size, and what cannot be read of them ------------------------------------


def table(rows: int, wrong: int = 0) -> str:
    """Write a table whose depths go round; a row can be wrong."""
    depths = ["100 mm", "2 m", ""]
    lines = [f"H{at},{'wide' if at == wrong else depths[at % 3]}\n" for at in range(1, rows + 1)]
    return "job,site.snow_depth\n" + "".join(lines)


def as_expected(rows: int) -> list[tuple[str, list[str], list[str]]]:
    found = [([], []), (["placement/snow"], []), ([], ["placement/snow"])]
    return [(f"H{at}", *found[at % 3]) for at in range(1, rows + 1)]


@pytest.mark.parametrize("processes", ["1", "2"])
@pytest.mark.parametrize("rows", [0, 1, 8192, 8193, 4 * 8192 + 1])
def test_no_row_is_lost_or_doubled_or_moved(run: Run, rows: int, processes: str) -> None:
    Path("base.toml").write_text(GOOD_JOB)
    Path("homes.csv").write_text(table(rows))
    ran = run("portfolio", "homes.csv", "--base", "base.toml", "--to", "out.jsonl", "--plain",
              "--processes", processes)  # fmt: skip
    assert ran.code == 0, ran.err
    found = [json.loads(line) for line in Path("out.jsonl").read_text().splitlines()]
    assert [(one["job"], one["breached"], one["undecided"]) for one in found] == as_expected(rows)


def test_a_table_of_names_alone_is_the_base_job_many_times(run: Run) -> None:
    Path("base.toml").write_text(GOOD_JOB)
    Path("homes.csv").write_text("job\nA\nB\n")
    ran = run("portfolio", "homes.csv", "--base", "base.toml", "--plain")
    assert ran.code == 0
    assert "Without a breach: 2 of 2." in ran.out


def test_a_wrong_cell_is_told_with_its_row_and_the_rest_is_judged(run: Run) -> None:
    Path("base.toml").write_text(GOOD_JOB)
    Path("homes.csv").write_text(table(8, wrong=5))
    ran = run("portfolio", "homes.csv", "--base", "base.toml", "--to", "out.jsonl", "--plain")
    assert ran.code == 2
    assert "homes.csv, row 5 (H5): site.snow_depth: 'wide'" in ran.err
    told = " ".join(ran.out.split())
    assert "Not judged, as something in the row could not be read: 1." in told
    found = [json.loads(line) for line in Path("out.jsonl").read_text().splitlines()]
    assert "wide" in found[4]["problem"]
    assert [one["breached"] for one in found if one["breached"]] == [["placement/snow"]] * 3


def test_many_wrong_cells_are_counted(run: Run) -> None:
    Path("base.toml").write_text(GOOD_JOB)
    Path("homes.csv").write_text("site.snow_depth\n" + "wide\n" * 250)
    ran = run("portfolio", "homes.csv", "--base", "base.toml", "--plain")
    assert ran.code == 2
    assert ran.err.count("'wide'") == 200
    assert "50 more rows could not be read" in ran.err


@pytest.mark.parametrize(
    ("heading", "said"),
    [
        ("site.snow_depth [kg]", "cannot be in 'kg'"),
        ("site.snow_depth [mmm]", "'mmm' is no known unit"),
        ("site.snow_depth [mm", "square brackets"),
        ("site.snow_depth,site.snow_depth [mm]", "stands there twice"),
        ("placement.on [mm]", "has no unit"),
        ("water.run.length", "no fact outside a list"),
        ("water.run[1].length", "no fact outside a list"),
        ("water", "no fact outside a list"),
        (",", "each once"),
    ],
)
def test_a_wrong_heading_is_told(run: Run, heading: str, said: str) -> None:
    Path("base.toml").write_text(GOOD_JOB)
    Path("homes.csv").write_text(heading + "\n")
    ran = run("portfolio", "homes.csv", "--base", "base.toml")
    assert ran.code == 2
    assert said in " ".join(ran.err.split())
    assert "homes.csv, line 1" in ran.err


def test_a_heading_may_carry_the_unit(run: Run) -> None:
    Path("base.toml").write_text(GOOD_JOB)
    Path("homes.csv").write_text("site.snow_depth [mm]\n100\n2000\n300 mm\n")
    ran = run("portfolio", "homes.csv", "--base", "base.toml", "--plain")
    assert ran.code == 2
    assert "row 3: site.snow_depth [mm]: '300 mm' is no number; the heading gives" in ran.err
    assert "1 (33 %): The unit stands above the snow" in ran.out


def test_a_row_that_breaks_off_late_leaves_no_file(run: Run) -> None:
    Path("base.toml").write_text(GOOD_JOB)
    Path("homes.csv").write_text(table(3 * 8192) + "H,1 m,2 m\n")
    for name in ("out.jsonl", "out.parquet"):
        ran = run("portfolio", "homes.csv", "--base", "base.toml", "--to", name)
        assert ran.code == 2
        assert "has 3 cells" in ran.err
        assert sorted(path.name for path in Path().iterdir()) == ["base.toml", "homes.csv"]


@pytest.mark.parametrize("name", ["out.jsonl", "out.parquet"])
def test_a_file_that_is_there_is_not_written_over(run: Run, name: str) -> None:
    Path("base.toml").write_text(GOOD_JOB)
    Path("homes.csv").write_text(table(3))
    Path(name).write_text("mine")
    ran = run("portfolio", "homes.csv", "--base", "base.toml", "--to", name)
    assert ran.code == 2
    assert "is there already" in ran.err
    assert Path(name).read_text() == "mine"


# -- Parquet ----------------------------------------------------------------------------------


def test_parquet_comes_to_what_the_same_csv_comes_to(run: Run) -> None:
    pa = pytest.importorskip("pyarrow")
    pq = pytest.importorskip("pyarrow.parquet")
    Path("base.toml").write_text(GOOD_JOB)
    rows = 70_000  # more than one row group of what is written
    depths = [[100.0, 2000.0, None][at % 3] for at in range(1, rows + 1)]
    names = [f"H{at}" for at in range(1, rows + 1)]
    homes = pa.table({"job": names, "site.snow_depth [mm]": pa.array(depths, pa.float64())})
    pq.write_table(homes, "homes.parquet")
    ran = run("portfolio", "homes.parquet", "--base", "base.toml", "--to", "out.parquet")
    assert ran.code == 0, ran.err
    found = pq.read_table("out.parquet").to_pydict()
    assert found["job"] == names
    words = {100.0: "met", 2000.0: "breached", None: "undecided"}
    assert found["placement/snow"] == [words[depth] for depth in depths]
    assert set(found["problem"]) == {None}


def test_wrong_cells_of_parquet_are_told_and_have_no_verdict(run: Run) -> None:
    pa = pytest.importorskip("pyarrow")
    pq = pytest.importorskip("pyarrow.parquet")
    Path("base.toml").write_text(GOOD_JOB)
    depths = pa.array([100.0, -5.0, float("inf"), float("nan"), None])
    pq.write_table(pa.table({"site.snow_depth [mm]": depths}), "homes.parquet")
    ran = run("portfolio", "homes.parquet", "--base", "base.toml", "--to", "out.parquet")
    assert ran.code == 2
    assert "homes.parquet, row 2: site.snow_depth [mm]: '-5.0 mm' cannot be" in ran.err
    assert "row 3: site.snow_depth [mm]: inf is no number" in ran.err
    found = pq.read_table("out.parquet").to_pydict()
    assert found["placement/snow"] == ["met", None, None, "undecided", "undecided"]
    assert [bool(text) for text in found["problem"]] == [False, True, True, False, False]


def test_numbers_of_parquet_need_a_unit(run: Run) -> None:
    pa = pytest.importorskip("pyarrow")
    pq = pytest.importorskip("pyarrow.parquet")
    Path("base.toml").write_text(GOOD_JOB)
    pq.write_table(pa.table({"site.snow_depth": [1.0]}), "homes.parquet")
    ran = run("portfolio", "homes.parquet", "--base", "base.toml")
    assert ran.code == 2
    assert "its heading names their unit" in " ".join(ran.err.split())
    Path("broken.parquet").write_bytes(b"no table")
    ran = run("portfolio", "broken.parquet", "--base", "base.toml")
    assert ran.code == 2
    assert "The table cannot be read" in ran.err


# -- without the packages for columns -----------------------------------------------------------


def hide(monkeypatch: pytest.MonkeyPatch) -> None:
    """Do as if the packages for columns were not installed."""
    there, hidden = importlib.util.find_spec, ("numpy", "pyarrow", "distributed")
    monkeypatch.setattr(
        importlib.util, "find_spec", lambda name: None if name in hidden else there(name)
    )


def test_without_the_packages_rows_come_to_the_same(
    run: Run, monkeypatch: pytest.MonkeyPatch
) -> None:
    Path("base.toml").write_text(GOOD_JOB)
    Path("homes.csv").write_text(table(40, wrong=7))
    ask = ["portfolio", "homes.csv", "--base", "base.toml", "--plain", "--to"]
    by_columns = run(*ask, "columns.jsonl")
    hide(monkeypatch)
    row_by_row = run(*ask, "rows.jsonl")
    assert row_by_row.code == by_columns.code == 2
    assert "homes.csv, row 7 (H7): site.snow_depth: 'wide'" in row_by_row.err
    assert Path("rows.jsonl").read_text() == Path("columns.jsonl").read_text()
    assert "Without a breach: 26 of 40." in row_by_row.out
    assert "Without a breach: 26 of 40." in by_columns.out


@pytest.mark.parametrize("arguments", [["homes.parquet"], ["homes.csv", "--to", "out.parquet"]])
def test_without_the_packages_parquet_is_told(
    run: Run, arguments: list[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    Path("base.toml").write_text(GOOD_JOB)
    Path("homes.csv").write_text(table(1))
    Path("homes.parquet").write_bytes(b"")
    hide(monkeypatch)
    ran = run("portfolio", *arguments, "--base", "base.toml")
    assert ran.code == 2
    assert "pip install 'tundish[portfolio]'" in " ".join(ran.err.split())
    ran = run("portfolio", "homes.csv", "--base", "base.toml", "--cluster", "tcp://nowhere:1")
    assert ran.code == 2
    assert "tundish[cluster]" in ran.err
