"""Reading sources.toml, and turning what rules cite into citations."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from tundish.reading.nearest import did_you_mean
from tundish.reading.place import Path
from tundish.reading.problem import Problem
from tundish.rulebook.file_shapes import CitationShape, SourceShape
from tundish.rulebook.pack import Pack
from tundish.rulebook.reading import read_shape
from tundish.rulebook.rule_source import RuleSource
from tundish.rulebook.source import Citation, Source


def read_sources(packs: Iterable[Pack], problems: list[Problem]) -> dict[str, Source]:
    """Read the bibliographies of all packs.

    Args:
        packs: The packs, built-in first.
        problems: Gets what is wrong.

    Returns:
        Sources by the name that rules cite.
    """
    sources: dict[str, Source] = {}
    for pack in packs:
        if pack.sources is None:
            continue
        for name, data in pack.sources.file.data.items():
            if not isinstance(data, dict):
                problems.append(pack.sources.problem((name,), f"'{name}' is no table of a source."))
                continue
            shape, wrong = read_shape(SourceShape, data, pack.sources, (name,), "source")
            problems.extend(wrong)
            if name in sources:
                problems.append(
                    pack.sources.problem((name,), f"Another pack already has a source '{name}'.")
                )
            elif shape is not None:
                sources[name] = Source(name, shape.title, shape.basis, shape.edition)
    return sources


def cited(
    shapes: Iterable[CitationShape],
    sources: Mapping[str, Source],
    file: RuleSource,
    at: Path,
    problems: list[Problem],
) -> tuple[Citation, ...]:
    """Turn what a file cites into citations.

    Args:
        shapes: The entries of its `cite`.
        sources: The bibliography.
        file: The file.
        at: Where in it the citing table stands.
        problems: Gets a problem for each source that is not in the bibliography.
    """
    citations = []
    for position, shape in enumerate(shapes):
        source = sources.get(shape.source)
        if source is None:
            hint = did_you_mean(shape.source, list(sources))
            problems.append(
                file.problem(
                    (*at, "cite", position),
                    f"sources.toml has no source '{shape.source}'.{hint}",
                )
            )
            continue
        citations.append(Citation(source, shape.at, shape.recall, shape.note))
    return tuple(citations)
