"""The schema of findings: what is put out fits it, and it says what every field means."""

import copy
import dataclasses
import json
from collections.abc import Iterator
from typing import Any

import pytest
from jsonschema import Draft202012Validator

from report.made import everything
from report.test_siting import place
from tundish import Job, Rulebook, assess
from tundish.findings.finding import NOT_DATA, Finding
from tundish.report.schemas.data_schema import DataSchemas
from tundish.report.schemas.findings import findings_schema
from tundish.results.as_data import FORM, as_data, as_json, several_as_data
from tundish.text.bundled_folders import bundled_folder
from tundish.text.problem import Problem

JOBS = sorted(bundled_folder("sample_jobs").glob("*.toml"))


def objects(schema: Any) -> Iterator[dict[str, Any]]:
    """Give every schema of an object that a schema holds."""
    if isinstance(schema, dict):
        if "properties" in schema and isinstance(schema["properties"], dict):
            yield schema
        for inner in schema.values():
            yield from objects(inner)
    elif isinstance(schema, list):
        for inner in schema:
            yield from objects(inner)


def closed() -> Draft202012Validator:
    """Return what refuses a field that the schema does not tell of, as a later one might add."""
    schema = copy.deepcopy(findings_schema())
    for one in objects(schema):
        one["additionalProperties"] = False
    Draft202012Validator.check_schema(schema)
    return Draft202012Validator(schema)


@pytest.mark.parametrize("path", JOBS, ids=lambda path: path.stem)
def test_findings_of_a_sample_fit(path: Any) -> None:
    job, rulebook = Job.from_file(path), Rulebook.built_in()
    data = as_data(assess(job, rulebook, changes=True))
    closed().validate(json.loads(as_json(data)))


def test_findings_of_every_sort_fit() -> None:
    whole = dataclasses.replace(everything(), siting=place())
    closed().validate(as_data(whole))
    closed().validate(several_as_data([whole], [Problem("b.toml", 2, None, "No.")]))
    closed().validate(several_as_data([], []))


@pytest.mark.parametrize(
    ("field", "value"), [("verdict", "fine"), ("severity", None), ("due", 1), ("inputs", {})]
)
def test_what_is_no_finding_does_not_fit(field: str, value: object) -> None:
    data = as_data(everything())
    data["findings"][0][field] = value
    assert not closed().is_valid(data)


def test_a_field_left_out_does_not_fit_and_one_more_does() -> None:
    open_to_more = Draft202012Validator(findings_schema())
    data = as_data(everything())
    data["findings"][0]["later"] = 1
    assert open_to_more.is_valid(data)
    del data["findings"][0]["rule"]
    assert not open_to_more.is_valid(data)


def test_its_number_is_that_of_the_data() -> None:
    assert findings_schema()["$id"] == f"urn:tundish:findings:{FORM}"
    data = {**as_data(everything()), "form": FORM + 1}
    assert not closed().is_valid(data)


def test_every_field_of_a_finding_is_described() -> None:
    finding = findings_schema()["$defs"]["Finding"]
    names = [field.name for field in dataclasses.fields(Finding) if field.metadata != NOT_DATA]
    assert list(finding["properties"]) == names
    assert [name for name, one in finding["properties"].items() if "description" not in one] == []


def test_a_kind_of_field_that_it_does_not_know_is_told() -> None:
    with pytest.raises(TypeError, match="no schema"):
        DataSchemas().of(dict[str, int])
