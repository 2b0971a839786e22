"""Figures: quantities that a report shows whatever any rule says of them."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.groundwork.dataclass import dataclass
from tundish.job.facts import Facts
from tundish.language.budget.budget import TooManySteps
from tundish.language.evaluate.session import Item, Session
from tundish.rulebook.model.choices import Section
from tundish.rulebook.model.rule import DerivedQuantity
from tundish.rulebook.rulebook import Rulebook
from tundish.units.format import show


@dataclass(frozen=True, slots=True)
class Figure:
    """One value of a quantity that the rulebook wants shown.

    Attributes:
        section: The section of a report it belongs to.
        quantity: Name of the quantity.
        label: What it is called.
        of: Path of the list item it belongs to, positions counted from 1; "" for the job.
        value: The value as text, or "" while it is not known.
        recall: Whether its formula was written from memory.
    """

    section: Section
    quantity: str
    label: str
    of: str
    value: str
    recall: bool


def figures_of(facts: Facts, rulebook: Rulebook, session: Session) -> tuple[Figure, ...]:
    """Return the figures of a job, in the order of the rulebook.

    Args:
        facts: The job's facts.
        rulebook: Says which quantities are shown where, and in which region.
        session: The running evaluation of that job.

    Returns:
        A figure for each such quantity, and for each item of the list it belongs to.
    """
    region = facts.values.get("job.region")
    return tuple(
        figure
        for quantity in rulebook.reported
        if quantity.region in ("", region)
        for figure in _figures(quantity, facts, session)
    )


def _figures(quantity: DerivedQuantity, facts: Facts, session: Session) -> Iterator[Figure]:
    if quantity.each is None:
        yield _figure(quantity, "", session, ())
        return
    listed = facts.values.get(quantity.each.path)
    items = listed if isinstance(listed, list) else []
    for position, item in enumerate(items, start=1):
        place = f"{quantity.each.path}[{position}]"
        yield _figure(quantity, place, session, (item,), len(items))


def _figure(
    quantity: DerivedQuantity,
    of: str,
    session: Session,
    item: tuple[Item, ...],
    items: int = 1,
) -> Figure:
    assert quantity.report is not None
    session.budget.begin(items)
    try:
        value = quantity.calculate(session.values, session, *item)
    except TooManySteps:
        value = None
    recall = any(citation.recall for citation in quantity.citations)
    text = _text(quantity, value)
    return Figure(quantity.report, quantity.name, quantity.label, of, text, recall)


def _text(quantity: DerivedQuantity, value: object) -> str:
    if isinstance(value, float) and quantity.unit is not None:
        return show(value, quantity.unit, digits=3)
    return "" if value is None else str(value)
