"""The JSON Schemas by name, and where they lie beside files so that an editor finds them."""

from __future__ import annotations

from pathlib import Path

from tundish.report.schemas.data_schema import Schema
from tundish.text.file import path_from


def schema_named(name: str) -> Schema:
    """Return the schema of one kind of file or data.

    Args:
        name: "job", "unit", "rule", "constraints" or "findings".
    """
    if name == "findings":
        from tundish.report.schemas.findings import findings_schema

        return findings_schema()
    if name == "rule":
        from tundish.report.schemas.rule_files import rule_file_schema

        return rule_file_schema()
    if name == "constraints":
        from tundish.report.schemas.rule_files import constraints_file_schema

        return constraints_file_schema()
    from tundish.report.schemas.job_files import job_file_schema, unit_sheet_schema

    return job_file_schema() if name == "job" else unit_sheet_schema()


def schema_path(name: str, folder: Path) -> Path:
    """Return where the schema for the files of a folder lies."""
    return folder / "schemas" / f"{name}.json"


def schema_line(name: str, file: Path, folder: Path) -> str:
    """Return the line that tells an editor where the schema of a file is.

    Args:
        name: "job", "unit" or "rule".
        file: The file that gets the line.
        folder: The folder in whose `schemas` the schema lies.

    Example:
        >>> schema_line("rule", Path("ours/snow/above.toml"), Path("ours"))
        '#:schema ../schemas/rule.json'
    """
    return f"#:schema {path_from(file.parent, schema_path(name, folder))}"
