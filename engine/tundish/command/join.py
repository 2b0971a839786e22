"""`tundish join`: a job and the sheets laid over it, as one file."""

from __future__ import annotations

import argparse
import os
from pathlib import Path
from typing import Any

from tundish.command.parser import Subcommands, add_command


def add(subcommands: Subcommands) -> None:
    """Add the subcommand."""
    parser = add_command(
        subcommands,
        "join",
        "Put a filled form or sheet and the job it names into one new job file.",
        "What was filled in stands over what was known before; lines left empty say nothing. "
        "Comments stay in the old files, and neither is written over.",
        """
        tundish join visit.toml --to job-after-visit.toml
        """,
    )
    parser.add_argument("sheet", metavar="SHEET", help="a filled form or sheet")
    parser.add_argument("--to", metavar="FILE", required=True, help="write the joined job there")
    parser.set_defaults(run=run)


def run(arguments: argparse.Namespace) -> int:
    """Write the joined job; return what the command ends with."""
    import tomli_w

    from tundish.command.files import put_in_file
    from tundish.job.overlay import lay_over, without_blanks
    from tundish.job.reader import read_job

    source = read_job(arguments.sheet).source
    assert source is not None
    over, *own = source.files
    data: dict[str, Any] = dict(over.data)
    folder = Path(over.name).parent
    if "of_job" in over.data:
        filled = {key: one for key, one in without_blanks(over.data).items() if key != "of_job"}
        data = lay_over(own[0].data, filled).data
        folder = Path(own[0].name).parent
    to = Path(arguments.to)
    if isinstance(data.get("unit_sheet"), str):  # found from the folder of the new file
        beside = os.path.relpath(folder / data["unit_sheet"], to.parent)
        data["unit_sheet"] = Path(beside).as_posix()
    return put_in_file(to, tomli_w.dumps(data))
