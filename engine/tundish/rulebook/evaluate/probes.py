"""Probes: some completions of a job. Where two of them differ, a rule is not certain yet.

To look at all completions takes long, and most rules come out otherwise in one of the first.
"""

from __future__ import annotations

from collections.abc import Iterator

from tundish.groundwork.open_list import like
from tundish.job.model.paths import outer_paths
from tundish.language.budget.budget import TooManySteps
from tundish.language.evaluate.session import Item, Session
from tundish.language.operations.operators import RELATIONS
from tundish.rulebook.evaluate.judge import Judgement
from tundish.rulebook.evaluate.possible_facts import PossibleFacts
from tundish.rulebook.model.rule import Rule

MOST_PROBES = 6
"""Past these hardly another rule comes out otherwise."""

MOST_CHOICES = 3
"""Choices of what can be one of a few, of which each is looked at with all figures unknown."""


class Probe(dict[str, object]):
    """The facts of a job or of a list item; what is not stated is one of what it can be.

    Lists that are not stated stay so, and open ones open.

    Args:
        stated: The facts that are stated.
        possible: What facts may be.
        number: The number of the probe; each makes other choices.
        of: The path of the list whose item it is, with a dot behind, or "".
    """

    def __init__(self, stated: Item, possible: PossibleFacts, number: int, of: str = "") -> None:
        super().__init__(stated)
        self._possible, self._number, self._of = possible, number, of
        self._probed: set[str] = set()

    def get(self, path: str, default: object = None) -> object:
        """Return a fact as it is stated or chosen, or None."""
        if path not in self:
            self[path] = self._chosen(path)
        value = super().get(path)
        if isinstance(value, list) and path not in self._probed:
            self._probed.add(path)
            of = f"{self._of}{path}."
            value = self[path] = like(
                [Probe(item, self._possible, self._number, of) for item in value], value
            )
        return default if value is None else value

    def _chosen(self, path: str) -> object:
        if any(self.get(group) is False for group in outer_paths(path)):
            return None
        value = self._possible.probed(f"{self._of}{path}", self._number)
        return self._beside_others(path, value) if isinstance(value, float) else value

    def _beside_others(self, path: str, value: float) -> float:
        """Return a figure on the right side of the stated facts that bound it."""
        for beside in self._possible.bounds_on(f"{self._of}{path}"):
            other = super().get(beside.other.removeprefix(self._of))
            if isinstance(other, float) and beside.of == beside.other_of:
                choose = max if RELATIONS[beside.sign].direction > 0 else min
                value = choose(value, other)
        return value


def may_be_certain(rule: Rule, judgement: Judgement, sessions: Iterator[Session]) -> bool:
    """Say whether a rule comes out alike in the probes that decide it.

    Args:
        rule: The rule.
        judgement: Its judgement, which is undecided.
        sessions: Evaluations over the probes.
    """
    seen: object = None
    for session in sessions:
        outcome = _outcome(rule, judgement, session)
        if outcome is None:
            continue
        if seen is not None and outcome != seen:
            return False
        seen = outcome
    return True


def _outcome(rule: Rule, judgement: Judgement, session: Session) -> str | None:
    """Return what a rule comes to in a probe; None where that leaves it open."""
    arguments: tuple[object, ...] = (session.values, session)
    if rule.each is not None and judgement.position is not None:
        items = session.values.get(rule.each.path)
        arguments = (*arguments, items[judgement.position - 1])  # type: ignore[index]
    session.budget.begin()
    try:
        applies = rule.does_apply(*arguments)
        if applies is not True:
            return None if applies is None else "not asked"
        met = rule.is_met(*arguments)
    except TooManySteps:
        return None
    return None if met is None else str(met)
