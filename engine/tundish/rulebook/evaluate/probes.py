"""Probes: some completions of a job. Where two of them differ, a rule is not certain yet.

To look at all completions takes long, and most rules come out otherwise in one of the first.
"""

from __future__ import annotations

from tundish.groundwork.open_list import like
from tundish.job.facts import Facts
from tundish.job.model.paths import outer_paths
from tundish.language.evaluate.session import Item, Session
from tundish.language.operations.operators import RELATIONS
from tundish.rulebook.evaluate.evaluator import Evaluator, Outcome
from tundish.rulebook.evaluate.judge import Judgement, Verdict, verdict_of
from tundish.rulebook.evaluate.possible_facts import PossibleFacts
from tundish.rulebook.evaluate.rule_set import RuleSet
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


class Probes:
    """The probes of one job, and what its rules come to in them.

    Args:
        facts: What is stated.
        rulebook: The rules.
        evaluator: Asks all rules at once; each by itself where it is left out.
    """

    def __init__(self, facts: Facts, rulebook: RuleSet, evaluator: Evaluator | None) -> None:
        self._facts = facts
        self._rulebook = rulebook
        self._evaluator = evaluator
        self._sessions: list[Session] = []
        self._by_rule: list[dict[str, Outcome]] = []

    def may_be_certain(self, rule: Rule, judgement: Judgement) -> bool:
        """Say whether a rule comes out alike in the probes that decide it.

        Args:
            rule: The rule.
            judgement: Its judgement, which is undecided.
        """
        seen: Verdict | None = None
        for number in range(MOST_PROBES):
            verdict = self._verdict(rule, judgement, number)
            if verdict is Verdict.UNDECIDED:
                continue
            if seen is not None and verdict is not seen:
                return False
            seen = verdict
        return True

    def _verdict(self, rule: Rule, judgement: Judgement, number: int) -> Verdict:
        if number == len(self._sessions):
            probe = Probe(self._facts.values, self._rulebook.possible, number)
            session = self._rulebook.session(probe)
            self._sessions.append(session)
            if self._evaluator is not None:
                outcomes = self._evaluator.ask(probe, session)[1]
                self._by_rule.append(dict(zip(self._evaluator.names, outcomes, strict=True)))
        if self._evaluator is None:
            return verdict_of(rule, self._sessions[number], judgement.position)
        outcome = self._by_rule[number][rule.name]
        if isinstance(outcome, tuple):
            return outcome[(judgement.position or 1) - 1]
        return outcome or Verdict.UNDECIDED  # it is deferred
