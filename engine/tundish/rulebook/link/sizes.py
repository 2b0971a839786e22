"""Linking the practical sizes of all packs."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from tundish.language.check.scope import Scope
from tundish.rulebook.files.faults import Faults
from tundish.rulebook.files.file_shapes import SizesShape
from tundish.rulebook.files.pack import Pack
from tundish.rulebook.files.read_file import shapes_in
from tundish.rulebook.files.sources_file import cited
from tundish.rulebook.model.rule_file import RuleFile
from tundish.rulebook.model.sizes import Sizes
from tundish.rulebook.model.source import Source
from tundish.text.nearest import did_you_mean
from tundish.units.quantity import parse_quantity
from tundish.units.unit import MeasureError


def link_sizes(
    packs: Iterable[Pack], scope: Scope, sources: Mapping[str, Source], problems: Faults
) -> dict[str, Sizes]:
    """Read the practical sizes of all packs; a later pack's take the place of an earlier one's.

    Args:
        packs: The packs, later ones on top.
        scope: Knows the facts of a job.
        sources: The bibliography.
        problems: What is wrong so far.

    Returns:
        Sizes by path of the fact.
    """
    by_fact: dict[str, Sizes] = {}
    for pack in packs:
        if pack.sizes is None:
            continue
        for name, shape in shapes_in(SizesShape, pack.sizes, "table of sizes", problems):
            sizes = _linked(name, shape, scope, sources, pack.sizes, problems)
            if sizes:
                by_fact.update(dict.fromkeys(shape.facts, sizes))
    return by_fact


def _linked(
    name: str,
    shape: SizesShape,
    scope: Scope,
    sources: Mapping[str, Source],
    file: RuleFile,
    problems: Faults,
) -> Sizes | None:
    citations = cited(shape.cite, sources, file, (name,), problems)
    if (shape.step is None) == (not shape.sizes):
        problems.append(file.problem((name,), "Practical sizes have either 'sizes' or a 'step'."))
        return None
    for at, path in enumerate(shape.facts):
        if path not in scope.facts and not scope.was_refused(path):
            hint = did_you_mean(path, list(scope.facts))
            sentence = f"'{path}' is no fact of a job.{hint}"
            problems.append(file.problem((name, "facts", at), sentence))
    written = [shape.step] if shape.step else list(shape.sizes)
    values: list[tuple[str, float]] = []
    for at, text in enumerate(written):
        try:
            values.append((text, parse_quantity(text).si))
        except MeasureError as error:
            key = (name, "step") if shape.step else (name, "sizes", at)
            problems.append(file.problem(key, str(error)))
            return None
    if shape.step:
        return Sizes(name, (), values[0][1], citations)
    return Sizes(name, tuple(sorted(values, key=lambda pair: pair[1])), None, citations)
