import datetime
from pathlib import Path
from typing import Any

import pytest

from tundish.job.facts import flatten
from tundish.job.job import Job
from tundish.job.model.schema import Fact, Items, Record
from tundish.job.parts.site import Site
from tundish.job.schema import job_schema


def test_quantities_are_in_si_and_shown_as_written(job_file: Path) -> None:
    facts = flatten(Job.from_file(job_file))
    assert facts.values["unit.water.minimum_flow"] == pytest.approx(20 / 60000)
    assert facts.written["unit.water.minimum_flow"] == "20 L/min"
    assert facts.values["site.design_air_temperature"] == pytest.approx(269.65)


def test_other_facts_keep_their_kind(job_file: Path) -> None:
    facts = flatten(Job.from_file(job_file))
    assert facts.values["job.date"] == float(datetime.date(2026, 11, 2).toordinal())
    assert facts.written["job.date"] == "2026-11-02"
    assert facts.values["building.occupants"] == 4.0 and facts.written["building.occupants"] == "4"
    assert facts.values["water.treatment"] == ("inhibitor",)
    assert facts.values["placement.base.level"] is True
    assert facts.values["placement.clearance.open_above"] is True
    assert "placement.clearance.top" not in facts.values


def test_lists_of_records_have_paths_of_their_own(job_file: Path) -> None:
    facts = flatten(Job.from_file(job_file))
    circuits: Any = facts.values["electricity.circuit"]
    assert circuits[0]["serves"] == ("outdoor unit", "controls")
    assert circuits[1] == {
        "device": True,
        "device.kind": "circuit-breaker",
        "device.type": "B",
        "device.rating": 16.0,
    }
    assert facts.written["electricity.circuit[2].device.rating"] == "16 A"


def test_items_are_named_by_name_then_load_then_position(job_file: Path) -> None:
    names = flatten(Job.from_file(job_file)).names
    assert names["water.run[1]"] == "flow"
    assert names["electricity.circuit[1]"] == "outdoor unit and controls"
    assert names["electricity.circuit[2]"] == "circuit 2"
    assert names["water.frost.antifreeze_valves[1]"] == "antifreeze valve 1"


def test_a_pipe_size_is_a_record_of_its_measures(job_file: Path) -> None:
    runs: Any = flatten(Job.from_file(job_file)).values["water.run"]
    assert runs[0]["pipe"] is True
    assert runs[0]["pipe.outside_diameter"] == pytest.approx(0.028)
    assert runs[0]["pipe.material"] == "copper"


def test_an_unknown_wall_of_a_pipe_stays_unknown() -> None:
    runs: Any = flatten(Job.from_data({"water.run": [{"pipe": "steel DN25"}]})).values["water.run"]
    assert runs == [
        {"pipe": True, "pipe.name": "steel DN25", "pipe.material": "steel", "pipe.size": "DN25"}
    ]


def test_a_job_built_in_python_has_the_same_facts_as_its_text() -> None:
    built = Job(site=Site(snow_depth="120 mm"))
    assert built == Job.from_toml("[site]\nsnow_depth = '120 mm'")
    assert built == Job.from_data({"site.snow_depth": "120 mm"})
    assert flatten(built).written == {"site.snow_depth": "120 mm"}


def test_a_job_written_out_and_read_again_is_the_same_job(job_file: Path) -> None:
    job = Job.from_file(job_file)
    data = job.as_data()
    del data["unit_sheet"]
    again = Job.from_data(data)
    assert flatten(again).values == {
        path: value for path, value in flatten(job).values.items() if path != "unit_sheet"
    }


def _entry_of(value: Any) -> type | tuple[type, ...]:
    if isinstance(value, list):
        return Items
    return (Fact, Record)


def _walk(values: dict[str, Any], prefix: str, schema: Record) -> int:
    count = 0
    for path, value in values.items():
        entry = schema.find(prefix + path)
        assert isinstance(entry, _entry_of(value)), prefix + path
        if isinstance(entry, Fact):
            kinds = {"quantity": float, "number": float, "date": float, "truth": bool}
            assert isinstance(value, kinds.get(entry.kind, str | tuple)), path
        if isinstance(value, list):
            count += sum(_walk(item, f"{prefix}{path}.", schema) for item in value)
        count += 1
    return count


def test_every_flat_fact_is_in_the_schema_with_its_kind(job_file: Path) -> None:
    assert _walk(flatten(Job.from_file(job_file)).values, "", job_schema()) > 100
