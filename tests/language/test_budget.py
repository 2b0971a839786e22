"""Accounts: what is kept of explaining is let go of past its bound, and changes no price."""

from __future__ import annotations

import pytest

from tundish.language.budget.budget import CachingBudget, TooManySteps
from tundish.text.bounds import MOST_CACHED_STEPS

KEY = ("", "quantity", "")


def worked_out_again(cost: int) -> bool:
    """Say whether something is worked out a second time for the next who asks."""
    budget = CachingBudget[str](2 * MOST_CACHED_STEPS)
    times: list[int] = []

    def work() -> str:
        times.append(1)
        budget.spend(cost)
        return "result"

    for _ in range(2):
        budget.begin()
        assert budget.cached(KEY, work) == "result"
    return len(times) == 2


def test_results_are_kept_up_to_the_bound_and_worked_out_again_past_it() -> None:
    assert not worked_out_again(MOST_CACHED_STEPS)
    assert worked_out_again(MOST_CACHED_STEPS + 1)


@pytest.mark.parametrize("asked_before", [False, True])
def test_a_result_costs_the_same_whether_it_was_asked_for_before(asked_before: bool) -> None:
    budget = CachingBudget[str](10)

    def work() -> str:
        budget.spend(7)
        return "result"

    if asked_before:
        budget.begin()
        budget.cached(KEY, work)
    budget.begin()
    budget.cached(KEY, work)
    budget.cached(KEY, work)  # once paid for, it is free to the same one
    budget.spend(3)
    with pytest.raises(TooManySteps):
        budget.spend(1)
