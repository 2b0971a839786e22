"""A job that lies over a base, written in a folder and read."""

from pathlib import Path
from typing import Any

import pytest

from tundish.job.facts import flatten
from tundish.job.job import Job
from tundish.text.problem import Problem, Refused

BASE = """\
[job]
title  = "Invented house type"
region = "GB"
[site]
snow_depth = "120 mm"
[water]
volume_vessel = { volume = "40 L" }
[[water.run]]
name   = "flow"
length = "3 m"
bends  = 2
[[water.run]]
name   = "return"
length = "4 m"
[[water.emitter]]
name   = "hall"
[[tolerance]]
of    = "site.snow_depth"
share = "5 %"
"""
HEAD = "based_on = 'types/base.toml'\n"


def written(folder: Path, **files: str) -> Path:
    """Write files, slashes in their names as two underscores; return the path of the job."""
    for name, text in files.items():
        path = folder / f"{name.replace('__', '/')}.toml"
        path.parent.mkdir(exist_ok=True)
        path.write_text(text)
    return folder / "job.toml"


def laid(folder: Path, job: str, base: str = BASE) -> Job:
    return Job.from_file(written(folder, job=HEAD + job, types__base=base))


def values(folder: Path, job: str, base: str = BASE) -> dict[str, Any]:
    return flatten(laid(folder, job, base)).values


def refused(path: Path) -> tuple[Problem, ...]:
    with pytest.raises(Refused) as caught:
        Job.from_file(path)
    return caught.value.problems
