from typing import Any

import pytest

from tundish.job.facts import flatten
from tundish.job.job import Job
from tundish.text.problem import Refused


def values(text: str) -> dict[str, Any]:
    return flatten(Job.from_toml(text)).values


def test_what_is_left_out_is_not_known() -> None:
    assert "water.volume_vessel" not in values("[water]\nfluid = 'water'")
    assert "water.frost.antifreeze_valves" not in values("[water.frost]")
    assert values("") == {}


def test_a_record_that_is_given_is_true_even_without_facts_in_it() -> None:
    assert values("[water.volume_vessel]")["water.volume_vessel"] is True


@pytest.mark.parametrize("absent", ["'none'", "false"])
def test_none_and_false_say_that_a_record_is_known_to_be_absent(absent: str) -> None:
    facts = flatten(Job.from_toml(f"[water]\nvolume_vessel = {absent}"))
    assert facts.values["water.volume_vessel"] is False
    assert facts.written["water.volume_vessel"] == "none"
    assert not [path for path in facts.values if path.startswith("water.volume_vessel.")]


def test_an_empty_list_is_known_to_hold_nothing() -> None:
    text = "[water]\ntreatment = []\nrun = []\n"
    assert values(text)["water.treatment"] == ()
    assert values(text)["water.run"] == []


def test_false_is_a_fact_and_not_the_lack_of_one() -> None:
    assert values("[site]\ndrifting = false")["site.drifting"] is False


def test_a_python_none_is_not_known() -> None:
    job = Job.from_data({"site": {"snow_depth": None}, "water": None, "waiver": None})
    assert flatten(job).values == {"site": True}


def test_a_choice_called_none_stays_a_text() -> None:
    text = "[unit.electricity]\nbooster_contactor = 'none'"
    assert values(text)["unit.electricity.booster_contactor"] == "none"


def test_none_is_refused_where_a_thing_cannot_be_absent() -> None:
    with pytest.raises(Refused, match="Write a table"):
        values("site = 'none'")


def test_true_is_refused_in_place_of_a_record() -> None:
    with pytest.raises(Refused, match="Write a table, or 'none'"):
        values("[water]\nvolume_vessel = true")
