"""The JSON Schemas beside files that the program writes, so that an editor finds them."""

from __future__ import annotations

import os
import sys
from pathlib import Path
from typing import TYPE_CHECKING

from tundish.text.quoted import escaped

if TYPE_CHECKING:
    from tundish.report.schemas.data_schema import Schema

_FOLDER = "schemas"


def schema_of(what: str) -> Schema:
    """Return the schema of one kind of file or data: "job", "unit", "rule" or "findings"."""
    if what == "findings":
        from tundish.report.schemas.findings import findings_schema

        return findings_schema()
    if what == "rule":
        from tundish.report.schemas.rule_files import rule_file_schema

        return rule_file_schema()
    from tundish.report.schemas.job_files import job_file_schema, unit_sheet_schema

    return job_file_schema() if what == "job" else unit_sheet_schema()


def schema_line(what: str, file: Path, folder: Path) -> str:
    """Return the line that tells an editor where the schema of a file is.

    Args:
        what: "job", "unit" or "rule".
        file: The file that gets the line.
        folder: The folder in whose `schemas` the schema lies.

    Example:
        >>> schema_line("rule", Path("ours/snow/above.toml"), Path("ours"))
        '#:schema ../schemas/rule.json'
    """
    path = os.path.relpath(folder / _FOLDER / f"{what}.json", file.parent)
    return f"#:schema {Path(path).as_posix()}"


def write_schema(what: str, folder: Path) -> None:
    """Write a schema beside the files that name it, if none is there yet.

    A schema only helps an editor, so it is said where it cannot be written, and nothing fails.

    Args:
        what: "job", "unit" or "rule".
        folder: The folder in whose `schemas` it is to lie.
    """
    from tundish.results.as_data import as_json
    from tundish.text.new_file import AlreadyThereError, write_new

    path = folder / _FOLDER / f"{what}.json"
    try:
        path.parent.mkdir(exist_ok=True)
        write_new(path, as_json(schema_of(what)))
    except AlreadyThereError:
        return
    except OSError as error:
        reason = error.strerror or error
        sys.stderr.write(f"{escaped(str(path))} cannot be written: {reason}.\n")
    else:
        sys.stderr.write(f"Written: {escaped(str(path))}, by which an editor knows the keys.\n")
