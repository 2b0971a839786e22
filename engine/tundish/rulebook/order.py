"""The order quantities depend on each other in, and the cycles that must not be."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from tundish.language.tree import Derived, Loop, Node, children
from tundish.reading.bounds import LONGEST_DEPENDENCE
from tundish.reading.problem import Problem
from tundish.rulebook.rule import DerivedQuantity

Name = tuple[str, str]


def quantities_in(root: Node, variables: Mapping[str, str]) -> Iterator[Name]:
    """Give the quantities an expression reads, each by list path (or "") and name."""
    match root:
        case Derived():
            yield ("" if root.item is None else variables[root.item], root.name)
        case _:
            inner = dict(variables)
            if isinstance(root, Loop):
                inner[root.variable] = root.items.kind.record
            for part in children(root):
                yield from quantities_in(part, inner)


def dependence_problems(quantities: Mapping[Name, DerivedQuantity]) -> list[Problem]:
    """Find quantities that are computed from themselves, or through too many others."""
    needs = {
        name: list(dict.fromkeys(_needs(quantity))) for name, quantity in quantities.items()
    }
    depths: dict[Name, int] = {}
    problems: list[Problem] = []
    for name in quantities:
        _visit(name, [], needs, depths, quantities, problems)
    return problems


def _needs(quantity: DerivedQuantity) -> Iterator[Name]:
    variables = {quantity.each.variable: quantity.each.path} if quantity.each else {}
    yield from quantities_in(quantity.formula.root, variables)


def _visit(
    name: Name,
    above: list[Name],
    needs: Mapping[Name, list[Name]],
    depths: dict[Name, int],
    quantities: Mapping[Name, DerivedQuantity],
    problems: list[Problem],
) -> int:
    """Return how many quantities deep one is computed."""
    if name in depths or name not in needs:
        return depths.get(name, 0)
    if name in above:
        cycle = [*above[above.index(name) :], name]
        words = " needs ".join(each[1] for each in cycle)
        problems.append(_problem(quantities[name], f"This is computed from itself: {words}."))
        depths[name] = 0
        return 0
    if len(above) >= LONGEST_DEPENDENCE:
        sentence = f"Quantities are computed more than {LONGEST_DEPENDENCE} deep from each other."
        problems.append(_problem(quantities[name], sentence))
        depths[name] = 0
        return 0
    deeper = [
        _visit(need, [*above, name], needs, depths, quantities, problems) for need in needs[name]
    ]
    depths[name] = 1 + max(deeper, default=0)
    return depths[name]


def _problem(quantity: DerivedQuantity, sentence: str) -> Problem:
    return quantity.source.problem((quantity.name, "formula"), sentence)
