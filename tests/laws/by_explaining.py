"""Verdicts come to by the explained form alone, with the compiled form left out."""

from __future__ import annotations

from tundish import Rulebook, Verdict
from tundish.job.facts import Facts
from tundish.language.evaluate.environment import Binding
from tundish.language.evaluate.explained import Explainer
from tundish.rulebook.model.rule import Rule

Verdicts = dict[str, Verdict | tuple[Verdict, ...]]


def by_explaining(facts: Facts, book: Rulebook) -> Verdicts:
    """Return the verdict of every rule by its name, as an `Evaluator` gives them.

    Args:
        facts: The facts of a job.
        book: The rules.
    """
    explainer = book.explainer(facts)
    return {name: _of_rule(rule, facts, explainer) for name, rule in book.rules.items()}


def _of_rule(rule: Rule, facts: Facts, explainer: Explainer) -> Verdict | tuple[Verdict, ...]:
    if rule.each is None:
        return _asked(rule, explainer, {})
    path, variable = rule.each.path, rule.each.variable
    items = facts.values.get(path)
    if isinstance(items, list):
        return tuple(
            _asked(rule, explainer, {variable: (item, f"{path}[{at}]")})
            for at, item in enumerate(items, start=1)
        )
    return _of_unknown_list(rule, facts, explainer)


def _of_unknown_list(rule: Rule, facts: Facts, explainer: Explainer) -> Verdict:
    assert rule.each is not None
    steps = rule.each.path.split(".")
    groups = [".".join(steps[:length]) for length in range(1, len(steps))]
    if any(facts.values.get(group) is False for group in groups):
        return Verdict.NOT_APPLICABLE
    from tundish.language.tree.tree import conjuncts, mentions

    of_the_job = [one for one in conjuncts(rule.applies) if not mentions(one, rule.each.variable)]
    if any(explainer.explain(one).value is False for one in of_the_job):
        return Verdict.NOT_APPLICABLE
    return Verdict.UNDECIDED


def _asked(rule: Rule, explainer: Explainer, bound: dict[str, Binding]) -> Verdict:
    applies = explainer.explain(rule.applies, bound).value
    if applies is not True:
        return Verdict.UNDECIDED if applies is None else Verdict.NOT_APPLICABLE
    met = explainer.explain(rule.requires, bound).value
    return Verdict.UNDECIDED if met is None else Verdict.MET if met else Verdict.BREACHED
