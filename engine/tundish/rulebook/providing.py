"""Provisions: linking them, and asking one of a job."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from enum import StrEnum

from tundish.language.kind import TRUTH, quantity_kind
from tundish.language.session import Session, TooManySteps
from tundish.measure.unit import MeasureError, Unit, read_unit
from tundish.reading.problem import Problem
from tundish.rulebook.bibliography import cited
from tundish.rulebook.cases import linked_cases
from tundish.rulebook.linking import Linker
from tundish.rulebook.pack import Pack
from tundish.rulebook.provision import Provision
from tundish.rulebook.reading import RuleSource, shapes_in
from tundish.rulebook.shapes import ProvisionShape


class Need(StrEnum):
    """Whether a job needs a part."""

    NEEDED = "needed"
    NOT_NEEDED = "not needed"
    WITH_UNIT = "with the unit"
    UNDECIDED = "undecided"


@dataclass(frozen=True, slots=True)
class Provided:
    """What asking a provision came to.

    Attributes:
        need: Whether the job needs the part.
        amount: How much of it, in SI units; None while it is not known, or not needed.
    """

    need: Need
    amount: float | None = None


def ask(provision: Provision, session: Session) -> Provided:
    """Ask whether and how much of a part a job needs.

    Args:
        provision: The part.
        session: The running evaluation of that job.
    """
    session.begin_rule()
    try:
        needed = provision.is_needed(session.values, session)
        if needed is not True:
            return Provided(Need.NOT_NEEDED if needed is False else Need.UNDECIDED)
        with_unit = provision.is_with_unit(session.values, session)
        amount = provision.amount(session.values, session)
    except TooManySteps:
        return Provided(Need.UNDECIDED)
    number = amount if isinstance(amount, float) else None
    if with_unit is None:
        return Provided(Need.UNDECIDED)
    if with_unit:
        return Provided(Need.WITH_UNIT, number)
    if number is not None and number <= 0:
        return Provided(Need.NOT_NEEDED)
    return Provided(Need.NEEDED if number is not None else Need.UNDECIDED, number)


def link_provisions(packs: list[Pack], linker: Linker) -> Mapping[str, Provision]:
    """Link the provisions of all packs.

    Args:
        packs: The packs, later ones on top.
        linker: Notes what is wrong.

    Returns:
        Provisions by name, sorted.
    """
    found: dict[str, Provision] = {}
    taken: set[str] = set()
    for region, topic, key, shape, file in _shapes(packs, linker.problems):
        provision = _linked(region, topic, key, shape, file, linker)
        if provision is None:
            continue
        clash = next((name for name in provision.names if name in taken), None)
        if clash is not None:
            linker.problems.append(file.problem((key,), f"A part '{clash}' stands elsewhere."))
            continue
        taken.update(provision.names)
        found[provision.name] = provision
    return {name: found[name] for name in sorted(found)}


def _shapes(
    packs: list[Pack], problems: list[Problem]
) -> Iterator[tuple[str, str, str, ProvisionShape, RuleSource]]:
    for pack in packs:
        for topic, file in pack.provisions:
            for key, shape in shapes_in(ProvisionShape, file, "part", problems):
                yield pack.region, topic, key, shape, file


def _linked(
    region: str, topic: str, key: str, shape: ProvisionShape, file: RuleSource, linker: Linker
) -> Provision | None:
    unit = _unit(shape, file, key, linker.problems)
    citations = cited(shape.cite, linker.sources, file, (key,), linker.problems)
    asked_where = linker.checked(shape.needed, file, (key, "needed"), {}, TRUTH)
    with_unit = linker.checked(shape.with_unit, file, (key, "with_unit"), {}, TRUTH)
    wanted = quantity_kind(unit.dimension) if unit else None
    number = linker.checked(shape.number, file, (key, "number"), {}, wanted)
    if unit is None or asked_where is None or with_unit is None or number is None:
        return None
    needed = linker.in_regions(asked_where, (region,) if region else ())
    return Provision(
        name=key.replace("-", " "),
        also_called=tuple(shape.also_called),
        topic=topic,
        part=shape.part,
        needed=needed,
        with_unit=with_unit,
        number=number,
        unit=unit,
        supplier=shape.supplier,
        because=shape.because,
        region=region,
        citations=citations,
        reviewed=shape.reviewed,
        cases=linked_cases(shape.case, file, (key,), linker.problems),
        unnoticed={one.change: one.because for one in shape.unnoticed},
        asked_where=asked_where,
        written={
            "needed": shape.needed,
            "with_unit": shape.with_unit,
            "number": shape.number,
        },
        source=file,
    )


def _unit(
    shape: ProvisionShape, file: RuleSource, key: str, problems: list[Problem]
) -> Unit | None:
    try:
        unit = read_unit(shape.unit)
    except MeasureError as error:
        problems.append(file.problem((key, "unit"), str(error)))
        return None
    if unit.dimension.name in AMOUNTS:
        return unit
    sentence = f"A part is ordered by {', '.join(AMOUNTS)}, not by {unit.dimension.name}."
    problems.append(file.problem((key, "unit"), sentence))
    return None


AMOUNTS = {"number": "number", "length": "length", "volume": "volume", "mass": "mass"}
"""By what parts are ordered: each dimension, and the fact of an order list that states it."""
