"""What holds for all tests: they leave nothing in the user's own folders.

Within the tests nothing is cached, so that each reads the rules from their text. Programs that they
start may share one cache (see `processes.py`), which lies in a folder that goes with the run.
"""

from __future__ import annotations

import os
import shutil
import tempfile

os.environ["TUNDISH_CACHE"] = "off"
_WORKER = "PYTEST_XDIST_WORKER" in os.environ
if not _WORKER:
    # Workers are started with this environment, so that they share the folder.
    os.environ["XDG_CACHE_HOME"] = tempfile.mkdtemp(prefix="tundish-tests-")


def pytest_unconfigure() -> None:
    if not _WORKER:
        shutil.rmtree(os.environ["XDG_CACHE_HOME"], ignore_errors=True)
