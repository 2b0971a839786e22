"""A mended job as the text of a file: the old one's facts with the changes put in."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from tundish.job.changes import put_into_data
from tundish.job.job import Job
from tundish.remedy.mend import Mending
from tundish.text.quoted import escaped


def mended_file(job: Job, mending: Mending, folder: Path) -> str:
    """Return a job as one file with its changes put in, and a comment that names them.

    Args:
        job: The job, read from a file.
        mending: The changes.
        folder: The folder that the file will lie in.
    """
    import tomli_w

    source = job.source
    assert source is not None
    names = [escaped(Path(file.name).name) for file in source.files if file is not source.sheet]
    rows = [f"# Changed by tundish mend, from {' and '.join(names)}; comments stayed there."]
    data = dict(source.data)
    for made in mending.made:
        rows.append(f"# {made.label}: {made.was} to {made.change.written}")
        data = put_into_data(data, made.change, _as_toml(made.change.value, made.change.written))
    return "\n".join(rows) + "\n\n" + tomli_w.dumps(source.as_one_file(folder, data))


def _as_toml(value: object, written: str) -> Any:
    """Return a new value as the file holds it: a bare number or truth, or a text."""
    if isinstance(value, bool):
        return value
    return int(written) if isinstance(value, float) and written.isdecimal() else written
