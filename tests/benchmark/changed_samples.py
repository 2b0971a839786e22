"""Sample jobs with some of their tables changed, for a measurement."""

from __future__ import annotations

import shutil
import tomllib
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

import tomli_w
from agreeing import SAMPLES

from tundish import Job

SAMPLE_JOBS = sorted(SAMPLES.glob("*.toml"))


def changed(path: Path, **tables: Any) -> Job:
    """Return a sample job in which these tables stand, or stand no longer.

    Args:
        path: The sample.
        **tables: What stands under a key at the top; None takes it out.
    """
    data = tomllib.loads(path.read_text(encoding="utf-8")) | tables
    with TemporaryDirectory() as folder:
        file = Path(folder, path.name)
        shutil.copytree(path.parent / "unit_sheets", Path(folder, "unit_sheets"))
        kept = {key: value for key, value in data.items() if value is not None}
        file.write_text(tomli_w.dumps(kept), encoding="utf-8")
        return Job.from_file(file)
