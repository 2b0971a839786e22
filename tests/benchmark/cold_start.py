"""Cold start: what a command takes, against Python with the packages it needs and nothing else."""

from __future__ import annotations

import subprocess
import sys

from measuring import medians, told
from one_job import BARN

BASE = (
    "from pydantic import BaseModel; from rich.console import Console; "
    "from rich.table import Table; import tomllib, argparse"
)


def measure() -> None:
    """Measure whole processes, started anew each time."""

    def run(*arguments: str) -> None:
        subprocess.run([sys.executable, *arguments], stdout=subprocess.DEVNULL, check=False)

    times = medians(
        {
            "the packages alone": lambda: run("-c", BASE),
            "tundish --help": lambda: run("-m", "tundish", "--help"),
            "tundish check": lambda: run("-m", "tundish", "check", str(BARN)),
        },
        repeats=7,
    )
    wanted = {"tundish --help": 0.5, "tundish check": 2.5}
    told("Cold start, no cache", times, "the packages alone", wanted)
