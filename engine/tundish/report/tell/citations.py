"""What is said of sources: every one with its place, its basis and whether it is from memory."""

from __future__ import annotations

from collections.abc import Iterable

from tundish.report.page.line import Line
from tundish.rulebook.model.source import Citation


def citation_lines(citations: Iterable[Citation], label: str = "source") -> list[Line]:
    """Return a line for each source, once, the first with the label.

    Args:
        citations: The sources with the places in them.
        label: The word before the first.
    """
    return [
        Line("recalled" if citation.recall else "source", text, label if at == 0 else "")
        for at, (text, citation) in enumerate(
            {_text(citation): citation for citation in citations}.items()
        )
    ]


def _text(citation: Citation) -> str:
    basis = citation.source.basis
    # The title of common practice says it all; repeated, it would look like a source.
    return str(citation) if basis in str(citation.source).lower() else f"{basis}: {citation}"
