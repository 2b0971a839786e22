"""A portfolio of homes in a table: by columns, row by row, and job by job."""

from __future__ import annotations

import os
import random
from collections.abc import Callable
from typing import Any

from measuring import medians, told
from one_job import BARN

from tundish import Job, Rulebook
from tundish.findings.judged_job import JudgedJob
from tundish.job.table_columns import read_table_columns
from tundish.portfolio.by_columns import ColumnPortfolio
from tundish.portfolio.by_rows import RowPortfolio
from tundish.portfolio.parallel import Recipe, on_this_machine
from tundish.text.bounds import CHUNK_ROWS
from tundish.text.columns import RowsByColumn

JOBS, PARTS = 100, 8
UNKNOWN = 0.1

Make = Callable[[random.Random], Any]

FEW: dict[str, Make] = {
    "site.snow_depth": lambda chance: f"{chance.randrange(0, 900, 10)} mm",
    "placement.height_below [mm]": lambda chance: chance.randrange(100, 900, 10),
    "water.volume": lambda chance: f"{chance.randrange(40, 300)} L",
}
MANY: dict[str, Make] = {
    **FEW,
    "site.design_air_temperature [degC]": lambda chance: chance.randrange(-20, 3),
    "site.coldest_air_temperature [degC]": lambda chance: chance.randrange(-35, -5),
    "site.altitude [m]": lambda chance: chance.randrange(0, 1200),
    "site.distance_to_coast": lambda chance: f"{chance.randrange(50, 20000)} m",
    "site.exposure": lambda chance: chance.choice(["inland", "open hill", "town"]),
    "placement.anchored": lambda chance: chance.choice(["yes", "no"]),
    "placement.feet.count": lambda chance: chance.choice(["2", "4", "6"]),
    "unit.water.minimum_flow [L/min]": lambda chance: chance.uniform(8, 40),
    "unit.water.minimum_free_volume [L]": lambda chance: chance.uniform(10, 60),
    "building.design_heat_loss [kW]": lambda chance: chance.uniform(4, 16),
    "unit.sound_power.day [dB]": lambda chance: chance.randrange(48, 68),
    "water.flow.heating [L/min]": lambda chance: chance.uniform(8, 40),
    "water.flow_temperature [degC]": lambda chance: chance.randrange(30, 60),
    "water.treatment": lambda chance: chance.choice(["inhibitor", "none", "inhibitor; biocide"]),
    "water.fluid": lambda chance: chance.choice(["water", "propylene glycol"]),
    "water.frost.glycol.fraction [%]": lambda chance: chance.randrange(10, 45),
    "water.temperature_difference [K]": lambda chance: chance.uniform(3, 10),
    "unit.electricity.highest_current [A]": lambda chance: chance.uniform(8, 32),
    "electricity.phases": lambda chance: chance.choice([1, 3]),
    "hot_water.distance_from_unit [m]": lambda chance: chance.uniform(1, 30),
    "electricity.voltage [V]": lambda chance: chance.choice([230, 240, 400]),
}
"""Columns that lists are gone through with: runs, circuits, emitters, receivers of sound."""


def measure() -> None:
    """Measure tables with few and with many columns, a tenth of the cells empty."""
    _of("few", FEW)
    _of("many", MANY)


def _of(title: str, made: dict[str, Make]) -> None:
    rulebook, base = Rulebook.built_in(), Job.from_file(BARN)
    facts, columns = rulebook.facts(base), tuple(read_table_columns(made))
    table = table_of(made, CHUNK_ROWS)
    by_columns = ColumnPortfolio(facts, columns, rulebook)
    by_rows = RowPortfolio(facts, columns, rulebook)
    rows = [{name: cells[at] for name, cells in table.items()} for at in range(JOBS)]
    _agree(by_columns, by_rows, table, rows)
    part = RowsByColumn(1, CHUNK_ROWS, table)
    recipe = Recipe(facts, columns, (), rulebook.digest)
    one, row = f"{JOBS} jobs one by one, with findings", f"{JOBS} rows one by one"
    tasks: dict[str, Callable[[], object]] = {
        one: lambda: sum(len(JudgedJob(base, rulebook).judgements) for _ in range(JOBS)),
        row: lambda: by_rows.judged(rows),
        "columns": lambda: by_columns.judged(part),
    }
    for processes in (1, os.cpu_count() or 1):
        tasks[f"{PARTS} parts, {processes} processes"] = _spread(recipe, part, processes)
    times = medians(tasks, repeats=3)
    number = {one: JOBS, row: JOBS, "columns": CHUNK_ROWS}
    a_job = {
        f"a job: {name}": seconds / number.get(name, PARTS * CHUNK_ROWS)
        for name, seconds in times.items()
    }
    wanted = {f"a job: {name}": 0.02 for name in times if name not in (one, row)}
    told(f"A portfolio with {title} columns ({len(columns)}), {len(by_columns.judge.open)} of "
         f"{len(by_columns.rules)} rules open", a_job, f"a job: {one}", wanted)  # fmt: skip
    for name, seconds in a_job.items():
        faster = a_job[f"a job: {one}"] / seconds, a_job[f"a job: {row}"] / seconds
        print(f"  {name:<46} {1 / seconds:>12,.0f} jobs a second, "
              f"{faster[0]:,.0f} x one by one, {faster[1]:,.0f} x row by row")  # fmt: skip


def table_of(made: dict[str, Make], rows: int) -> dict[str, list[Any]]:
    """Return a table by columns, some of its cells empty."""
    chance = random.Random(3)
    return {
        name: ["" if chance.random() < UNKNOWN else make(chance) for _ in range(rows)]
        for name, make in made.items()
    }


def _spread(recipe: Recipe, part: RowsByColumn, processes: int) -> Callable[[], object]:
    """Return a run over parts of a table, the starting of the processes included."""

    def run() -> int:
        parts = (RowsByColumn(1 + at * CHUNK_ROWS, part.rows, part.columns) for at in range(PARTS))
        return sum(found.rows for found in on_this_machine(recipe, parts, processes))

    return run


def _agree(
    by_columns: ColumnPortfolio,
    by_rows: RowPortfolio,
    table: dict[str, list[Any]],
    rows: list[dict[str, Any]],
) -> None:
    """Refuse to measure what does not come to the same."""
    some = {name: cells[: len(rows)] for name, cells in table.items()}
    of_columns = by_columns.judged(RowsByColumn(1, len(rows), some)).summary
    _, of_rows = by_rows.judged(rows)
    if (of_columns.breaches, of_columns.unknown) != (of_rows.breaches, of_rows.unknown):
        raise SystemExit("By columns the verdicts are other than row by row.")
    if of_rows.refused:
        raise SystemExit("A cell of the benchmark cannot be read.")
