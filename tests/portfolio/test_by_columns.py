"""Tables screened by columns come to what each job comes to by itself."""

from __future__ import annotations

import datetime
from collections.abc import Mapping, Sequence
from functools import cache
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from rulebook.packs import load
from rulebook.test_editions import JOB, LOOKED_UP, OLD_TABLE, TABLE
from tundish import Job, Rulebook, Verdict
from tundish.job.changes import Change, changed
from tundish.job.facts import Facts
from tundish.job.model.kinds import (
    ChoiceKind,
    DateKind,
    NumberKind,
    QuantityKind,
    TextsKind,
    TruthKind,
    WholeKind,
)
from tundish.job.model.schema import Items
from tundish.job.schema import job_schema
from tundish.job.table_columns import TableColumn, read_table_columns
from tundish.portfolio.by_columns import ColumnPortfolio
from tundish.portfolio.by_rows import RowPortfolio
from tundish.portfolio.fact_columns import varying_paths
from tundish.rulebook.evaluate.columns import CODES, worst
from tundish.rulebook.evaluate.completions import early_for_all
from tundish.rulebook.evaluate.contradictions import nowhere
from tundish.rulebook.evaluate.judge import judge
from tundish.text.columns import Cells, RowsByColumn
from tundish.text.problem import Refused
from tundish.units.quantity import parse_quantity

SAMPLES = Path(__file__).parents[2] / "sample_jobs"
BASES = sorted(path.name for path in SAMPLES.glob("*.toml"))


@cache
def base_of(name: str) -> Facts:
    return Rulebook.built_in().facts(Job.from_file(SAMPLES / name))


def in_a_list(path: str) -> bool:
    steps = path.split(".")
    above = (job_schema().find(".".join(steps[:length])) for length in range(1, len(steps)))
    return any(isinstance(entry, Items) for entry in above)


def outside_lists() -> list[TableColumn]:
    found = []
    for fact in job_schema().facts():
        if in_a_list(fact.path):
            continue  # refusing a column takes long, as it looks for what may have been meant
        try:
            found += read_table_columns([fact.path])
        except Refused:
            continue
    return found


PIPES = ["placement.condensate.pipe", "water.bypass.pipe", "hot_water.relief.outlet.first_pipe"]
COLUMNS = outside_lists() + read_table_columns(PIPES)


def cells(column: TableColumn) -> st.SearchStrategy[Any]:
    """Give cells of a column: empty ones, likely ones, some at what is usual and some far off."""
    kind: Any = column.kind
    match kind:
        case QuantityKind():
            unit = parse_quantity(kind.example).unit
            numbers = st.sampled_from([0, 0.5, 1, 2, 3, 6, 10, 25, 40, 150, 1000, 12345.678, -8])
            likely = numbers.map(lambda number: f"{number} {unit}".removesuffix(" 1"))
        case TruthKind():
            likely = st.sampled_from(["true", "no", True, False])
        case ChoiceKind():
            likely = st.sampled_from(list(kind.choices))
        case WholeKind():
            likely = st.sampled_from([*(kind.options or range(5)), "2", 3.0])
        case NumberKind():
            likely = st.sampled_from([kind.least, 0.5, "1", 2])
        case DateKind():
            likely = st.sampled_from(["2026-11-02", "2020-01-31", datetime.date(2027, 1, 1)])
        case TextsKind():
            words = list(kind.choices) or ["x"]
            likely = st.lists(st.sampled_from(words), max_size=3, unique=True).map("; ".join)
        case _:
            likely = st.sampled_from(["GB", "copper 28 x 0.9", "steel DN25", "x"])
    return st.one_of(st.just(""), likely, likely, likely)


def facts_of(base: Facts, columns: Sequence[TableColumn], row: Mapping[str, Any]) -> Facts:
    """Return the facts of one job; a wrong cell raises ValueError."""
    said = {path: value for one in columns for path, value in one.read(row[one.written]).items()}
    values = changed(base, [Change(path, value, "") for path, value in said.items()]).values
    for path in {path for one in columns for path in one.paths} - said.keys():
        values.pop(path, None)
    return Facts(values, {}, base.names)


def by_itself(base: Facts, columns: Sequence[TableColumn], row: Mapping[str, Any]) -> list[int]:
    """Judge one job as it is judged when it comes alone; a wrong cell raises ValueError."""
    book, facts = Rulebook.built_in(), facts_of(base, columns, row)
    session = book.session(facts.values)
    return [
        worst(CODES[one.verdict] for one in judge(rule, facts, session))
        for rule in book.rules.values()
    ]


def by_columns(
    base: Facts, columns: Sequence[TableColumn], table: Mapping[str, Cells], rows: int
) -> tuple[Any, Mapping[int, str]]:
    portfolio = ColumnPortfolio(base, columns, Rulebook.built_in())
    found = portfolio.judged(RowsByColumn(1, rows, dict(table)))
    whole = np.empty((len(portfolio.rules), rows), int)
    for rule, code in portfolio.settled.items():
        whole[rule] = code
    whole[found.open] = found.verdicts
    return whole, found.problems


