"""Verdicts in haste: every rule asked of a job by one function, without a word on any of them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from tundish.language.session import Session, TooManySteps
from tundish.language.whole import (
    BREACHED,
    MET,
    NOT_APPLICABLE,
    UNDECIDED,
    Conditions,
    Whole,
    compile_whole,
)
from tundish.rulebook.judging import Verdict, judge
from tundish.rulebook.order import quantities_in
from tundish.rulebook.rule import Rule
from tundish.rulebook.rulebook import Rulebook

_VERDICTS = {
    MET: Verdict.MET,
    BREACHED: Verdict.BREACHED,
    UNDECIDED: Verdict.UNDECIDED,
    NOT_APPLICABLE: Verdict.NOT_APPLICABLE,
}


class Swift:
    """A rulebook made ready to judge many jobs in haste.

    Making it takes about as long as reading the rulebook; each job then takes a fraction of what
    findings take. It can be shared between threads.

    Args:
        rulebook: The rules.

    Example:
        >>> swift = Swift(Rulebook.built_in())
        >>> len(swift.verdicts({})) == len(Rulebook.built_in().rules)
        True
    """

    def __init__(self, rulebook: Rulebook) -> None:
        self._rulebook = rulebook
        self._rules = list(rulebook.rules.values())
        self._whole = _compiled(rulebook, self._rules)

    def verdicts(self, values: Mapping[str, object]) -> list[Verdict | list[Verdict]]:
        """Return the verdict of every rule, in the order of the rulebook.

        Args:
            values: The facts of a job, as `Rulebook.facts` gives them.

        Returns:
            A verdict for each rule; for one that is asked of each item of a list, one for each.
        """
        session = self._rulebook.session(values)
        try:
            outcomes = self._whole(values, session)
        except TooManySteps:
            session = self._rulebook.session(values)
            return [self._slowly(rule, values, session) for rule in self._rules]
        return [
            self._slowly(rule, values, session)
            if outcome is None
            else [_VERDICTS[one] for one in outcome]
            if isinstance(outcome, list)
            else _VERDICTS[outcome]
            for rule, outcome in zip(self._rules, outcomes, strict=True)
        ]

    def _slowly(
        self, rule: Rule, values: Mapping[str, object], session: Session
    ) -> Verdict | list[Verdict]:
        """Ask one rule as findings are made, where a list is not known or rounds run out."""
        given = _Given(values)
        found = [one.verdict for one in judge(rule, given, session)]
        items = rule.each is not None and isinstance(values.get(rule.each.path), list)
        return found if items else found[0]


class _Given:
    """Facts without the names of their items, which no verdict hangs on."""

    def __init__(self, values: Mapping[str, object]) -> None:
        self.values = values
        self.written: Mapping[str, str] = {}
        self.names = _Nameless()


class _Nameless(dict[str, str]):
    def __missing__(self, _: str) -> str:
        return ""


def _compiled(rulebook: Rulebook, rules: list[Rule]) -> Whole:
    conditions = [
        Conditions(
            rule.applies,
            rule.requires,
            rule.each.variable if rule.each else "",
            rule.each.path if rule.each else "",
        )
        for rule in rules
    ]
    ordered = [
        (name, rulebook.quantities["", name].formula.root) for name in _in_order(rulebook, rules)
    ]
    return compile_whole(conditions, ordered)


def _in_order(rulebook: Rulebook, rules: list[Rule]) -> Iterator[str]:
    """Give the quantities of the whole job that rules need, each behind all it is made of."""
    done: set[tuple[str, str]] = set()

    def visit(key: tuple[str, str]) -> Iterator[str]:
        if key in done:
            return
        done.add(key)
        quantity = rulebook.quantities[key]
        bound = {quantity.each.variable: quantity.each.path} if quantity.each else {}
        for need in quantities_in(quantity.formula.root, bound):
            yield from visit(need)
        if not key[0]:
            yield key[1]

    for rule in rules:
        bound = {rule.each.variable: rule.each.path} if rule.each else {}
        for condition in (rule.applies, rule.requires):
            for need in quantities_in(condition, bound):
                yield from visit(need)
