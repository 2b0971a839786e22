"""The house types are sound as they stand, keep to the schema, and bear a job."""

from __future__ import annotations

import json
import shutil
import tomllib
from pathlib import Path

import pytest
from jsonschema import Draft202012Validator

from tundish import Job, Refused, Verdict
from tundish.command.main import main
from tundish.findings.assess import digest_of
from tundish.job.facts import flatten
from tundish.job.schema import job_schema
from tundish.report.schemas.job_files import job_file_schema
from tundish.text.bundled_folders import bundled_folder
from verdicts import verdicts

SAMPLES = bundled_folder("sample_jobs")
TYPES = sorted((SAMPLES / "house_types").glob("*.toml"))
each = pytest.mark.parametrize("house_type", TYPES, ids=lambda path: path.stem)


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A folder with the house types and their unit sheets, as somebody copies them."""
    for name in ("house_types", "unit_sheets"):
        shutil.copytree(SAMPLES / name, tmp_path / name)
    return tmp_path


def based(folder: Path, house_type: Path, text: str = "") -> Path:
    path = folder / "job.toml"
    path.write_text(f"based_on = 'house_types/{house_type.name}'\n{text}", encoding="utf-8")
    return path


def test_there_are_three_house_types() -> None:
    assert len(TYPES) == 3


@each
def test_a_house_type_breaches_nothing_and_leaves_things_to_find_out(house_type: Path) -> None:
    found = set(verdicts(Job.from_file(house_type)).values())
    assert Verdict.BREACHED not in found
    assert {Verdict.UNDECIDED, Verdict.MET} <= found


@each
def test_a_house_type_is_invented_and_keeps_to_the_schema(house_type: Path) -> None:
    text = house_type.read_text(encoding="utf-8")
    first, second, *_ = text.splitlines()
    assert first == "#:schema ../schemas/job.json"
    assert "invented" in second
    data = json.loads(json.dumps(tomllib.loads(text), default=str))
    Draft202012Validator(job_file_schema()).validate(data)


@each
def test_items_of_a_house_type_have_names_so_that_jobs_can_state_more_of_them(
    house_type: Path,
) -> None:
    facts = flatten(Job.from_file(house_type))
    for path in facts.names:
        named = job_schema().find(f"{path}.name")
        own = not path.startswith("unit.")
        assert not own or named is None or f"{path}.name" in facts.written, path


@each
def test_a_job_that_states_nothing_more_has_the_facts_of_its_house_type(
    house_type: Path, folder: Path
) -> None:
    job = Job.from_file(based(folder, house_type))
    assert digest_of(flatten(job)) == digest_of(flatten(Job.from_file(house_type)))


MORE = """
[job]
title = "Invented corner house"
[[water.emitter]]
name    = "hall"
shut_by = "thermostatic valve"
[[water.emitter]]
name    = "study"
room    = "study"
kind    = "radiator"
"""


def test_a_job_changes_one_emitter_of_its_house_type_and_adds_another(folder: Path) -> None:
    path = based(folder, Path("thirties-semi.toml"), MORE)
    assert Job.from_file(path).title == "Invented corner house"
    emitters = Job.from_file(path).water.emitter  # type: ignore[union-attr]
    assert [(one.name, one.shut_by) for one in emitters or ()] == [
        ("hall", "thermostatic valve"),
        ("living room", "thermostatic valve"),
        ("bedrooms", "thermostatic valve"),
        ("study", None),
    ]


def test_mend_changes_a_circuit_that_stands_in_the_house_type(
    folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    house_type = folder / "house_types/thirties-semi.toml"
    text = house_type.read_text(encoding="utf-8")
    house_type.write_text(text.replace('rating = "16 A"', 'rating = "10 A"'), encoding="utf-8")
    path, mended = based(folder, house_type), folder / "mended.toml"
    assert main(["mend", str(path), "--to", str(mended)]) == 0
    assert "device rating" in capsys.readouterr().out
    circuits = tomllib.loads(mended.read_text(encoding="utf-8"))["electricity"]["circuit"]
    assert [one["name"] for one in circuits] == ["outdoor unit", "backup heater"]
    assert circuits[1]["device"]["rating"] != "10 A"
    assert Verdict.BREACHED not in verdicts(Job.from_file(mended)).values()


def test_a_house_type_with_a_waiver_is_no_base(folder: Path) -> None:
    house_type = folder / "house_types/thirties-semi.toml"
    with house_type.open("a", encoding="utf-8") as file:
        file.write("\n[[waiver]]\nrule = 'clearances/left'\n")
    Job.from_file(house_type)
    with pytest.raises(Refused, match="waiver"):
        Job.from_file(based(folder, house_type))
