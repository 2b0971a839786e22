"""Facts that a pack declares and a job states under [more]: new requirements need no code."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from tundish.job.facts import Facts, add_fact, flatten
from tundish.job.job import MORE, Job
from tundish.job.kinds import (
    ChoiceKind,
    DateKind,
    Kind,
    NumberKind,
    QuantityKind,
    TextKind,
    TextsKind,
    TruthKind,
    WholeKind,
)
from tundish.job.schema import Fact, as_fact, words
from tundish.language.scope import Meaning
from tundish.measure.unit import MeasureError, read_unit
from tundish.reading.nearest import did_you_mean
from tundish.reading.problem import Problem, Problems, Refused
from tundish.rulebook.meanings import meaning_of
from tundish.rulebook.pack import Pack
from tundish.rulebook.reading import RuleSource, shapes_in
from tundish.rulebook.shapes import FactShape


@dataclass(frozen=True, slots=True)
class Declared:
    """A fact that a pack declares.

    Attributes:
        kind: How it is read from what someone wrote.
        fact: What rules and questions know of it.
    """

    kind: Kind
    fact: Fact


def declared_facts(packs: list[Pack], problems: list[Problem]) -> dict[str, Declared]:
    """Read the facts that packs declare; two of one name are refused.

    Args:
        packs: The packs, later ones on top.
        problems: What is wrong so far.

    Returns:
        Facts by name.
    """
    found: dict[str, Declared] = {}
    for pack in packs:
        if pack.facts is None:
            continue
        for name, shape in shapes_in(FactShape, pack.facts, "fact", problems):
            declared = _declared(name, shape, pack.facts, problems)
            if declared is None:
                continue
            if name in found:
                sentence = f"Another pack already declares a fact '{name}'."
                problems.append(pack.facts.problem((name,), sentence))
                continue
            found[name] = declared
    return found


def meanings_of(declared: Mapping[str, Declared]) -> dict[str, Meaning]:
    """Return what declared facts mean in expressions, by path."""
    return {one.fact.path: meaning_of(one.fact) for one in declared.values()}


def facts_with(job: Job, declared: Mapping[str, Declared]) -> Facts:
    """Return the facts of a job, with those that packs declare.

    Args:
        job: The job.
        declared: What packs declare, by name.

    Raises:
        Refused: If the job states something under [more] that no pack declares, or wrongly.
    """
    facts = flatten(job)
    problems = Problems()
    for name, written in (job.more or {}).items():
        try:
            if name not in declared:
                hint = did_you_mean(name, list(declared))
                raise ValueError(f"No pack of rules declares a fact '{name}'.{hint}")
            add_fact(declared[name].kind.read(written), f"{MORE}.{name}", facts)
        except ValueError as error:
            path = f"{MORE}.{name}"
            file, line, column = (job.source.place(path) if job.source else None) or (
                "",
                None,
                None,
            )
            problems.append(Problem(file, line, column, f"{path}: {error}", path))
    if problems:
        raise Refused(problems)
    return facts


def _declared(
    name: str, shape: FactShape, file: RuleSource, problems: list[Problem]
) -> Declared | None:
    try:
        kind = _kind(shape)
    except (ValueError, MeasureError) as error:
        problems.append(file.problem((name,), str(error)))
        return None
    label = shape.label or words(name)
    asked = (f"{MORE}.{name}", label, shape.question, shape.how, shape.who)
    fact = as_fact(kind, asked)
    assert isinstance(fact, Fact)
    return Declared(kind, fact)


def _kind(shape: FactShape) -> Kind:
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
    kinds: dict[str, Kind] = {
        "truth": TruthKind(),
        "number": NumberKind(),
        "count": WholeKind(),
        "date": DateKind(),
        "text": TextKind(),
        "texts": TextsKind(),
    }
    return kinds[shape.kind]
