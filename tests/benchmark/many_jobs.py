"""Many jobs in a table, against checking them one by one."""

from __future__ import annotations

import random

from measuring import medians, told
from one_job import BARN

from tundish import Job, Rulebook, assess
from tundish.assessment.portfolio import Portfolio

JOBS = 50


def measure() -> None:
    """Measure a table of jobs, some cells empty, and as many jobs one by one."""
    rulebook, base = Rulebook.built_in(), Job.from_file(BARN)
    chance = random.Random(3)
    rows = [
        {
            "site.snow_depth": f"{chance.randrange(0, 900, 10)} mm",
            "placement.height_below": f"{chance.randrange(100, 900, 10)} mm",
            "water.volume": "" if chance.random() < 0.1 else f"{chance.randrange(40, 300)} L",
        }
        for _ in range(JOBS)
    ]
    portfolio = Portfolio(rulebook.facts(base), list(rows[0]), rulebook)
    tasks = {
        f"{JOBS} jobs one by one, with findings": lambda: [
            assess(base, rulebook) for _ in range(JOBS)
        ],
        f"{JOBS} rows of a table": lambda: portfolio.judged(rows),
    }
    wanted = {f"{JOBS} rows of a table": 0.02}
    times = medians(tasks, repeats=5)
    told("Many jobs", times, f"{JOBS} jobs one by one, with findings", wanted)
    print(f"  {JOBS / times[f'{JOBS} rows of a table']:.0f} jobs a second in a table")
