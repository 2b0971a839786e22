"""Proving quantities: every named formula run on its own cases."""

from __future__ import annotations

from collections.abc import Mapping

from tundish.job.facts import Facts
from tundish.language.evaluate.explained_lists import Binding
from tundish.language.evaluate.session import TooManySteps
from tundish.rulebook.model.definition import Case
from tundish.rulebook.model.rule import DerivedQuantity
from tundish.rulebook.prove.reasons import TOO_MANY_STEPS, Wording, misnamed, what_is_open
from tundish.rulebook.rulebook import Rulebook
from tundish.units.format import show
from tundish.units.quantity import parse_quantity
from tundish.units.unit import MeasureError


def quantity_fault(
    quantity: DerivedQuantity, case: Case, facts: Facts, rulebook: Rulebook, wording: Wording
) -> str:
    """Say how a case of a quantity fails, or nothing where it holds."""
    quantity = quantity.as_written
    bindings: dict[str, Binding] = {}
    arguments: tuple[Mapping[str, object], ...] = ()
    if quantity.each is not None:
        items = facts.values.get(quantity.each.path)
        position = case.item or 1
        if not isinstance(items, list) or len(items) < position:
            return f"There is no item {position} of {quantity.each.path}."
        item = items[position - 1]
        bindings = {quantity.each.variable: (item, f"{quantity.each.path}[{position}]")}
        arguments = (item,)
    session = rulebook.session(facts.values)
    try:
        value = quantity.calculate(facts.values, session, *arguments)
        fault = _value_fault(quantity, case, value)
        if not fault and case.unknown is None:
            return ""
        step = rulebook.explainer(facts).explain(quantity.formula.root, bindings)
    except TooManySteps:
        return TOO_MANY_STEPS
    if not fault:
        return misnamed(step.needs, case.unknown or frozenset(), step.obstacles)
    if not fault.startswith(_COMES_OUT):
        return fault
    why = what_is_open(step.needs, step.obstacles)
    if value is not None:
        said = wording.numbers(step, facts)
        # A formula that is one fact, or is written out, has nothing put in to show.
        why = "" if said in fault else said
    return f"{fault.removesuffix('.')}: {why}." if why else fault


_COMES_OUT = "It comes out "


def _value_fault(quantity: DerivedQuantity, case: Case, value: object) -> str:
    if value is None or case.value is None:
        if value == case.value:
            return ""
        stated = "unknown" if case.value is None else str(case.value)
        return f"{_COMES_OUT}{_shown(quantity, value)}, not {stated}."
    if quantity.unit is None:
        if value == case.value:
            return ""
        return f"{_COMES_OUT}{_shown(quantity, value)}, not {_shown(quantity, case.value)}."
    try:
        expected = parse_quantity(_with_unit(str(case.value), quantity))
    except MeasureError as error:
        return str(error)
    if expected.dimension != quantity.kind.dimension:
        return f"{expected} is not {quantity.kind}."
    assert isinstance(value, float)
    # The tolerance of a temperature is a share of its distance from 0 degC, not from 0 K.
    scale = abs(expected.si - float(quantity.unit.zero)) or 1.0
    if abs(value - expected.si) <= case.within * scale:
        return ""
    return f"{_COMES_OUT}{_shown(quantity, value)}, not {expected}."


def _with_unit(written: str, quantity: DerivedQuantity) -> str:
    """Give the value of a plain number, such as a count, the unit that nobody writes."""
    bare = quantity.kind.dimension.is_number and written[-1:].isdigit()
    return f"{written} 1" if bare else written


def _shown(quantity: DerivedQuantity, value: object) -> str:
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, float) and quantity.unit is not None:
        return show(value, quantity.unit, digits=8)
    return "unknown" if value is None else repr(value)
