"""Facts in plain words, and as a job file writes them."""

import tomllib

import pytest

from tundish.job.facts import flatten
from tundish.job.job import Job
from tundish.job.model.schema import Fact, Record, below
from tundish.job.named_file import FILES
from tundish.job.schema import job_schema
from tundish.report.tell.fact_phrases import as_written, kind_words


@pytest.mark.parametrize(
    ("path", "said"),
    [
        ("site.snow_depth", "a length with its unit, such as "),
        ("site.snow_depth", ", not below 0 mm"),
        ("water.frost.glycol.fraction", ", not below 0 % and not above 100 %"),
        ("electricity.circuit.power_factor", "not above 1"),
        ("placement.base.level", "yes or no, written true or false"),
        ("unit.electricity.phases", "1 or 3"),
        ("water.run.bends", "a whole number, such as "),
        ("placement.on", "one of ground, "),
        ("water.treatment", "a list out of inhibitor, "),
        ("readings.day", "a day, such as 20"),
        ("water.run", "a list of tables, [] for none"),
        ("water.bypass", '"none" where it is known to be absent'),
        ("site", "a table of 30 keys"),
        ("water.run.pipe", "copper 28 x 0.9"),
        ("water.run.pipe.wall", "a measure of the pipe size"),
    ],
)
def test_a_kind_is_said_in_plain_words(path: str, said: str) -> None:
    asked = job_schema().find(path)
    assert asked is not None
    assert said in kind_words(asked, Job.kind_at(path))


def test_a_kind_is_found_at_every_fact_that_is_written_and_nowhere_else() -> None:
    for entry in below(job_schema()):
        outer = job_schema().find(entry.path.rpartition(".")[0])
        in_pipe = isinstance(outer, Record) and "outside_diameter" in outer.fields
        is_pipe = isinstance(entry, Record) and "outside_diameter" in entry.fields
        written = is_pipe or (isinstance(entry, Fact) and not in_pipe)
        assert (Job.kind_at(entry.path) is not None) == written, entry.path
    assert Job.kind_at("more.crane_reach") is None
    assert Job.kind_at("site.nothing.there") is None


def test_every_example_as_written_can_be_read_as_a_job() -> None:
    for entry in below(job_schema()):
        if entry.path in FILES or entry.path.startswith("waiver") or not entry.path:
            continue
        text = as_written(entry)
        if "…" in text:
            continue  # no example is known
        facts = flatten(Job.from_toml(text)).values
        assert facts or entry.path == "site", text
        assert tomllib.loads(text)


def test_keys_in_groups_of_list_items_are_dotted() -> None:
    thickness = job_schema().find("water.run.insulation.thickness")
    assert thickness is not None
    assert as_written(thickness).startswith("[[water.run]]\ninsulation.thickness = ")
