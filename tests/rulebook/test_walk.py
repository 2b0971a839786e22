"""The walk: in which order a person meets the facts of a job."""

from pathlib import Path

import pytest

from tundish import Refused
from tundish.job.schema import job_schema
from tundish.rulebook.forms.walk import Walk
from tundish.text.toml_file import parse_toml

WALK = Walk.built_in()


def test_every_fact_of_a_job_has_its_place() -> None:
    homeless = [fact.path for fact in job_schema().facts() if not WALK.place_of(fact.path)]
    assert homeless == []


def test_papers_come_before_the_outside_and_the_outside_before_the_board() -> None:
    met = ["site.nation", "building.kind", "placement.faces", "handling.route.lowest"]
    met += ["water.emitter[2].kind", "water.treatment", "electricity.earthing"]
    backwards = list(reversed(met))
    assert sorted(backwards, key=WALK.order) == met


def test_positions_in_lists_mean_nothing_to_the_order() -> None:
    assert WALK.order("water.run[3].pipe") == WALK.order("water.run.pipe")


@pytest.mark.parametrize(
    "path",
    [
        "placement.clearance.front",
        "electricity.service_fuse",
        "electricity.earthing",
        "site.snow_depth",
        "water.emitter",
        "water.emitter[1].kind",
        "handling.route.narrowest",
        "placement.feet",
        "water.treatment",
        "documents.network_permission",
    ],
)
def test_a_visit_brings_home_what_is_missed_later(path: str) -> None:
    assert WALK.is_asked_at("survey", path, "designer")


@pytest.mark.parametrize("path", ["water.run.insulation", "electricity.circuit.cable.length"])
def test_what_is_drawn_at_the_desk_is_not_asked_on_a_visit(path: str) -> None:
    assert not WALK.is_asked_at("survey", path, "surveyor")


def test_on_the_telephone_less_is_asked_than_on_a_visit() -> None:
    assert WALK.is_asked_at("enquiry", "electricity.service_fuse", "electrician")
    assert not WALK.is_asked_at("enquiry", "electricity.earthing", "electrician")
    assert WALK.is_asked_at("survey", "electricity.service_fuse", "electrician")
    assert not WALK.is_asked_at("design", "electricity.service_fuse", "electrician")


def test_who_knows_it_decides_where_a_fact_has_no_place() -> None:
    assert WALK.place_of("more.crane_reach") == ""
    assert WALK.is_asked_at("survey", "more.crane_reach", "surveyor")
    assert not WALK.is_asked_at("survey", "more.crane_reach", "designer")
    assert WALK.order("more.crane_reach") > WALK.order("waiver.rule")


def test_a_name_that_is_none_is_told_with_its_place() -> None:
    text = '[[place]]\nname = "A"\nvisit = ["site.snow_depth",\n "site.snow_dept"]\n'
    with pytest.raises(Refused) as refused:
        Walk(parse_toml(text, str(Path("walk.toml"))))
    (problem,) = refused.value.problems
    assert (problem.line, problem.column) == (4, 2)
    assert "'site.snow_dept' is no fact" in problem.sentence
