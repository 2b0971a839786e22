"""Reading the facts that packs declare."""

from __future__ import annotations

import json
from collections.abc import Iterable
from typing import Any

from tundish.job.facts import value_and_text
from tundish.job.job import MORE
from tundish.job.model.kinds import (
    ChoiceKind,
    DateKind,
    FactKind,
    NumberKind,
    QuantityKind,
    TextKind,
    TextsKind,
    TruthKind,
    WholeKind,
)
from tundish.job.model.schema import Fact, as_fact, words
from tundish.rulebook.files.faults import Faults
from tundish.rulebook.files.file_shapes import FactShape
from tundish.rulebook.files.pack import FACTS, PackFiles
from tundish.rulebook.files.read_file import shapes_in
from tundish.rulebook.model.declared_facts import Declared
from tundish.rulebook.model.rule_file import RuleFile
from tundish.units.unit import MeasureError, read_unit


def declared_in(packs: Iterable[PackFiles]) -> dict[str, Declared]:
    """Read the facts that packs declare, whose files have been read without a problem before.

    Args:
        packs: The packs, later ones on top.
    """
    files = [pack.source(FACTS) for pack in packs if FACTS in pack.contents]
    return declared_facts(files, Faults())


def declared_facts(files: Iterable[RuleFile | None], faults: Faults) -> dict[str, Declared]:
    """Read the facts that packs declare; two of one name are refused.

    Args:
        files: The file of each pack, later ones on top; None of a pack that declares none.
        faults: What is wrong so far.

    Returns:
        Facts by name.
    """
    facts: dict[str, Declared] = {}
    for file in files:
        if file is None:
            continue
        for name, shape in shapes_in(FactShape, file, "fact", faults, "fact"):
            declared = _declared(name, shape, file, faults)
            if declared is None:
                faults.refuse("fact", name)
                continue
            if name in facts:
                sentence = f"Another pack already declares a fact '{name}'."
                faults.append(file.problem((name,), sentence))
                continue
            facts[name] = declared
    return facts


def _declared(name: str, shape: FactShape, file: RuleFile, faults: Faults) -> Declared | None:
    try:
        kind = _kind(shape)
    except (ValueError, MeasureError) as error:
        faults.append(file.problem((name,), str(error)))
        return None
    try:
        example = "" if shape.example is None else _written(kind.read(shape.example))
    except ValueError as error:
        faults.append(file.problem((name, "example"), f"The example does not fit. {error}"))
        return None
    label = shape.label or words(name)
    asked = (f"{MORE}.{name}", label, shape.question, shape.how, shape.who)
    fact = as_fact(kind, asked, example)
    assert isinstance(fact, Fact)
    return Declared(kind, fact)


def _written(value: Any) -> str:
    """Return a fact as a job file has it, without quotes around a text."""
    return (
        json.dumps(value, ensure_ascii=False)
        if isinstance(value, tuple)
        else value_and_text(value)[1]
    )


def _kind(shape: FactShape) -> FactKind:
    """Return the kind a fact has.

    Raises:
        ValueError: If unit or choices do not go with it.
    """
    if shape.kind == "quantity":
        if shape.unit is None:
            raise ValueError("A quantity has a 'unit', such as 'mm'.")
        read_unit(shape.unit)
        return QuantityKind(f"a quantity in {shape.unit}", f"1 {shape.unit}")
    if shape.unit is not None:
        raise ValueError(f"A {shape.kind} has no unit.")
    if shape.kind in ("text", "texts") and shape.choices:
        choices = tuple(shape.choices)
        return ChoiceKind(choices) if shape.kind == "text" else TextsKind(choices)
    if shape.choices:
        raise ValueError(f"A {shape.kind} has no choices.")
    kinds: dict[str, FactKind] = {
        "truth": TruthKind(),
        "number": NumberKind(),
        "count": WholeKind(),
        "date": DateKind(),
        "text": TextKind(),
        "texts": TextsKind(),
    }
    return kinds[shape.kind]