@st.composite
def tables(draw: st.DrawFn) -> tuple[str, list[TableColumn], list[dict[str, Any]]]:
    size = draw(st.sampled_from([1, 3, 10, 60]))
    columns = draw(
        st.lists(st.sampled_from(COLUMNS), min_size=1, max_size=size, unique_by=lambda c: c.path)
    )
    row = st.fixed_dictionaries({column.written: cells(column) for column in columns})
    return draw(st.sampled_from(BASES)), columns, draw(st.lists(row, min_size=1, max_size=5))


@settings(max_examples=50, deadline=None, suppress_health_check=list(HealthCheck))
@given(tables())
def test_every_rule_judges_each_row_as_if_it_came_alone(
    drawn: tuple[str, list[TableColumn], list[dict[str, Any]]],
) -> None:
    name, columns, rows = drawn
    base = base_of(name)
    table = {column.written: [row[column.written] for row in rows] for column in columns}
    found, problems = by_columns(base, columns, table, len(rows))
    for at, row in enumerate(rows):
        try:
            expected = by_itself(base, columns, row)
        except ValueError as error:
            assert str(error) in problems[at]
            continue
        contradictions = Rulebook.built_in().contradictions.of(facts_of(base, columns, row))
        told = next((each.sentence(nowhere) for each in contradictions), None)
        assert problems.get(at) == told
        differing = np.flatnonzero(found[:, at] != expected)
        names = list(Rulebook.built_in().rules)
        if differing.size:
            early = early_for_all(Rulebook.built_in(), base, varying_paths(columns))
            assert {names[rule] for rule in differing} <= early.keys()


def test_where_a_rule_might_run_out_of_steps_each_row_is_judged_by_itself(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    base = base_of(BASES[0])
    columns = read_table_columns(["site.snow_depth", "water.fluid"])
    rows = [("10 cm", "water"), ("", "propylene glycol"), ("2 m", "")]
    headings = [column.written for column in columns]
    table = dict(zip(headings, map(list, zip(*rows, strict=True)), strict=True))
    expected, _ = by_columns(base, columns, table, 3)
    monkeypatch.setattr("tundish.rulebook.evaluate.columns.most_steps", lambda *_: 10**9)
    slow = ColumnPortfolio(base, columns, Rulebook.built_in())
    assert not slow.judge.within_bounds
    found, _ = by_columns(base, columns, table, 3)
    assert found.tolist() == expected.tolist()
    for at, row in enumerate(rows):
        cells = dict(zip(table, row, strict=True))
        assert found[:, at].tolist() == by_itself(base, columns, cells)


def test_the_day_of_each_row_chooses_the_edition_of_a_table(tmp_path: Path) -> None:
    files = {
        "snow/base.toml": LOOKED_UP,
        "tables/heights.toml": TABLE.replace("rows ", "holds_from = 2021-01-01\nrows "),
        "tables/heights-before.toml": OLD_TABLE,
    }
    book = load(tmp_path, files)
    base = book.facts(Job.from_data(JOB | {"site.ground": "clay"}))
    portfolio = ColumnPortfolio(base, read_table_columns(["job.date"]), book)
    days = ["2020-12-31", "2021-01-01", "", "2020-12-31"]
    found = portfolio.judged(RowsByColumn(1, len(days), {"job.date": days}))
    words = {code: verdict for verdict, code in CODES.items()}
    assert [words[code] for code in found.verdicts[0].tolist()] == [
        Verdict.MET,
        Verdict.BREACHED,
        Verdict.BREACHED,
        Verdict.MET,
    ]


def test_a_rule_that_no_column_reads_is_decided_as_soon_as_it_is_certain() -> None:
    rulebook = Rulebook.built_in()
    data = {
        "electricity": {"phases": 1, "existing_demand": "38 A", "service_fuse": "60 A"},
        "unit.electricity": {"phases": 1, "highest_current": "29.5 A"},
    }
    base = rulebook.facts(Job.from_data(data))
    columns = read_table_columns(["site.snow_depth"])
    rule = list(rulebook.rules).index("supply-capacity/service-fuse")
    assert ColumnPortfolio(base, columns, rulebook).settled[rule] == CODES[Verdict.BREACHED]
    (row,), _ = RowPortfolio(base, columns, rulebook).judged([{"site.snow_depth": "10 cm"}])
    assert "supply-capacity/service-fuse" in row.breached
    # What a column has a part in is looked at cell by cell, and not in all completions.
    columns = read_table_columns(["electricity.interlock"])
    assert ColumnPortfolio(base, columns, rulebook).settled[rule] == CODES[Verdict.UNDECIDED]
    (row,), _ = RowPortfolio(base, columns, rulebook).judged([{}])
    assert "supply-capacity/service-fuse" in row.undecided
