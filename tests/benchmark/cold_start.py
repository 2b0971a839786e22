"""Cold start: what a command takes, against Python with the packages it needs and nothing else.

All is byte-compiled, as an installed program is, and what the program keeps between runs lies in a
folder of this measurement's own.
"""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile
import zipfile
from pathlib import Path

from changed_samples import SAMPLE_JOBS
from measuring import medians, told, worst
from one_job import BARN

BASE = (
    "from pydantic import BaseModel; from rich.console import Console; "
    "from rich.table import Table; import tomllib, argparse"
)
BASE_NAME = "the packages alone"
TOP = Path(__file__).parents[2]
_IN_THE_WAY = ("TUNDISH_CACHE", "PYTHONDONTWRITEBYTECODE")
_CHECK = ("-m", "tundish", "check")


def measure() -> None:
    """Measure whole processes, started anew each time."""
    with tempfile.TemporaryDirectory() as folder:
        installed = _installed(Path(folder))
        own = {name: value for name, value in os.environ.items() if name not in _IN_THE_WAY}
        own |= {"PYTHONPYCACHEPREFIX": f"{folder}/compiled", "XDG_CACHE_HOME": f"{folder}/kept"}
        here = {**own, "PYTHONPATH": str(TOP / "engine")}
        there = {**own, "PYTHONPATH": str(installed)}
        off = {"TUNDISH_CACHE": "off"}
        # Each task is run once before it is measured: there it is compiled, and fills the cache.
        times = medians(
            {
                BASE_NAME: lambda: _run(there, "-c", BASE),
                "tundish --help": lambda: _run(there, "-m", "tundish", "--help"),
                "installed, with a cache": lambda: _run(there, *_CHECK, str(BARN)),
                "installed, without": lambda: _run(there | off, *_CHECK, str(BARN)),
                "work tree, with a cache": lambda: _run(here, *_CHECK, str(BARN)),
                "work tree, without": lambda: _run(here | off, *_CHECK, str(BARN)),
            },
            repeats=9,
        )
        of_each = medians(
            {BASE_NAME: lambda: _run(there, "-c", BASE)}
            | {
                path.stem: lambda path=path: _run(there, *_CHECK, str(path)) for path in SAMPLE_JOBS
            },
            repeats=9,
        )
    told(
        "Cold start: tundish check",
        times,
        BASE_NAME,
        {"tundish --help": 0.5, "installed, with a cache": 1.5, "installed, without": 2.5},
    )
    told("tundish check, installed, with a cache, of each sample", of_each, BASE_NAME, {})
    base = of_each.pop(BASE_NAME)
    worst("Check", {name: seconds / base for name, seconds in of_each.items()}, 1.5)


def _installed(folder: Path) -> Path:
    """Build a wheel and lay it out as an installer does."""
    build = [sys.executable, "-m", "hatchling", "build", "-t", "wheel", "-d", str(folder)]
    subprocess.run(build, cwd=TOP, check=True, capture_output=True)
    with zipfile.ZipFile(next(folder.glob("*.whl"))) as wheel:
        wheel.extractall(folder / "installed")
    return folder / "installed"


def _run(environment: dict[str, str], *arguments: str) -> None:
    subprocess.run(
        [sys.executable, *arguments], stdout=subprocess.DEVNULL, env=environment, check=False
    )
