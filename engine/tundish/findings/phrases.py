"""Words for values: how a step of an explained evaluation is called and shown."""

from __future__ import annotations

from tundish.language.evaluate.session import JobFacts
from tundish.language.evaluate.step import Step
from tundish.language.operations.aggregates import AGGREGATES
from tundish.language.operations.operators import ARITHMETIC
from tundish.language.tree import tree as t
from tundish.units.display_units import usual_unit
from tundish.units.format import show
from tundish.units.quantity import parse_quantity
from tundish.units.unit import MeasureError, Unit

NOT_KNOWN = "not known"


class Wording:
    """Puts the steps of one job into words; facts are shown as they were written."""

    def __init__(self, facts: JobFacts) -> None:
        self._facts = facts

    def shown(self, step: Step) -> str:
        """Return a step's value as text."""
        value = step.value
        if value is None:
            return NOT_KNOWN
        if isinstance(value, bool):
            return "yes" if value else "no"
        if isinstance(value, str):
            return value
        if isinstance(value, tuple):
            return ", ".join(value) or "none"
        if isinstance(step.node, t.Choice | t.Assumed):
            return self.shown(source_of(step))
        if isinstance(step.node, t.Constant):
            return step.node.shown
        written = self._facts.written.get(step.path) if isinstance(step.node, t.Read) else None
        return written or show(value, self.unit(step), difference=_is_difference(step))

    def shown_beside(self, node: t.Node, value: float, other: t.Node) -> str:
        """Return a value that a part may have as text, in the unit of another part."""
        if isinstance(node, t.Constant):
            return node.shown
        return show(
            value, self.unit(Step(other, None)), difference=_is_difference(Step(node, value))
        )

    def unit(self, step: Step) -> Unit:
        """Return the unit to show a quantity in: its own, else that of a part alike."""
        wanted = step.node.kind
        for part in step.walk():
            kind = part.node.kind
            alike = part is step or (kind.dimension, kind.point) == (wanted.dimension, wanted.point)
            own_unit = self._own_unit(part) if alike else None
            if own_unit is not None:
                return own_unit
        return usual_unit(wanted.dimension, wanted.point)

    def _own_unit(self, step: Step) -> Unit | None:
        node = step.node
        if isinstance(node, t.Read):
            written = self._facts.written.get(step.path)
            try:
                return parse_quantity(written).unit if written else node.unit
            except MeasureError:  # a plain number is written without a unit
                return node.unit
        if isinstance(node, t.Constant | t.Derived | t.Lookup):
            return node.unit
        return None

    def phrase(self, step: Step) -> str:
        """Return a step with its name and value: ``free water volume 16.2 L``."""
        node = step.node
        match node:
            case t.Constant():
                return self.shown(step)
            case t.Read() | t.Derived():
                return f"{node.label} {self.shown(step)}"
            case t.Choice() | t.Assumed():
                return self.phrase(source_of(step))
            case t.Arithmetic() if ARITHMETIC[node.sign].names_operands:
                return f"{self._sum_of_phrases(step)} = {self.shown(step)}"
            case t.Loop(function="count"):
                return f"number of {node.items.label} that count {self.shown(step)}"
            case t.Count():
                return f"number of {node.items.label} {self.shown(step)}"
            case t.Loop():
                label = getattr(node.term, "label", "value")
                word = AGGREGATES[node.function].shown or node.function
                return f"{word} {label} of {node.items.label} {self.shown(step)}"
            case _:
                return self.shown(step)

    def _sum_of_phrases(self, step: Step) -> str:
        operator = ARITHMETIC[step.node.sign] if isinstance(step.node, t.Arithmetic) else None
        if operator is None or not operator.names_operands:
            return self.phrase(step)
        left, right = (self._sum_of_phrases(part) for part in step.parts)
        if _loose(step.parts[0], operator.tightness):
            left = f"({left})"
        if _loose(step.parts[1], operator.tightness + 1):
            right = f"({right})"
        return left + operator.shown + right

    def numbers(self, step: Step, tight: int = 0) -> str:
        """Return a formula with its numbers put in: ``(12 L + 4.2 L) x 2``."""
        node, parts = step.node, step.parts
        match node:
            case t.Arithmetic():
                operator = ARITHMETIC[node.sign]
                left = self.numbers(parts[0], operator.tightness)
                right = self.numbers(parts[1], operator.tightness + 1)
                text = left + operator.shown + right
                return f"({text})" if operator.tightness < tight else text
            case t.Negation():
                return f"-{self.numbers(parts[0], 3)}"
            case t.Choice():
                return self.numbers(taken_branch(step), tight)
            case t.Assumed():
                source = source_of(step)
                constant = isinstance(source.node, t.Constant)
                return self.numbers(source, tight) + (" (assumed)" if constant else "")
            case t.Call():
                inner = ", ".join(self.numbers(part) for part in parts)
                return f"{node.function.name}({inner})"
            case t.Lookup():
                inner = ", ".join(self.shown(part) for part in parts)
                return f"table '{node.table}' at {inner}"
            case t.Loop():
                return self._loop_numbers(step, tight)
            case t.Interpolation():
                at = ", ".join(self.shown(part) for part in parts[1 : 1 + len(node.at)])
                return f"between the {node.items.label} at {at}"
            case t.Comparison():
                return f"{self.numbers(parts[0], 1)} {node.sign} {self.numbers(parts[1], 1)}"
            case t.Logic():
                return f" {node.word} ".join(self.numbers(part) for part in parts if part.needed)
            case t.Not():
                return f"not {self.numbers(parts[0], 3)}"
            case _:
                return self.shown(step)

    def _loop_numbers(self, step: Step, tight: int) -> str:
        node = step.node
        assert isinstance(node, t.Loop)
        terms = [
            self.numbers(part, 1)
            for part in step.parts[1:]
            if part.needed and part.node is node.term
        ]
        aggregate = AGGREGATES[node.function]
        if aggregate.adds:
            text = " + ".join(terms) or self.shown(step)
            return f"({text})" if tight > 1 and len(terms) > 1 else text
        if not aggregate.of_truths:
            return f"{node.function} of {', '.join(terms) or 'nothing'}"
        return self.shown(step)


def taken_branch(step: Step) -> Step:
    """Return the branch of a choice that gave its value, or its condition where none did."""
    condition, then, otherwise = step.parts
    if condition.value is None:
        return then if step.value is not None else condition
    return then if condition.value else otherwise


def source_of(step: Step) -> Step:
    """Return the part that a choice, or a value with a fallback, takes its value from."""
    if isinstance(step.node, t.Choice):
        return taken_branch(step)
    return step.parts[0] if len(step.parts) == 1 else step.parts[1]


def _is_difference(step: Step) -> bool:
    return not step.node.kind.point


def _loose(step: Step, tight: int) -> bool:
    return isinstance(step.node, t.Arithmetic) and ARITHMETIC[step.node.sign].tightness < tight
