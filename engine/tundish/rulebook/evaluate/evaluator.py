"""Verdicts in haste: every rule asked of a job by one function, without a word on any of them.

Of very many rules there are several functions, as compiling one of them all would take much memory.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from types import CodeType
from typing import Self

from tundish.language.budget.budget import TooManySteps
from tundish.language.check.scope import Meaning
from tundish.language.codegen.common_subexpressions import Conditions
from tundish.language.evaluate.fused import Answers, FusedFunction, compile_fused, load_fused
from tundish.language.evaluate.session import Item, JobFacts, Session
from tundish.language.operations.table import RowsOfTables
from tundish.language.tree import tree as t
from tundish.rulebook.evaluate.judge import Judgement, Verdict, judge
from tundish.rulebook.evaluate.rule_set import RuleSet
from tundish.rulebook.link.dependencies import quantities_in
from tundish.rulebook.model.definition import Each
from tundish.rulebook.model.rule import Rule, worst_first
from tundish.text.bounds import PARTS_AT_ONCE

_ANSWERS = Answers(Verdict.MET, Verdict.BREACHED, Verdict.UNDECIDED, Verdict.NOT_APPLICABLE)

Made = tuple[tuple[str, ...], tuple[CodeType, ...]]
"""The names of the rules, and the code of the functions that ask them in that order."""

Quick = Verdict | tuple[Verdict, ...] | None
"""The verdict of a rule; of one that is asked of each item of a list, for each; None where only
asking it slowly tells."""


class Evaluator:
    """A rulebook made ready to judge many jobs in haste.

    Making it takes about as long as reading the rulebook; each job then takes a fraction of what
    findings take. It can be shared between threads.

    Attributes:
        names: The names of the rules, in the order of their verdicts.

    Args:
        rulebook: The rules.
        made: What was made of it before; made now, in the rulebook's own order, if None.

    Example:
        >>> evaluator = Evaluator(Rulebook.built_in())
        >>> len(evaluator.verdicts({})) == len(Rulebook.built_in().rules)
        True
    """

    def __init__(self, rulebook: RuleSet, made: Made | None = None) -> None:
        self._rulebook = rulebook
        self.names, codes = made or _made(rulebook, tuple(rulebook.rules))
        start, shares = rulebook.session, rulebook.budget
        self._whole = _one_after_the_other(
            [load_fused(code, _ANSWERS, start, shares.steps, shares.few) for code in codes]
        )
        # Where a table has several editions, only a job tells which holds.
        self._rows = None if rulebook.editions else rulebook.rows_for({})

    @classmethod
    def worst_first(cls, rulebook: RuleSet) -> Self:
        """Return one that gives the verdicts of the most serious rules first.

        It is kept from one run to the next where the rulebook is.

        Args:
            rulebook: The rules.
        """

        def make() -> Made:
            return _made(rulebook, worst_first(rulebook.rules.values()))

        return cls(rulebook, rulebook.cached("evaluator", make))

    def ask(
        self, values: Mapping[str, object], session: Session | None = None
    ) -> tuple[bool, list[Quick]]:
        """Return what can be told in haste of every rule, in its order.

        Args:
            values: The facts of a job, as `Rulebook.facts` gives them.
            session: The running evaluation of that job, where somebody looks at what it took.

        Returns:
            Whether a verdict is None, and the verdicts.
        """
        rows = self._rows or self._rulebook.rows_for(values)
        try:
            return self._whole(values, rows, session)  # type: ignore[return-value]
        except TooManySteps:
            return True, [None] * len(self.names)

    def verdicts(self, values: Mapping[str, object]) -> list[Verdict | tuple[Verdict, ...]]:
        """Return the verdict of every rule, in its order.

        Args:
            values: The facts of a job, as `Rulebook.facts` gives them.

        Returns:
            A verdict for each rule; for one that is asked of each item of a list, a tuple of one
            for each.
        """
        late, found = self.ask(values)
        if not late:
            return found  # type: ignore[return-value]
        given, session = _Given(values), self._rulebook.session(values)
        told: list[Verdict | tuple[Verdict, ...]] = []
        for name, verdict in zip(self.names, found, strict=True):
            if verdict is not None:
                told.append(verdict)
                continue
            rule = self._rulebook.rules[name]
            slow = tuple(one.verdict for one in judge(rule, given, session))
            items = rule.each is not None and isinstance(values.get(rule.each.path), list)
            told.append(slow if items else slow[0])
        return told

    def by_item(
        self, facts: JobFacts, session: Session | None = None
    ) -> Iterator[tuple[str, int | None, Verdict, Judgement | None]]:
        """Give every verdict with the name of its rule, and the item's position from 1 or None.

        Where a list is empty or not known, or a rule takes more steps than it may, the judgement
        that tells so is given too.

        Args:
            facts: The facts of a job, as `Rulebook.facts` gives them.
            session: The running evaluation of that job, where somebody looks at what it took.
        """
        session = session or self._rulebook.session(facts.values)
        for name, quick in zip(self.names, self.ask(facts.values, session)[1], strict=True):
            if isinstance(quick, Verdict):
                yield name, None, quick, None
            elif quick:
                for position, one in enumerate(quick, start=1):
                    yield name, position, one, None
            else:
                for judgement in judge(self._rulebook.rules[name], facts, session):
                    yield name, judgement.position, judgement.verdict, judgement


def _made(rulebook: RuleSet, names: tuple[str, ...]) -> Made:
    lists = _lists(rulebook)
    rules = [rulebook.rules[name] for name in names]
    return names, tuple(_compiled(rulebook, some, lists) for some in _few_enough(rules))


def _compiled(rulebook: RuleSet, rules: list[Rule], lists: Mapping[str, bool]) -> CodeType:
    conditions = [_conditions(rule) for rule in rules]
    return compile_fused(conditions, dict(_in_order(rulebook, rules)), lists)


def _few_enough(rules: list[Rule]) -> Iterator[list[Rule]]:
    """Give the rules in order, in groups that are compiled at once."""
    group: list[Rule] = []
    parts = 0
    for rule in rules:
        size = sum(1 for root in (rule.applies, rule.requires) for _ in t.walk(root, {}))
        if group and parts + size > PARTS_AT_ONCE:
            yield group
            group, parts = [], 0
        group.append(rule)
        parts += size
    yield group


def _one_after_the_other(wholes: list[FusedFunction]) -> FusedFunction:
    """Return a function that gives what several give, in their order."""
    if len(wholes) == 1:
        return wholes[0]

    def ask(
        facts: Item, rows: RowsOfTables, session: Session | None = None, /
    ) -> tuple[bool, list[object]]:
        late, found = False, list[object]()
        for whole in wholes:
            some_late, some = whole(facts, rows, session)
            late = late or some_late
            found += some
        return late, found

    return ask


def _lists(rulebook: RuleSet) -> dict[str, bool]:
    """Return the lists of a job whose items count, and whether lists inside their items do."""
    facts = rulebook.scope.facts
    lists: dict[str, bool] = {}
    for path in rulebook.budget.loads:
        steps = path.split(".")
        outer = [".".join(steps[:length]) for length in range(1, len(steps))]
        outermost = next((one for one in outer if _is_list(facts.get(one))), path)
        lists[outermost] = lists.get(outermost, False) or outermost != path
    return lists


def _is_list(meaning: Meaning | None) -> bool:
    return meaning is not None and meaning.kind.name == "items"


class _Given:
    """Facts without the names of their items, which no verdict hangs on."""

    def __init__(self, values: Mapping[str, object]) -> None:
        self.values = values
        self.written: Mapping[str, str] = {}
        self.names = _Nameless()


class _Nameless(dict[str, str]):
    def __missing__(self, _: str) -> str:
        return ""


def _conditions(rule: Rule) -> Conditions:
    if rule.each is None:
        return Conditions(rule.applies, rule.requires)
    return Conditions(rule.applies, rule.requires, rule.each.variable, rule.each.path)


def _in_order(
    rulebook: RuleSet, rules: list[Rule]
) -> Iterator[tuple[tuple[str, str], tuple[t.Node, str]]]:
    """Give the quantities that rules need, each behind all it is made of."""
    done: set[tuple[str, str]] = set()

    def visit(key: tuple[str, str]) -> Iterator[tuple[tuple[str, str], tuple[t.Node, str]]]:
        if key in done:
            return
        done.add(key)
        quantity = rulebook.quantities[key]
        for need in quantities_in(quantity.formula.root, _bound(quantity.each)):
            yield from visit(need)
        yield key, (quantity.formula.root, quantity.each.variable if quantity.each else "")

    for rule in rules:
        for condition in (rule.applies, rule.requires):
            for need in quantities_in(condition, _bound(rule.each)):
                yield from visit(need)


def _bound(each: Each | None) -> dict[str, str]:
    return {each.variable: each.path} if each else {}
