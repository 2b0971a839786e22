"""Reading the cases that prove a rule or a quantity."""

from __future__ import annotations

from collections.abc import Sequence

from tundish.rulebook.files.file_shapes import (
    CaseShape,
    ConstraintCaseShape,
    ProvisionCaseShape,
    QuantityCaseShape,
    RuleCaseShape,
)
from tundish.rulebook.model.definition import Case
from tundish.rulebook.model.rule_file import RuleFile
from tundish.text.place import Path
from tundish.text.problem import Problem
from tundish.units.quantity import parse_quantity
from tundish.units.unit import MeasureError

_CLOSE = 1e-6
"""Share of an amount within which it counts as the one that a case of a provision states."""


def linked_cases(
    shapes: Sequence[CaseShape], file: RuleFile, at: Path, problems: list[Problem]
) -> tuple[Case, ...]:
    """Turn the case tables of a rule, quantity or provision into cases."""
    return tuple(
        _case(shape, file, (*at, "case", position), problems)
        for position, shape in enumerate(shapes)
    )


def _case(shape: CaseShape, file: RuleFile, at: Path, problems: list[Problem]) -> Case:
    unknown = None if shape.unknown is None else frozenset(shape.unknown)
    if isinstance(shape, RuleCaseShape | ConstraintCaseShape):
        if shape.outcome == "undecided" and unknown is None:
            problems.append(
                file.problem(at, "An undecided case lists the 'unknown' facts it must name.")
            )
        return Case(shape.why, shape.given, shape.outcome, item=shape.item, unknown=unknown)
    if isinstance(shape, ProvisionCaseShape):
        return Case(shape.why, shape.given, shape.outcome, shape.number, _CLOSE, unknown=unknown)
    assert isinstance(shape, QuantityCaseShape)
    within = 0.0
    try:
        within = parse_quantity(shape.within).si
    except MeasureError as error:
        problems.append(file.problem((*at, "within"), str(error)))
    return Case(
        shape.why,
        shape.given,
        value=shape.value,
        within=within,
        item=shape.item,
        unknown=unknown,
    )
