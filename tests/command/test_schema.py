"""`tundish schema`."""

import json

import pytest
from jsonschema import Draft202012Validator

from command.conftest import DANGEROUS_JOB, Run
from tundish.command.option_values import SCHEMAS


@pytest.mark.parametrize("what", SCHEMAS)
def test_a_schema_is_printed(run_either: Run, what: str) -> None:
    ran = run_either("schema", what)
    assert (ran.code, ran.err) == (0, "")
    schema = json.loads(ran.out)
    Draft202012Validator.check_schema(schema)
    assert schema["$id"] == f"urn:tundish:{what}:1"
    assert ran.out.isascii() and ran.out == run_either("schema", what).out


def test_what_check_puts_out_fits_what_schema_says(run_either: Run, write) -> None:
    write("job.toml", DANGEROUS_JOB)
    schema = Draft202012Validator(json.loads(run_either("schema", "findings").out))
    schema.validate(json.loads(run_either("check", "job.toml", "--json").out))
    schema.validate(json.loads(run_either("check", "job.toml", "job.toml", "--json").out))


@pytest.mark.parametrize(
    ("what", "said"), [("jobs", "Did you mean 'job'?"), ("table", "findings, job, unit, rule")]
)
def test_what_has_no_schema_is_a_sentence(run_either: Run, what: str, said: str) -> None:
    ran = run_either("schema", what)
    assert (ran.code, ran.out) == (2, "")
    assert said in ran.err
