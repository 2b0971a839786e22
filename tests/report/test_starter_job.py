"""A first job file asks for what decides most, and can be taken up line by line or as a whole."""

import re
import tomllib

import pytest

from tundish import Job, JudgedJob, Rulebook
from tundish.job.facts import flatten
from tundish.job.schema import job_schema
from tundish.report.forms.starter_job import FirstJob, starter_job
from tundish.report.forms.starter_lines import taken_up
from tundish.rulebook.forms.starters import facts_of_first_job, facts_of_packs
from tundish.rulebook.model.choices import STAGES

BOOK = Rulebook.built_in()
KEYS = {"job.title": "A house", "job.region": "GB", "job.stage": "design"}
REGIONS = ["GB", "DE", "FR", None]


def first(stage: str, region: str | None = "GB") -> str:
    keys = {"job.stage": stage} | ({"job.region": region} if region else {})
    return starter_job(FirstJob(keys, facts_of_first_job(BOOK, stage, region)))


def facts_in(text: str) -> list[str]:
    return re.findall(r"^# ([a-z_.]+) = ", text, flags=re.MULTILINE)


@pytest.fixture(scope="module")
def whole() -> Job:
    return Job.from_toml(taken_up(starter_job(FirstJob(KEYS))))


def test_a_starter_of_all_facts_is_read_with_its_marks_taken_off(whole: Job) -> None:
    values = flatten(whole).values
    assert values["site.muggy_air_temperature"] == pytest.approx(273.15 + 24)
    assert values["site.distance_to_coast"] == pytest.approx(12000)
    assert values["hot_water.dead_leg_pipe.size"] == "15 x 0.7"


def test_a_starter_of_all_facts_leaves_out_none_but_those_of_the_sheet() -> None:
    text = starter_job(FirstJob({}))
    data = tomllib.loads(taken_up(text))
    lists = ("run", "emitter", "circuit", "hears", "fittings")
    assert {"site", "water", "electricity", "readings", "order", "waiver"} <= data.keys()
    assert all(f".{name}]]" in text for name in lists)
    outside = [fact.path for fact in job_schema().facts() if not fact.path.startswith("unit.")]
    assert len(facts_in(text)) > 0.75 * len(outside)  # five measures of a pipe are one line


def test_the_built_in_rules_judge_it_without_a_refusal(whole: Job) -> None:
    assert len(JudgedJob(whole).judgements) > 300


@pytest.mark.parametrize("region", REGIONS)
@pytest.mark.parametrize("stage", STAGES)
def test_a_starter_is_judged_with_its_marks_on_and_off(stage: str, region: str | None) -> None:
    text = first(stage, region)
    assert JudgedJob(Job.from_toml(text), BOOK).judgements
    assert JudgedJob(Job.from_toml(taken_up(text)), BOOK).judgements


@pytest.mark.parametrize(("stage", "most"), [("enquiry", 40), ("survey", 40), ("design", 80)])
def test_a_starter_asks_for_few_facts(stage: str, most: int) -> None:
    assert 15 <= len(facts_in(first(stage))) <= most


@pytest.mark.parametrize("stage", ["enquiry", "survey"])
def test_an_early_starter_fits_on_two_pages(stage: str) -> None:
    assert len(first(stage).splitlines()) <= 120


@pytest.mark.parametrize("stage", STAGES)
def test_no_row_of_a_starter_is_wider_than_a_hundred_columns(stage: str) -> None:
    assert max(len(row) for row in first(stage).splitlines()) <= 100


@pytest.mark.parametrize("stage", STAGES)
def test_what_goes_wrong_most_often_is_always_asked_for(stage: str) -> None:
    asked = facts_in(first(stage))
    for path in ("placement.feet.height", "water.treatment", "documents.network_permission.date"):
        assert path in asked


def test_it_walks_from_the_papers_to_the_board() -> None:
    text = first("survey")
    places = re.findall(r"^## --- (The \w+|Round)", text, flags=re.MULTILINE)
    walked = ["The papers", "The customer", "Round", "The way", "The plant", "The board"]
    assert places[: len(walked)] == walked
    assert "The rooms" in places  # whose facts stand in a list, and lists come last


def test_a_country_is_asked_only_what_its_rules_look_at() -> None:
    assert "site.nation" in facts_in(first("survey", "GB"))
    assert "site.nation" not in facts_in(first("survey", "FR"))


def test_the_region_is_asked_for_where_nobody_said_it() -> None:
    assert "job.region" in facts_in(first("survey", None))
    assert "job.region" not in facts_in(first("survey", "GB"))


def test_an_item_of_a_list_is_one_block() -> None:
    text = first("survey")
    block = text[text.index("# [[water.emitter]]") :]
    block = block[: block.find("\n\n")]
    assert block.splitlines()[1].startswith("# name = ")
    data = tomllib.loads("water.fluid = 'water'\n" + taken_up(block))
    assert data["water"]["emitter"][0]["kind"] == "radiator"


def test_a_group_says_how_to_write_that_there_is_none() -> None:
    assert 'write placement.feet = "none" instead' in " ".join(first("survey").split("\n## "))
    assert Job.from_toml('placement.feet = "none"').placement.feet == "none"  # type: ignore[union-attr]


def test_what_is_known_from_elsewhere_is_not_asked_for() -> None:
    text = starter_job(
        FirstJob({}, ["site.altitude", "water.run.pipe"], is_open=lambda path: path != "water.run")
    )
    assert facts_in(text) == ["job.region", "site.altitude"]
    assert "[[" not in text


def test_a_pipe_is_one_text_in_a_starter() -> None:
    text = starter_job(FirstJob(KEYS, ["water.bypass.pipe.wall"]))
    assert '# water.bypass.pipe = "copper 22 x 0.9"' in text


def test_words_with_commas_in_them_can_be_told_apart_in_a_starter() -> None:
    text = " ".join(starter_job(FirstJob(KEYS, ["handling.slings"])).replace("\n##", "").split())
    assert "rated and inspected; packing straps, used once; or unmarked" in text


def test_open_sky_above_is_asked_for_where_it_is_written() -> None:
    text = starter_job(FirstJob(KEYS, ["placement.clearance.open_above"]))
    assert facts_in(text) == ["placement.clearance.top"]
    assert 'write "open"' in text


def test_a_choice_with_a_comma_in_it_is_seen_to_be_one() -> None:
    text = " ".join(starter_job(FirstJob(KEYS, ["water.volume_vessel.connection"])).split("\n## "))
    assert "(in series, flow; in series, return; in parallel; or hydraulic separator)" in text


def test_the_first_line_is_for_the_editor() -> None:
    line = "#:schema schemas/job.json"
    assert starter_job(FirstJob(KEYS, [], schema_line=line)).startswith(f"{line}\n")


def test_a_starter_asks_for_the_facts_of_packs(book_with_facts: Rulebook) -> None:
    text = starter_job(FirstJob(KEYS, [], facts_of_packs(book_with_facts, "GB")))
    assert tomllib.loads(taken_up(text))["more"]["crane_reach"] == "30 m"
    assert "more" not in tomllib.loads(text)
    assert JudgedJob(Job.from_toml(text), book_with_facts).judgements
    assert JudgedJob(Job.from_toml(taken_up(text)), book_with_facts).judgements


def test_every_fact_of_the_measured_lists_is_one_of_a_job() -> None:
    for stage in STAGES:
        for path in facts_of_first_job(BOOK, stage, None):
            assert job_schema().find(path) is not None, path
