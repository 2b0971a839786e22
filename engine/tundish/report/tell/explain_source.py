"""Explaining a source of the bibliography: what it is, and what stands on it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from tundish.report.page.line import GAP, Line, items, section
from tundish.report.tell.explain_fact import key_of
from tundish.rulebook.model.choices import SEVERITIES
from tundish.rulebook.model.source import Citation, Source
from tundish.rulebook.rulebook import Rulebook


def source_lines(source: Source, rulebook: Rulebook) -> Iterator[Line]:
    """Give what a source is, and the rules, quantities, tables and parts that cite it.

    Args:
        source: The source.
        rulebook: What cites it.
    """
    yield Line("heading", source.title)
    yield Line("under", f"source {source.name}")
    yield GAP
    yield Line("entry", source.basis, "basis")
    if source.edition:
        yield Line("entry", source.edition, "edition")
    rules = sorted(
        rulebook.rules.values(), key=lambda rule: (SEVERITIES.index(rule.severity), rule.name)
    )
    citing = [(rule, at) for rule in rules if (at := _places(source, rule.citations)) is not None]
    lines = (
        Line("finding", f"{rule.title}  ({rule.name}){at}", severity=rule.severity)
        for rule, at in citing
    )
    yield from section("rules that cite it", lines)
    for name, cited in _others(rulebook).items():
        texts = (label + at for label, by in cited if (at := _places(source, by)) is not None)
        yield from section(name, items(texts))


def _others(rulebook: Rulebook) -> dict[str, list[tuple[str, tuple[Citation, ...]]]]:
    """Return what cites sources beside rules, each with its citations, by the name of a section."""
    quantities, parts = rulebook.quantities.values(), rulebook.provisions.values()
    tables, sizes = rulebook.tables.values(), rulebook.sizes.items()
    return {
        "quantities that cite it": [
            (f"{quantity.label}  ({quantity.name})", quantity.citations) for quantity in quantities
        ],
        "tables that cite it": [
            (f"{linked.table.title}  ({linked.table.name})", linked.citations) for linked in tables
        ],
        "parts of the order list that cite it": [
            (f"{provision.part}  ({key_of(provision)})", provision.citations) for provision in parts
        ],
        "practical sizes that cite it": [(path, size.citations) for path, size in sizes],
    }


def _places(source: Source, citations: Iterable[Citation]) -> str | None:
    """Return where in the source something looks, and whether from memory; None if nowhere."""
    cited = [citation for citation in citations if citation.source == source]
    if not cited:
        return None
    places = ", ".join(citation.at for citation in cited if citation.at)
    memory = " [from memory]" if any(citation.recall for citation in cited) else ""
    return f"{': ' if places else ''}{places}{memory}"
