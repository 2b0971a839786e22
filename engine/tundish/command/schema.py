"""`tundish schema`: what files and data look like, for editors and other programs."""

from __future__ import annotations

import argparse

from tundish.command.option_values import SCHEMAS
from tundish.command.output import put_out_data
from tundish.command.parser import Subcommands, add_command, one_of


def add(subcommands: Subcommands) -> None:
    """Add the subcommand."""
    parser = add_command(
        subcommands,
        "schema",
        "Print the JSON Schema of what is read and put out, for editors and other programs.",
        "It is of draft 2020-12. An editor that knows it names the keys of a file, says what each "
        "asks for, and marks a wrong one while it is written.",
        """
        tundish schema job > job.schema.json
        tundish schema findings
        """,
    )
    parser.add_argument(
        "what",
        type=one_of(SCHEMAS),
        metavar="WHAT",
        help="findings: what 'check --json' puts out; job: a job file; unit: a unit sheet; rule: "
        "a rule file; constraints: what facts of a job can only be together",
    )
    parser.set_defaults(run=run)


def run(arguments: argparse.Namespace) -> int:
    """Print the schema; return what the command ends with."""
    from tundish.report.schemas.schema_files import schema_named

    put_out_data(schema_named(arguments.what))
    return 0
