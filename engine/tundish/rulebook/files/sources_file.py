"""Reading sources.toml, and turning what rules cite into citations."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from tundish.rulebook.files.faults import Faults
from tundish.rulebook.files.file_shapes import CitationShape, SourceShape
from tundish.rulebook.files.pack import Pack
from tundish.rulebook.files.read_file import shapes_in
from tundish.rulebook.model.rule_file import RuleFile
from tundish.rulebook.model.source import Citation, Source
from tundish.text.nearest import did_you_mean
from tundish.text.place import Path


def read_sources(packs: Iterable[Pack], faults: Faults) -> dict[str, Source]:
    """Read the bibliographies of all packs.

    Args:
        packs: The packs, built-in first.
        faults: Gets what is wrong.

    Returns:
        Sources by the name that rules cite.
    """
    sources: dict[str, Source] = {}
    for pack in packs:
        if pack.sources is None:
            continue
        for name, shape in shapes_in(SourceShape, pack.sources, "source", faults, "source"):
            if name in sources:
                sentence = f"Another pack already has a source '{name}'."
                faults.append(pack.sources.problem((name,), sentence))
            else:
                sources[name] = Source(name, shape.title, shape.basis, shape.edition)
    return sources


def cited(
    shapes: Iterable[CitationShape],
    sources: Mapping[str, Source],
    file: RuleFile,
    at: Path,
    faults: Faults,
) -> tuple[Citation, ...]:
    """Turn what a file cites into citations.

    Args:
        shapes: The entries of its `cite`.
        sources: The bibliography.
        file: The file.
        at: Where in it the citing table stands.
        faults: Gets a problem for each source that is not in the bibliography.
    """
    citations = []
    for position, shape in enumerate(shapes):
        source = sources.get(shape.source)
        if source is None:
            if not faults.has_refused("source", shape.source):
                hint = did_you_mean(shape.source, list(sources))
                sentence = f"sources.toml has no source '{shape.source}'.{hint}"
                faults.append(file.problem((*at, "cite", position), sentence))
            continue
        citations.append(Citation(source, shape.at, shape.recall, shape.note))
    return tuple(citations)
