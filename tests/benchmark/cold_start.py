"""Cold start: what a command takes, against Python with the packages it needs and nothing else.

All is byte-compiled, as an installed program is, and what the program keeps between runs lies in a
folder of this measurement's own.
"""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile

from measuring import medians, told
from one_job import BARN

BASE = (
    "from pydantic import BaseModel; from rich.console import Console; "
    "from rich.table import Table; import tomllib, argparse"
)
_CHECK = ("-m", "tundish", "check", str(BARN))


def measure() -> None:
    """Measure whole processes, started anew each time."""
    with tempfile.TemporaryDirectory() as folder:
        kept = {name: value for name, value in os.environ.items() if name != "TUNDISH_CACHE"}
        kept.pop("PYTHONDONTWRITEBYTECODE", None)
        kept |= {"PYTHONPYCACHEPREFIX": f"{folder}/compiled", "XDG_CACHE_HOME": f"{folder}/kept"}
        off = {**kept, "TUNDISH_CACHE": "off"}
        # Each task is run once before it is measured: there it is compiled, and fills the cache.
        times = medians(
            {
                "the packages alone": lambda: _run(kept, "-c", BASE),
                "tundish --help": lambda: _run(kept, "-m", "tundish", "--help"),
                "tundish check, with its cache": lambda: _run(kept, *_CHECK),
                "tundish check, without": lambda: _run(off, *_CHECK),
            },
            repeats=9,
        )
    wanted = {
        "tundish --help": 0.5,
        "tundish check, with its cache": 1.5,
        "tundish check, without": 2.5,
    }
    told("Cold start", times, "the packages alone", wanted)


def _run(environment: dict[str, str], *arguments: str) -> None:
    subprocess.run(
        [sys.executable, *arguments], stdout=subprocess.DEVNULL, env=environment, check=False
    )
