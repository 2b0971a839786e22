"""What takes long to make is made once for the whole run, whichever worker asks for it first."""

from __future__ import annotations

import fcntl
import os
import shutil
from collections.abc import Callable
from pathlib import Path

import pytest


def made_once(folders: pytest.TempPathFactory, name: str, make: Callable[[Path], object]) -> Path:
    """Return a folder, which the first to ask for it fills while all others wait.

    Args:
        folders: Gives the folder of the run; workers have theirs within it.
        name: What it is called.
        make: Fills an empty folder. Where it fails, the next to ask tries again.
    """
    base = folders.getbasetemp()
    run = base.parent if "PYTEST_XDIST_WORKER" in os.environ else base
    folder, whole = run / name, run / f"{name}.whole"
    with (run / f"{name}.lock").open("w") as lock:
        fcntl.flock(lock, fcntl.LOCK_EX)
        if not whole.exists():
            shutil.rmtree(folder, ignore_errors=True)
            folder.mkdir()
            make(folder)
            whole.touch()
    return folder
