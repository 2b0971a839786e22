"""Linking the provisions of all packs."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from tundish.language.tree.kind import TRUTH, quantity_kind
from tundish.rulebook.files.faults import Faults
from tundish.rulebook.files.file_shapes import ProvisionShape
from tundish.rulebook.files.pack import Pack
from tundish.rulebook.files.read_file import shapes_in
from tundish.rulebook.link.expressions import Linker
from tundish.rulebook.model.provision import AMOUNTS, Provision
from tundish.rulebook.model.rule_file import RuleFile
from tundish.text.problem import Problem
from tundish.units.unit import MeasureError, Unit, read_unit


def link_provisions(packs: list[Pack], linker: Linker) -> Mapping[str, Provision]:
    """Link the provisions of all packs.

    Args:
        packs: The packs, later ones on top.
        linker: Notes what is wrong.

    Returns:
        Provisions by name, sorted.
    """
    provisions: dict[str, Provision] = {}
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
        provisions[provision.name] = provision
    return {name: provisions[name] for name in sorted(provisions)}


def _shapes(
    packs: list[Pack], problems: Faults
) -> Iterator[tuple[str, str, str, ProvisionShape, RuleFile]]:
    for pack in packs:
        for topic, file in pack.provisions:
            for key, shape in shapes_in(ProvisionShape, file, "part", problems):
                yield pack.region, topic, key, shape, file


def _linked(
    region: str, topic: str, key: str, shape: ProvisionShape, file: RuleFile, linker: Linker
) -> Provision | None:
    unit = _unit(shape, file, key, linker.problems)
    shared = linker.shared(shape, file, (key,))
    asked_where = linker.checked(shape.needed, file, (key, "needed"), {}, TRUTH)
    with_unit = linker.checked(shape.with_unit, file, (key, "with_unit"), {}, TRUTH)
    wanted = quantity_kind(unit.dimension) if unit else None
    if unit is not None and not unit.dimension.is_number and "number" not in shape.model_fields_set:
        sentence = f"How many '{unit}' of it are needed? Where there is a 'unit', say the 'number'."
        linker.problems.append(file.problem((key, "unit"), sentence))
        return None
    number = linker.checked(shape.number, file, (key, "number"), {}, wanted)
    if unit is None or asked_where is None or with_unit is None or number is None:
        return None
    needed = linker.in_regions(asked_where, (region,) if region else ())
    return Provision(
        name=key.replace("-", " "),
        each=None,
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
        asked_where=asked_where,
        written={
            "needed": shape.needed,
            "with_unit": shape.with_unit,
            "number": shape.number,
        },
        **shared,
    )


def _unit(shape: ProvisionShape, file: RuleFile, key: str, problems: list[Problem]) -> Unit | None:
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
