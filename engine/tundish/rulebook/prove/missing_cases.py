"""Missing cases: one that would notice a mutant, made from a case that is there.

One fact at a time is changed: truths are negated, words exchanged, and figures moved to where the
outcome turns, and a little to either side. The first job on which the mutant and the expression
differ is the case.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import chain
from typing import Any

from tundish.job.changes import Change, places_of, put_into_data, value_at
from tundish.job.facts import Facts
from tundish.job.job import Job
from tundish.job.model.kinds import ChoiceKind, QuantityKind, TruthKind, WholeKind
from tundish.job.reader import nested_data
from tundish.rulebook.evaluate.provisions import ask
from tundish.rulebook.link.facts_read import facts_read
from tundish.rulebook.model.provision import Provision
from tundish.rulebook.model.rule import DerivedQuantity
from tundish.rulebook.prove.case_run import Proved, case_runs, possible_facts
from tundish.rulebook.prove.mutants import is_same
from tundish.rulebook.prove.run_mutants import CompiledMutant, outcome
from tundish.rulebook.rulebook import Rulebook
from tundish.units.format import in_unit, show, show_number
from tundish.units.quantity import parse_quantity

_SHARES = (1.0, 0.999, 1.001, 0.99, 1.01, 0.97, 1.03, 0.8, 1.2, 0.5, 2.0, 0.0)
_HALVINGS = 40


def noticing_case(
    proved: Proved, mutant: CompiledMutant, rulebook: Rulebook
) -> dict[str, Any] | None:
    """Return the facts of a job on which a mutant and its expression differ, or None.

    Args:
        proved: What the mutant is of.
        mutant: The mutant, ready to be run.
        rulebook: The rulebook.
    """
    proved = proved.as_written
    paths = sorted(facts_read(proved, rulebook.quantities))
    for case in proved.cases:
        data = nested_data(case.given)
        for other in _neighbours(data, paths, proved, rulebook):
            for run in case_runs(other, proved, case.item, rulebook):
                if not is_same(outcome(proved, None, run), outcome(proved, mutant, run)):
                    return other
    return None


def _neighbours(
    data: dict[str, Any], paths: list[str], proved: Proved, rulebook: Rulebook
) -> Iterator[dict[str, Any]]:
    """Give jobs that differ from one by one fact."""
    facts = possible_facts(data, rulebook)
    if facts is None:
        return
    for path in paths:
        for place in places_of(facts, path):
            turns = _turns(place, data, facts, proved, rulebook)
            for value in chain(_other_values(place, facts), turns):
                yield put_into_data(data, Change(place, 0.0, ""), value)


def _other_values(place: str, facts: Facts) -> Iterator[Any]:
    """Give other values for a fact: truths, words, or figures near the present one."""
    value = value_at(facts, place)
    match Job.kind_at(place):
        case TruthKind():
            yield from (truth for truth in (True, False) if truth is not value)
        case ChoiceKind(choices=choices):
            yield from (word for word in choices if word != value)
        case WholeKind() if isinstance(value, float):
            yield from (number for number in (int(value) + 1, int(value) - 1, 0) if number >= 0)
        case QuantityKind() if isinstance(value, float):
            yield from (_written(place, facts, value, share) for share in _SHARES)


def _turns(
    place: str, data: dict[str, Any], facts: Facts, proved: Proved, rulebook: Rulebook
) -> Iterator[Any]:
    """Give the figure at which the outcome turns, and a little to either side of it."""
    value = value_at(facts, place)
    if not isinstance(value, float) or not isinstance(Job.kind_at(place), QuantityKind):
        return

    def outcome_at(share: float) -> object:
        text = _written(place, facts, value, share)
        other = put_into_data(data, Change(place, 0.0, ""), text)
        return [outcome(proved, None, run) for run in case_runs(other, proved, None, rulebook)]

    now = outcome_at(1.0)
    for far in (0.0, 0.1, 0.5, 2.0, 10.0):
        if outcome_at(far) == now:
            continue
        near = 1.0
        for _ in range(_HALVINGS):
            middle = (near + far) / 2
            near, far = (middle, far) if outcome_at(middle) == now else (near, middle)
        for share in (1.0, 0.99, 1.01):
            yield _written(place, facts, value, far * share)


def _written(place: str, facts: Facts, value: float, share: float) -> str:
    """Return a share of a figure as one would write it; of a temperature, counted from 0 degC."""
    unit = parse_quantity(facts.written[place]).unit
    number = show_number(in_unit(value, unit) * share, digits=9)
    return number if unit.symbol == "1" else f"{number} {unit.symbol}"


def stated_outcome(proved: Proved, given: Mapping[str, Any], rulebook: Rulebook) -> str:
    """Return how a case file states what a rule, quantity or part comes to on a job.

    Args:
        proved: What is asked.
        given: The facts of the job.
        rulebook: The rulebook.
    """
    outcomes = [outcome(proved, None, run) for run in case_runs(given, proved, None, rulebook)]
    if not outcomes:
        return ""
    if isinstance(proved, DerivedQuantity):
        return _stated_value(proved, outcomes[0])
    if isinstance(proved, Provision):
        facts = possible_facts(given, rulebook)
        if facts is None:
            return ""
        return f'outcome = "{ask(proved, rulebook.session(facts.values)).need}"'
    words: dict[object, str] = {True: "met", False: "breached", None: "undecided"}
    verdicts = [str(words.get(verdict, verdict)) for verdict in outcomes]
    worst = next((word for word in _WORST_FIRST if word in verdicts), verdicts[0])
    return f'outcome = "{worst}"'


_WORST_FIRST = ("breached", "undecided", "met", "not applicable")


def _stated_value(quantity: DerivedQuantity, value: object) -> str:
    if isinstance(value, float) and quantity.unit is not None:
        return f'value   = "{show(value, quantity.unit, digits=10)}"'
    if isinstance(value, bool):
        return f"value   = {str(value).lower()}"
    return "unknown = []" if value is None else f'value   = "{value}"'
