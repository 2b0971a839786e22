"""Growth: time against the number of rules, the length of lists and the number of jobs, plotted."""

from __future__ import annotations

import tempfile
from collections.abc import Callable
from pathlib import Path

from many_jobs import MANY, table_of
from measuring import medians
from one_job import BARN
from plot import Points, drawn

from tundish import Job, Rulebook
from tundish.findings.judged_job import JudgedJob
from tundish.job.table_columns import read_table_columns
from tundish.portfolio.by_columns import ColumnPortfolio
from tundish.rulebook.evaluate.evaluator import Evaluator
from tundish.text.bounds import CHUNK_ROWS
from tundish.text.columns import RowsByColumn

RULES = (100, 1_000, 10_000)
ITEMS = (1, 10, 100, 1_000)
JOBS = (1, 10, 100, 1_000)
ROWS = (100, 1_000, 10_000, 100_000)

SOURCES = '[practice]\ntitle = "Invented practice"\nbasis = "common practice"\n'

RULE = """\
title    = "Invented rule {number}"
requires = "placement.height_below >= site.snow_depth + {number} mm or site.snow_depth < 1 mm"
severity = "note"
stage    = "design"
because  = "It is measured."
remedy   = "Do nothing."
cite     = [{{ source = "practice" }}]
reviewed = 2026-11-25
"""

EACH = """\
title    = "Each pipe is held"
each     = "water.run as run"
requires = "run.length <= 10 m"
severity = "note"
stage    = "design"
because  = "It is measured."
remedy   = "Do nothing."
cite     = [{ source = "practice" }]
reviewed = 2026-11-25
"""


def rulebook(folder: Path, texts: list[str]) -> Rulebook:
    """Write a pack of rules and read it."""
    (folder / "grown").mkdir(parents=True)
    (folder / "sources.toml").write_text(SOURCES)
    for number, text in enumerate(texts):
        (folder / "grown" / f"rule-{number}.toml").write_text(text)
    return Rulebook.load(folder, with_built_in=False)


def measure(plot: Path | None = None) -> None:
    """Measure growth, tell it, and draw it where a file is named.

    Args:
        plot: The SVG file to draw to, or None.
    """
    with tempfile.TemporaryDirectory() as room:
        lines = {
            "rules": _by_rules(Path(room)),
            "items of a list": _by_items(Path(room)),
            "jobs one by one": _by_jobs(),
            "rows by columns": _by_rows(),
        }
    for name, points in lines.items():
        _tell(name, points)
    if plot is not None:
        plot.write_text(drawn(lines))
        print(f"\nDrawn to {plot}")


def _by_rules(room: Path) -> Points:
    job = {"placement.height_below": "300 mm", "site.snow_depth": "200 mm"}
    points = []
    for count in RULES:
        texts = [RULE.format(number=number) for number in range(count)]
        book = rulebook(room / str(count), texts)
        points.append((count, _verdicts(book, Job.from_data(job))))
    return points


def _by_items(room: Path) -> Points:
    book = rulebook(room / "each", [EACH])
    points = []
    for count in ITEMS:
        runs = [{"name": f"run {number}", "length": "3 m"} for number in range(count)]
        points.append((count, _verdicts(book, Job.from_data({"water.run": runs}))))
    return points


def _by_jobs() -> Points:
    """Measure jobs checked with the built-in rules, each with a row for every finding."""
    book, job = Rulebook.built_in(), Job.from_file(BARN)

    def check(count: int) -> int:
        return sum(len(JudgedJob(job, book).judgements) for _ in range(count))

    return [(count, _seconds(lambda count=count: check(count))) for count in JOBS]


def _by_rows() -> Points:
    """Measure a table of many columns, with lists and a tenth of the cells empty."""
    book = Rulebook.built_in()
    facts, columns = book.facts(Job.from_file(BARN)), tuple(read_table_columns(MANY))
    portfolio, cells = ColumnPortfolio(facts, columns, book), table_of(MANY, CHUNK_ROWS)

    def judge(count: int) -> None:
        for first in range(0, count, CHUNK_ROWS):
            rows = min(CHUNK_ROWS, count - first)
            some = {name: column[:rows] for name, column in cells.items()}
            portfolio.judged(RowsByColumn(1 + first, rows, some))

    return [(count, _seconds(lambda count=count: judge(count))) for count in ROWS]


def _verdicts(book: Rulebook, job: Job) -> float:
    evaluator, values = Evaluator(book), book.facts(job).values
    return _seconds(lambda: evaluator.verdicts(values))


def _seconds(task: Callable[[], object]) -> float:
    return medians({"it": task}, repeats=5)["it"]


def _tell(name: str, points: Points) -> None:
    print(f"\nGrowth with the number of {name}")
    for count, seconds in points:
        print(f"  {count:>7,} {1e6 * seconds:>14,.1f} us   {1e6 * seconds / count:>10,.3f} us each")
