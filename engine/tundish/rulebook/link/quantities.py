"""Linking the quantities of all packs."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import NamedTuple

from tundish.language.check.scope import Meaning
from tundish.language.evaluate.environment import Formula
from tundish.language.operations.functions import CONSTANTS
from tundish.language.syntax.tokens import RESERVED
from tundish.language.tree.kind import TRUTH, Kind, quantity_kind, text_kind
from tundish.rulebook.files.faults import Faults
from tundish.rulebook.files.file_shapes import QuantityShape
from tundish.rulebook.files.pack import Pack
from tundish.rulebook.files.read_file import shapes_in
from tundish.rulebook.link.expressions import Linker
from tundish.rulebook.link.overrides import override_quantities, stated_override
from tundish.rulebook.link.quantity_range import least_declared, within_range
from tundish.rulebook.model.definition import variables_of
from tundish.rulebook.model.rule import DerivedQuantity
from tundish.rulebook.model.rule_file import RuleFile
from tundish.text.place import Path
from tundish.units.dimension import LEVEL
from tundish.units.unit import MeasureError, Unit, read_unit

_NAME = re.compile(r"[a-z][a-z0-9_]*")


class _Stated(NamedTuple):
    """A quantity as a file states it."""

    name: str
    shape: QuantityShape
    file: RuleFile
    topic: str
    region: str


def link_quantities(
    packs: list[Pack], linker: Linker, meanings: dict[tuple[str, str], Meaning]
) -> dict[tuple[str, str], DerivedQuantity]:
    """Declare all quantities, then read their formulas, so that files need no order.

    Args:
        packs: The packs, later ones on top.
        linker: Notes what is wrong.
        meanings: Gets what quantities mean in expressions.
    """
    declared: dict[tuple[str, str], _Stated] = {}
    for stated in _all_stated(packs, linker.problems):
        key_and_meaning = _declared(linker, stated)
        if key_and_meaning is None:
            linker.problems.refuse("quantity", stated.name)
            continue
        key, meaning = key_and_meaning
        if key in meanings:
            sentence = f"A quantity '{stated.name}' already stands elsewhere."
            linker.note(stated.file, (stated.name,), sentence)
            continue
        meanings[key], declared[key] = meaning, stated
    quantities = {
        key: quantity
        for key, stated in declared.items()
        if (quantity := _linked(linker, stated, meanings[key])) is not None
    }
    override_quantities(quantities, linker.scope, linker.problems)
    return quantities


def _all_stated(packs: list[Pack], faults: Faults) -> Iterator[_Stated]:
    for pack in packs:
        for topic, file in pack.quantities:
            for name, shape in shapes_in(QuantityShape, file, "quantity", faults, "quantity"):
                yield _Stated(name, shape, file, topic, pack.region)


def _declared(linker: Linker, stated: _Stated) -> tuple[tuple[str, str], Meaning] | None:
    """Return how a quantity is known in expressions, before its formula is read."""
    name, shape, file = stated.name, stated.shape, stated.file
    sentence = ""
    if not _NAME.fullmatch(name):
        sentence = f"'{name}' is no name: small letters, digits and '_'."
    elif name in RESERVED or name in CONSTANTS:
        sentence = f"'{name}' is a word of the language."
    elif name in linker.scope.facts:
        sentence = f"'{name}' already names a part of the job."
    if sentence:
        linker.note(file, (name,), sentence)
        return None
    kind_and_unit = _kind(linker, shape, file, (name,))
    each = linker.each(shape.of, file, (name, "of"))
    if kind_and_unit is None or (shape.of is not None and each is None):
        return None
    kind, unit = kind_and_unit
    if each is not None and f"{each.path}.{name}" in linker.scope.facts:
        linker.note(file, (name,), f"'{name}' already names a fact of {each.path}.")
        return None
    least = least_declared(shape, kind)
    return (each.path if each else "", name), Meaning(kind, shape.label, unit, least)


def _linked(linker: Linker, stated: _Stated, meaning: Meaning) -> DerivedQuantity | None:
    """Check a quantity's formula."""
    name, shape, file = stated.name, stated.shape, stated.file
    each = linker.each(shape.of, file, (name, "of"), quiet=True)
    variables, at = variables_of(each), (name, "formula")
    root = linker.checked(shape.formula, file, at, variables, meaning.kind)
    shared = linker.shared(shape, file, (name,))
    overrides = stated_override(name, shape, file, (name,), stated.region, linker.problems)
    if root is None:
        return None
    ranged = within_range(root, meaning, shape, file, (name,), linker, variables)
    return DerivedQuantity(
        name=name,
        topic=stated.topic,
        label=shape.label,
        about=shape.about,
        kind=meaning.kind,
        unit=meaning.unit,
        written=shape.formula,
        formula=Formula(ranged.root, each.variable if each else None),
        each=each,
        at_least=ranged.at_least,
        at_most=ranged.at_most,
        range_because=shape.range_because or "",
        report=shape.report,
        region=stated.region,
        overrides=overrides,
        overridden=(),
        **shared,
    )


def _kind(
    linker: Linker, shape: QuantityShape, file: RuleFile, at: Path
) -> tuple[Kind, Unit | None] | None:
    if (shape.unit is None) == (shape.gives is None):
        linker.note(file, at, "A quantity has either a 'unit' or 'gives' (truth or text).")
        return None
    if shape.unit is None:
        kind = TRUTH if shape.gives == "truth" else text_kind(tuple(shape.choices))
        return kind, None
    try:
        unit = read_unit(shape.unit)
    except MeasureError as error:
        linker.note(file, (*at, "unit"), str(error))
        return None
    if shape.difference and unit.dimension != LEVEL:
        linker.note(file, (*at, "difference"), "Only levels in dB need 'difference'.")
        return None
    return quantity_kind(unit.dimension, unit.point and not shape.difference), unit
