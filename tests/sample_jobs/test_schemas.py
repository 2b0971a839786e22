"""The sample files name the schemas beside them, which are those that the program prints."""

import json
import tomllib
from pathlib import Path

import pytest
from jsonschema import Draft202012Validator

from tundish.report.schemas.job_files import job_file_schema, unit_sheet_schema
from tundish.results.as_data import as_json
from tundish.text.bundled_folders import bundled_folder

SAMPLES = bundled_folder("sample_jobs")
SCHEMAS = SAMPLES / "schemas"
FILES = [(path, "job") for path in sorted(SAMPLES.glob("*.toml"))]
FILES += [(path, "unit") for path in sorted((SAMPLES / "unit_sheets").glob("*.toml"))]


def written(what: str) -> str:
    """Return the text of a schema, as a file has it."""
    return as_json(job_file_schema() if what == "job" else unit_sheet_schema())


@pytest.mark.parametrize("what", ["job", "unit"])
def test_a_schema_is_what_the_program_prints(what: str) -> None:
    text = (SCHEMAS / f"{what}.json").read_text(encoding="utf-8")
    assert text == written(what), "run tests/sample_jobs/write_schemas.py"


@pytest.mark.parametrize(("path", "what"), FILES, ids=lambda one: getattr(one, "stem", one))
def test_a_sample_names_its_schema_first(path: Path, what: str) -> None:
    first = path.read_text(encoding="utf-8").splitlines()[0]
    assert first.startswith("#:schema ")
    named = (path.parent / first.removeprefix("#:schema ")).resolve()
    assert named == (SCHEMAS / f"{what}.json").resolve()


@pytest.mark.parametrize(("path", "what"), FILES, ids=lambda one: getattr(one, "stem", one))
def test_a_sample_keeps_to_its_schema(path: Path, what: str) -> None:
    schema = json.loads(written(what))
    data = json.loads(json.dumps(tomllib.loads(path.read_text(encoding="utf-8")), default=str))
    Draft202012Validator(schema).validate(data)
