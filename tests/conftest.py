"""What holds for all tests: they leave nothing in the user's own folders.

Within the tests nothing is cached, so that each reads the rules from their text. Programs that they
start may share one cache (see `processes.py`), which lies in a folder that goes with the run.
"""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

import pytest

from made_once import made_once

os.environ["TUNDISH_CACHE"] = "off"
_WORKER = "PYTEST_XDIST_WORKER" in os.environ
if not _WORKER:
    # Workers are started with this environment, so that they share the folder.
    os.environ["XDG_CACHE_HOME"] = tempfile.mkdtemp(prefix="tundish-tests-")


def pytest_unconfigure() -> None:
    if not _WORKER:
        shutil.rmtree(os.environ["XDG_CACHE_HOME"], ignore_errors=True)


def _build(folder: Path) -> None:
    done = subprocess.run(
        [sys.executable, "-m", "hatchling", "build", "-d", str(folder)],
        cwd=Path(__file__).parents[1],
        # A work tree on the path would hide what is missing from the package.
        env={name: value for name, value in os.environ.items() if name != "PYTHONPATH"},
        capture_output=True,
        text=True,
        timeout=300,
        check=False,
    )
    assert done.returncode == 0, done.stdout + done.stderr


@pytest.fixture(scope="session")
def built(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder with the wheel and the sdist of the work tree."""
    return made_once(tmp_path_factory, "built", _build)
