"""What first files ask for is what was measured to decide most."""

import tomllib

import pytest

from tables import starter_facts
from tundish import Rulebook
from tundish.job.model.schema import Fact, Record
from tundish.job.schema import job_schema
from tundish.rulebook.forms.starters import facts_of_first_job, facts_of_first_sheet
from tundish.rulebook.forms.walk import Walk
from tundish.rulebook.model.choices import STAGES

LISTS = tomllib.loads(starter_facts.STARTERS.read_text(encoding="utf-8"))
BOOK = Rulebook.built_in()


@pytest.fixture(scope="module")
def quickly_measured() -> starter_facts.Credits:
    return starter_facts.measured(orders=2, seed=7)


@pytest.mark.parametrize("stage", ["enquiry", "survey", "design"])
def test_a_quick_measurement_chooses_most_of_the_same(
    stage: str, quickly_measured: starter_facts.Credits
) -> None:
    again = starter_facts.chosen(quickly_measured, stage)
    assert len(set(again) & set(LISTS[stage])) >= 0.7 * len(LISTS[stage])


@pytest.mark.parametrize("stage", STAGES)
def test_lists_are_in_the_order_of_the_walk_and_name_what_is_written(stage: str) -> None:
    assert sorted(LISTS[stage], key=Walk.built_in().order) == LISTS[stage]
    for path in LISTS[stage]:
        entry = job_schema().find(path)
        assert isinstance(entry, Fact) or (isinstance(entry, Record) and entry.example), path


def test_a_first_sheet_asks_for_all_that_makers_must_publish() -> None:
    asked = facts_of_first_sheet()
    for path in ("unit.model", "unit.rating.output", "unit.lowest_air_temperature"):
        assert path in asked


def test_a_fact_that_no_rule_of_the_region_reads_is_left_out() -> None:
    assert "site.nation" in facts_of_first_job(BOOK, "survey", "GB")
    assert "site.nation" in facts_of_first_job(BOOK, "survey", None)
    assert "site.nation" not in facts_of_first_job(BOOK, "survey", "DE")
