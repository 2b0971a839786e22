"""The schemas of files: whole files fit, misspelt ones do not."""

import datetime
import tomllib
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator

from report.packs import write_pack
from tundish.job.job import Job
from tundish.job.model.kinds import FactKind
from tundish.job.model.schema import Fact, Record
from tundish.job.schema import job_schema
from tundish.report.schemas.data_schema import Schema
from tundish.report.schemas.job_files import job_file_schema, unit_sheet_schema
from tundish.report.schemas.kinds import kind_schema
from tundish.report.schemas.rule_files import constraints_file_schema, rule_file_schema
from tundish.text.bundled_folders import bundled_folder
from tundish.text.problem import Refused

SAMPLES = bundled_folder("sample_jobs")
JOBS = sorted(SAMPLES.glob("*.toml"))
SHEETS = sorted((SAMPLES / "unit_sheets").glob("*.toml"))
RULES = bundled_folder("rules")
JOB = Draft202012Validator(job_file_schema())
SHEET = Draft202012Validator(unit_sheet_schema())
RULE = Draft202012Validator(rule_file_schema())


def data(path: Path) -> Any:
    return as_json_has_it(tomllib.loads(path.read_text(encoding="utf-8")))


def as_json_has_it(value: Any) -> Any:
    """Return data with days as texts."""
    if isinstance(value, dict):
        return {key: as_json_has_it(inner) for key, inner in value.items()}
    if isinstance(value, list):
        return [as_json_has_it(inner) for inner in value]
    return value.isoformat() if isinstance(value, datetime.date) else value


@pytest.mark.parametrize("schema", [JOB, SHEET, RULE], ids=["job", "unit", "rule"])
def test_a_schema_is_one_of_its_draft(schema: Draft202012Validator) -> None:
    Draft202012Validator.check_schema(schema.schema)
    assert str(schema.schema["$schema"]).endswith("2020-12/schema")


@pytest.mark.parametrize("path", JOBS, ids=lambda path: path.stem)
def test_a_sample_job_fits(path: Path) -> None:
    JOB.validate(data(path))


@pytest.mark.parametrize("path", SHEETS, ids=lambda path: path.stem)
def test_a_unit_sheet_fits_and_is_no_job_with_more(path: Path) -> None:
    SHEET.validate(data(path))
    assert not SHEET.is_valid({**data(path), "site": {}})
    assert not SHEET.is_valid({})


@pytest.mark.parametrize(
    "job",
    [
        {"sight": {}},
        {"site": {"snow_dept": "12 cm"}},
        {"site": {"snow_depth": 12}},
        {"site": {"snow_depth": "12"}},
        {"site": {"snow_depth": "deep"}},
        {"site": {"snow_depth": "none"}},
        {"job": {"stage": "desing"}},
        {"job": {"region": "gb"}},
        {"job": {"title": " "}},
        {"job": {"date": 2026}},
        {"water": {"volume_vessel": "None"}},
        {"water": {"volume_vessel": True}},
        {"water": {"run": "none"}},
        {"water": {"run": [{"pipe": "28 x 0.9"}]}},
        {"placement": {"clearance": {"top": "closed"}}},
        {"placement": {"units_on_plot": -1}},
        {"more": "green"},
        {"electricity": {"phases": 2}},
    ],
)
def test_what_the_reader_refuses_does_not_fit(job: dict[str, Any]) -> None:
    with pytest.raises(Refused):
        Job.from_data(job)
    assert not JOB.is_valid(job)


@pytest.mark.parametrize(
    "job",
    [
        {},
        {"site": {"snow_depth": "12cm"}},
        {"site": {"snow_depth": "1,2e1 cm"}},
        {"site": {"altitude": "\u22124 m"}},
        {"water": {"volume_vessel": "none"}},
        {"water": {"volume_vessel": False}},
        {"water": {"volume_vessel": {}}},
        {"water": {"run": []}},
        {"water": {"run": [{"pipe": "steel DN25"}, {"pipe": "Multilayer 26 x 3"}]}},
        {"water": {"run": [{"pipe": "stainless steel 28"}]}},
        {"placement": {"clearance": {"top": "open"}}},
        {"more": {"colour": "green", "height": "2 m"}},
        {"electricity": {"phases": 3}},
    ],
)
def test_what_the_reader_takes_fits(job: dict[str, Any]) -> None:
    Job.from_data(job)
    JOB.validate(job)


