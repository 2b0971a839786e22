"""Programs that tests start: from the work tree, with one cache for the whole run.

Where Python is told to write no bytecode, each would compile the whole program anew. They share
what the first compiles, in the folder that goes with the run.
"""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path
from typing import Any

ENGINE = Path(__file__).parents[1] / "engine"


def surroundings(**settings: str) -> dict[str, str]:
    """Return an environment in which the work tree is imported and rules are read from the cache.

    Args:
        settings: Further variables; `TUNDISH_CACHE="off"` where reading the text is the point.
    """
    own = {"PYTHONPATH": str(ENGINE), "TUNDISH_CACHE": "on", "COLUMNS": "80"}
    if sys.dont_write_bytecode:
        compiled = os.path.join(os.environ["XDG_CACHE_HOME"], "bytecode")
        own |= {"PYTHONDONTWRITEBYTECODE": "", "PYTHONPYCACHEPREFIX": compiled}
    return {**os.environ, **own, **settings}


def started(*arguments: str, **options: Any) -> subprocess.CompletedProcess[str]:
    """Run the command as a process of its own, and return how it ended.

    Args:
        arguments: Those of the command.
        options: Those of `subprocess.run`; both streams are captured where none is named.
    """
    streams = {} if "stdout" in options else {"capture_output": True}
    nothing_typed = {} if "input" in options else {"stdin": subprocess.DEVNULL}
    plain = {"env": surroundings(), "text": True, "check": False}
    whole = {**plain, **streams, **nothing_typed, **options}
    return subprocess.run([sys.executable, "-m", "tundish", *arguments], **whole)
