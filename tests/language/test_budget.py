"""Accounts: what is kept of explaining is let go of past its bound, and changes no price."""

from __future__ import annotations

import pytest

from tundish.language.budget.cost import TooManySteps
from tundish.language.budget.explaining_budget import Account
from tundish.text.bounds import MOST_KEPT_STEPS

KEY = ("", "quantity", "")


def worked_out_again(cost: int) -> bool:
    """Say whether something is worked out a second time for the next who asks."""
    account = Account[str](2 * MOST_KEPT_STEPS)
    times: list[int] = []

    def work() -> str:
        times.append(1)
        account.spend(cost)
        return "result"

    for _ in range(2):
        account.begin()
        assert account.once(KEY, work) == "result"
    return len(times) == 2


def test_results_are_kept_up_to_the_bound_and_worked_out_again_past_it() -> None:
    assert not worked_out_again(MOST_KEPT_STEPS)
    assert worked_out_again(MOST_KEPT_STEPS + 1)


@pytest.mark.parametrize("asked_before", [False, True])
def test_a_result_costs_the_same_whether_it_was_asked_for_before(asked_before: bool) -> None:
    account = Account[str](10)

    def work() -> str:
        account.spend(7)
        return "result"

    if asked_before:
        account.begin()
        account.once(KEY, work)
    account.begin()
    account.once(KEY, work)
    account.once(KEY, work)  # once paid for, it is free to the same one
    account.spend(3)
    with pytest.raises(TooManySteps):
        account.spend(1)
