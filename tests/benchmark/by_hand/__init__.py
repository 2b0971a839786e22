"""A hundred rules of the rulebook as somebody would write them in plain Python, over nested dicts.

They are a cross-section of the rulebook: simple comparisons, words in a list, arithmetic between
facts, shared quantities, lists item by item and as a whole, choices, fallbacks and small tables.
Numbers are SI; what is not known is not in the dict; a group that is absent is written "none". They
are written for speed as a careful author would: no helper where an expression does.
"""

from __future__ import annotations

from collections.abc import Callable

from by_hand import electricity, frost, heating, papers, siting, surroundings, water
from by_hand.verdict import Job, Verdict

__all__ = ["BY_HAND", "Job", "Verdict"]

BY_HAND: dict[str, Callable[[Job], Verdict]] = {
    **siting.RULES,
    **surroundings.RULES,
    **water.RULES,
    **frost.RULES,
    **heating.RULES,
    **electricity.RULES,
    **papers.RULES,
}
