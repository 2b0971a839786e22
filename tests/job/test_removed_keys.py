"""A key that a job had before is told to be left out, not to be written otherwise."""

import pytest

from tundish import Job, Refused
from tundish.job.model.removed_keys import REMOVED
from tundish.job.schema import job_schema


def test_what_is_removed_is_there_no_more() -> None:
    assert not [path for path in REMOVED if job_schema().find(path)]


@pytest.mark.parametrize("path", ["building.floor_area", "unit.electricity.separate_supplies"])
def test_a_key_that_is_no_longer_asked_for_is_to_be_left_out(path: str) -> None:
    with pytest.raises(Refused) as caught:
        Job.from_data({path: "1"})
    (problem,) = caught.value.problems
    assert "is no longer asked for, as no rule reads it; leave it out." in problem.sentence
