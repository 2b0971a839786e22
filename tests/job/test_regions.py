"""Regions: the codes of ISO 3166-1, and what is said of any other."""

from __future__ import annotations

import pytest

from tundish import Job, Refused, Rulebook, assess
from tundish.job.model.regions import ASSIGNED, OF_USERS, REGIONS, read_region


def test_249_codes_are_assigned() -> None:
    assert len(ASSIGNED) == 249
    assert {"GB", "IE", "DE", "FR", "SC"} <= ASSIGNED
    assert not {"UK", "EL", "EU", "EN", "XX"} & ASSIGNED


def test_42_codes_are_left_to_users_and_none_is_both() -> None:
    assert len(OF_USERS) == 42
    assert not OF_USERS & ASSIGNED
    assert "QL" not in OF_USERS and "QM" in OF_USERS


def test_each_code_is_two_capitals() -> None:
    assert all(len(code) == 2 and code.isascii() and code.isupper() for code in REGIONS)


@pytest.mark.parametrize(
    ("written", "said"),
    [
        ("UK", "'UK' is no country of ISO 3166-1. Did you mean 'GB'?"),
        ("uk", "'uk' is no country of ISO 3166-1. Did you mean 'GB'?"),
        ("EL", "'EL' is no country of ISO 3166-1. Did you mean 'GR'?"),
        ("gb", "'gb' is not how a country is written; write 'GB'."),
        (" GB", "' GB' is not how a country is written; write 'GB'."),
        ("GBR", "'GBR' is no country of ISO 3166-1; write its two letters such as GB."),
        ("EU", "write its two letters such as GB."),
        ("", "write its two letters such as GB."),
        ("ＧＢ", "write its two letters such as GB."),
    ],
)
def test_what_is_no_code_is_refused_with_what_would_be_right(written: str, said: str) -> None:
    with pytest.raises(ValueError, match=r"\.|\?") as caught:
        read_region(written)
    assert said in str(caught.value)


def test_a_job_is_told_at_its_place() -> None:
    with pytest.raises(Refused) as caught:
        Job.from_toml('[job]\nregion = "UK"\n')
    (problem,) = caught.value.problems
    assert (problem.line, problem.column) == (2, 11)
    assert problem.sentence.endswith("Did you mean 'GB'?")


@pytest.mark.parametrize("code", ["GB", "XK", "ZZ"])
def test_a_job_may_be_in_any_region_there_is(code: str) -> None:
    assert Job.from_data({"job.region": code}).region == code


def test_a_region_asked_for_is_one_there_is() -> None:
    with pytest.raises(Refused, match="Did you mean 'GB'"):
        assess(Job.from_data({}), Rulebook.built_in(), region="UK")
