"""The benchmark: `.venv/bin/python tests/benchmark [PLOT.svg]`.

Every figure is a ratio of medians that were measured side by side in this run.
"""

from __future__ import annotations

import sys
from pathlib import Path

import cold_start
import growth
import many_jobs
import one_job
from measuring import machine

print(f"Measured on {machine()}")
one_job.measure()
many_jobs.measure()
cold_start.measure()
growth.measure(Path(sys.argv[1]) if len(sys.argv) > 1 else None)
