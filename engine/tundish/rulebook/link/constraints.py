"""Linking the constraints of all packs."""

from __future__ import annotations

from collections.abc import Mapping

from tundish.language.operations.operators import RELATIONS
from tundish.language.tree.kind import TRUTH
from tundish.language.tree.tree import Comparison
from tundish.rulebook.files.file_shapes import ConstraintShape
from tundish.rulebook.files.pack import Pack
from tundish.rulebook.files.read_file import shapes_in
from tundish.rulebook.link.expressions import Linker
from tundish.rulebook.model.constraint import Constraint
from tundish.rulebook.model.definition import variables_of
from tundish.rulebook.model.rule_file import RuleFile


def link_constraints(packs: list[Pack], linker: Linker) -> Mapping[str, Constraint]:
    """Link the constraints of all packs.

    Args:
        packs: The packs, later ones on top.
        linker: Notes what is wrong.

    Returns:
        Constraints by name (``topic/constraint``), sorted.
    """
    constraints: dict[str, Constraint] = {}
    for pack in packs:
        for topic, file in pack.constraints:
            for key, shape in shapes_in(ConstraintShape, file, "constraint", linker.problems):
                constraint = _linked(pack.region, topic, key, shape, file, linker)
                if constraint is None:
                    continue
                if constraint.name in constraints:
                    sentence = f"A constraint '{constraint.name}' stands elsewhere."
                    linker.note(file, (key,), sentence)
                    continue
                constraints[constraint.name] = constraint
    return {name: constraints[name] for name in sorted(constraints)}


def _linked(
    region: str, topic: str, key: str, shape: ConstraintShape, file: RuleFile, linker: Linker
) -> Constraint | None:
    each = linker.each(shape.of, file, (key, "of"))
    variables = variables_of(each) if each else linker.refused_item(shape.of)
    asked_where = linker.checked(shape.applies, file, (key, "applies"), variables, TRUTH)
    requires = linker.checked(shape.requires, file, (key, "requires"), variables, TRUTH)
    shared = linker.shared(shape, file, (key,))
    if asked_where is None or requires is None or (shape.of is not None and each is None):
        return None
    if not isinstance(requires, Comparison) or not RELATIONS[requires.sign].direction:
        sentence = "A constraint is one comparison by '<', '<=', '>' or '>='."
        linker.note(file, (key, "requires"), sentence)
        return None
    return Constraint(
        name=f"{topic}/{key}",
        each=each,
        applies=linker.in_regions(asked_where, (region,) if region else ()),
        requires=requires,
        because=shape.because,
        asked_where=asked_where,
        written={"applies": shape.applies, "requires": shape.requires},
        **shared,
    )