def field_at(path: str) -> Schema:
    """Return the schema of a fact outside lists."""
    schemas = JOB.schema
    name = str(schemas["$ref"])
    found: Schema = {}
    for step in path.split("."):
        found = schemas["$defs"][name.rpartition("/")[2]]["properties"][step]
        inner = found.get("anyOf", [found])[0]
        name = str(inner.get("$ref", inner.get("items", {}).get("$ref", "")))
    return found


def outer_of(path: str) -> str:
    return path.rpartition(".")[0]


def is_measure_of_pipe(fact: Fact) -> bool:
    outer = job_schema().find(outer_of(fact.path)) if "." in fact.path else None
    return isinstance(outer, Record) and {"outside_diameter", "wall"} <= set(outer.fields)


def test_every_fact_has_its_question_as_description() -> None:
    for fact in job_schema().facts():
        # The measures of a pipe stand in one text, that of the pipe.
        path = outer_of(fact.path) if is_measure_of_pipe(fact) else fact.path
        assert field_at(path)["description"].startswith(fact.question), fact.path


def test_every_quantity_has_its_example_and_says_what_it_measures() -> None:
    facts = [one for one in job_schema().facts() if one.kind == "quantity"]
    for fact in (one for one in facts if not is_measure_of_pipe(one)):
        assert fact.dimension is not None
        schema = field_at(fact.path)
        schema = schema.get("anyOf", [schema])[0] | schema
        assert schema["examples"] == [fact.example], fact.path
        assert fact.dimension.name in schema["description"], fact.path


@pytest.mark.parametrize(
    ("path", "examples"),
    [
        ("readings.day", ["2026-12-04"]),
        ("placement.units_on_plot", [1]),
        ("unit.electricity.power_factor", [0.98]),
        ("unit.placing.mounting", [["ground", "wall"]]),
        ("unit.refrigerant.name", ["R290"]),
        ("water.run.pipe", ["copper 28 x 0.9"]),
        ("water.emitter.loops.pipe", ["PE-RT 16 x 2"]),
    ],
)
def test_an_example_is_given_as_the_file_has_it(path: str, examples: list[object]) -> None:
    schema = field_at(path)
    assert schema["examples"] == examples
    Draft202012Validator(schema).validate(examples[0])


def test_choices_and_truths_need_no_example() -> None:
    assert "examples" not in field_at("site.exposure") | field_at("placement.access")


def test_a_kind_that_no_schema_is_known_of_is_told() -> None:
    class OtherKind(FactKind):
        pass

    with pytest.raises(TypeError, match="no schema"):
        kind_schema(OtherKind())


def rules_in(folder: Path) -> Iterator[tuple[Path, Any]]:
    """Give the files of rules in a pack, each with its data."""
    for path in sorted(folder.rglob("*.toml")):
        topic = path.parent
        if topic.name not in ("tables", "quantities", "national") and topic != folder:
            rule = data(path)
            if "requires" in rule:
                yield path, rule


def test_every_rule_of_the_rulebook_fits() -> None:
    rules = list(rules_in(RULES))
    assert len(rules) > 100
    for path, rule in rules:
        assert list(RULE.iter_errors(rule)) == [], path


@pytest.mark.parametrize("name", ["placement/snow", "defrost-water/free-volume"])
def test_a_misspelt_rule_does_not_fit(tmp_path: Path, name: str) -> None:
    folder = write_pack(tmp_path) if name == "placement/snow" else RULES
    rule = data(folder / f"{name}.toml")
    RULE.validate(rule)
    assert not RULE.is_valid({**rule, "becuase": "x"})
    assert not RULE.is_valid({**rule, "severity": "dire"})
    assert not RULE.is_valid({key: value for key, value in rule.items() if key != "cite"})


def test_the_constraints_of_the_built_in_pack_fit_their_schema() -> None:
    schema = constraints_file_schema()
    validator = Draft202012Validator(schema)
    files = [data(path) for path in sorted(RULES.glob("*/constraints.toml"))]
    assert files
    for constraints in files:
        assert not list(validator.iter_errors(constraints))
        first = next(iter(constraints.values()))
        assert not validator.is_valid({"a": {**first, "becuase": "x"}})
    properties = schema["additionalProperties"]["properties"]
    assert [key for key, each in properties.items() if not each.get("description")] == []


def test_every_key_of_a_rule_is_described() -> None:
    properties = rule_file_schema()["properties"]
    assert [key for key, schema in properties.items() if not schema.get("description")] == []
