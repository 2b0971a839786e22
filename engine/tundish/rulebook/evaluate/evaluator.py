"""The evaluator: the verdicts of all rules on a job by one function, without explanations."""

from __future__ import annotations

from collections.abc import Mapping
from types import CodeType
from typing import Self

from tundish.language.budget.budget import TooManySteps
from tundish.language.evaluate.fused import Answers, FusedFunction, load_fused
from tundish.language.evaluate.session import Item, JobFacts, Session
from tundish.language.operations.table import RowsOfTables
from tundish.rulebook.evaluate.judge import Judgement, Verdict, judge
from tundish.rulebook.evaluate.rule_set import RuleSet
from tundish.rulebook.model.rule import worst_first

_ANSWERS = Answers(Verdict.MET, Verdict.BREACHED, Verdict.UNDECIDED, Verdict.NOT_APPLICABLE)

_new = tuple.__new__

Compiled = tuple[tuple[str, ...], tuple[CodeType, ...]]
"""The names of the rules, and the code of the functions that ask them in that order."""

Outcome = Verdict | tuple[Verdict, ...] | None
"""The verdict of a rule; of one that is asked of each item of a list, for each, or one where that
list is not known; None where it is deferred to `judge`."""


class Evaluator:
    """Judges many jobs by the rules of a rulebook.

    Making one takes about as long as reading the rulebook; each job then takes a fraction of what
    findings take. It can be shared between threads.

    Attributes:
        names: The names of the rules, in the order of their verdicts.

    Args:
        rulebook: The rules.
        compiled: The functions, compiled now and in the rulebook's own order if None.

    Example:
        >>> from tundish.rulebook.rulebook import Rulebook
        >>> evaluator = Evaluator(Rulebook.built_in())
        >>> len(evaluator.verdicts({})) == len(Rulebook.built_in().rules)
        True
    """

    def __init__(self, rulebook: RuleSet, compiled: Compiled | None = None) -> None:
        self._rulebook = rulebook
        self.names, codes = compiled or _compiled(rulebook, tuple(rulebook.rules))
        start, budget = rulebook.session, rulebook.budget
        self._lists = {asked.name[1]: asked.path for asked in budget.rules}
        self._ask = _in_turn(
            [load_fused(code, _ANSWERS, start, budget.steps, budget.few) for code in codes]
        )
        # The judgements of rules that look at no item are the same for all jobs: one a verdict.
        self._of_job: list[dict[Verdict, Judgement]] = [{} for _ in self.names]
        # Where a table has several editions, only a job tells which holds.
        self._rows = None if rulebook.editions else rulebook.rows_for({})

    @classmethod
    def worst_first(cls, rulebook: RuleSet) -> Self:
        """Return one that gives the verdicts of the most serious rules first.

        It is cached between runs where the rulebook is.

        Args:
            rulebook: The rules.
        """

        def compute() -> Compiled:
            return _compiled(rulebook, worst_first(rulebook.rules.values()))

        return cls(rulebook, rulebook.cached("evaluator", compute))

    def ask(
        self, values: Mapping[str, object], session: Session | None = None
    ) -> tuple[bool, list[Outcome]]:
        """Ask every rule of a job, without judging those that must be deferred.

        Args:
            values: The facts of a job, as `Rulebook.facts` gives them.
            session: The running evaluation of that job, for who wants to know what it spent.

        Returns:
            Whether any is deferred, and the outcomes in the order of the rules.
        """
        rows = self._rows or self._rulebook.rows_for(values)
        try:
            return self._ask(values, rows, session)  # type: ignore[return-value]
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
        is_deferred, outcomes = self.ask(values)
        if not is_deferred:
            return outcomes  # type: ignore[return-value]
        facts, session = _NamelessFacts(values), self._rulebook.session(values)
        verdicts: list[Verdict | tuple[Verdict, ...]] = []
        for name, outcome in zip(self.names, outcomes, strict=True):
            if outcome is not None:
                verdicts.append(outcome)
                continue
            rule = self._rulebook.rules[name]
            judged = tuple(judgement.verdict for judgement in judge(rule, facts, session))
            has_items = rule.each is not None and isinstance(values.get(rule.each.path), list)
            verdicts.append(judged if has_items else judged[0])
        return verdicts

    def judgements(self, facts: JobFacts, session: Session | None = None) -> list[Judgement]:
        """Return the judgement of every rule, on each item where it looks at each of a list.

        Args:
            facts: The facts of a job, as `Rulebook.facts` gives them.
            session: The running evaluation of that job, for who wants to know what it spent.
        """
        session = session or self._rulebook.session(facts.values)
        outcomes = self.ask(facts.values, session)[1]
        items_of: dict[str, list[tuple[str, int]]] = {}
        judgements: list[Judgement] = []
        add = judgements.append
        for name, of_job, outcome in zip(self.names, self._of_job, outcomes, strict=True):
            if isinstance(outcome, Verdict):
                add(of_job.get(outcome) or of_job.setdefault(outcome, self._single(name, outcome)))
            elif outcome:
                items = items_of.get(path := self._lists[name])
                if items is None:
                    places = ((f"{path}[{at}]", at) for at in range(1, len(outcome) + 1))
                    items = items_of[path] = [(facts.names[place], at) for place, at in places]
                # Of all ways to make a tuple with names this takes least time.
                judgements += [
                    _new(Judgement, (name, item, verdict, position, "", "", False))
                    for verdict, (item, position) in zip(outcome, items, strict=True)
                ]
            else:
                judgements += judge(self._rulebook.rules[name], facts, session)
        return judgements

    def _single(self, name: str, verdict: Verdict) -> Judgement:
        """Return the judgement of a rule that was asked of no item of a list."""
        is_open = verdict is Verdict.UNDECIDED
        return Judgement(name, "", verdict, open_list=self._lists.get(name, "") if is_open else "")


def _compiled(rulebook: RuleSet, names: tuple[str, ...]) -> Compiled:
    # Loaded here, as most runs find them compiled in the cache.
    from tundish.rulebook.evaluate.compile_rules import compile_rules

    return names, compile_rules(rulebook, [rulebook.rules[name] for name in names])


def _in_turn(functions: list[FusedFunction]) -> FusedFunction:
    """Return a function that gives what several give, in their order."""
    if len(functions) == 1:
        return functions[0]

    def ask(
        facts: Item, rows: RowsOfTables, session: Session | None = None, /
    ) -> tuple[bool, list[object]]:
        any_deferred, outcomes = False, list[object]()
        for function in functions:
            is_deferred, more = function(facts, rows, session)
            any_deferred = any_deferred or is_deferred
            outcomes += more
        return any_deferred, outcomes

    return ask


class _NamelessFacts:
    """Facts without the names of their items, which no verdict depends on."""

    def __init__(self, values: Mapping[str, object]) -> None:
        self.values = values
        self.written: Mapping[str, str] = {}
        self.names = _Nameless()


class _Nameless(dict[str, str]):
    def __missing__(self, _: str) -> str:
        return ""
