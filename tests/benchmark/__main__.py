"""The benchmark: `.venv/bin/python tests/benchmark [PART ...] [PLOT.svg]`.

Every figure is a ratio of medians that were measured side by side in this run. Without a part
named, all are measured.
"""

from __future__ import annotations

import sys
from collections.abc import Callable
from pathlib import Path

import cold_start
import growth
import many_jobs
import one_job
import other_engines
import tolerances
from measuring import machine

PARTS: dict[str, Callable[[Path | None], None]] = {
    "one_job": lambda _: one_job.measure(),
    "tolerances": lambda _: tolerances.measure(),
    "engines": lambda _: other_engines.measure(),
    "many_jobs": lambda _: many_jobs.measure(),
    "cold_start": lambda _: cold_start.measure(),
    "growth": growth.measure,
}


def main(arguments: list[str]) -> None:
    """Measure the parts that are named, or all."""
    plots = [Path(one) for one in arguments if one.endswith(".svg")]
    named = [one for one in arguments if not one.endswith(".svg")]
    for one in named:
        if one not in PARTS:
            raise SystemExit(f"There is no part '{one}'; there are {', '.join(PARTS)}.")
    print(f"Measured on {machine()}")
    for one in named or PARTS:
        PARTS[one](plots[0] if plots else None)


main(sys.argv[1:])
