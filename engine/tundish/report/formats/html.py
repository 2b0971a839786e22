"""A page in HTML: one file that needs nothing else, for a screen, a phone and paper."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from tundish.report.formats.checked import Checked, chapters_of_checked, title_of
from tundish.report.formats.html_blocks import escaped, section_rows
from tundish.report.formats.html_style import STYLE
from tundish.report.page.blocks import Chapter

_NOTHING_ELSE = "default-src 'none'; style-src 'unsafe-inline'"
"""What a browser is told: to load nothing and run nothing, whatever stands in the page."""


def as_html(checked: Checked) -> str:
    """Return all that was checked as one HTML document.

    Args:
        checked: What was checked.

    Returns:
        A whole document that ends with a line break; it holds its style and no script. It is
        ASCII alone, other characters as references, so that no encoding on the way can spoil it.
    """
    text = "".join(f"{row}\n" for row in _rows(checked))
    return text.encode("ascii", "xmlcharrefreplace").decode("ascii")


def _rows(checked: Checked) -> Iterator[str]:
    title, chapters = title_of(checked), chapters_of_checked(checked)
    yield from ("<!doctype html>", '<html lang="en">', "<head>", '<meta charset="utf-8">')
    yield f'<meta http-equiv="Content-Security-Policy" content="{_NOTHING_ELSE}">'
    yield '<meta name="viewport" content="width=device-width, initial-scale=1">'
    yield f"<title>{escaped(title)}</title>"
    yield f"<style>{STYLE}</style>"
    yield from ("</head>", "<body>")
    alone = bool(checked.assessments) and not checked.several
    if not alone:
        yield f'<header><h1 class="title">{escaped(title)}</h1></header>'
        yield from _contents(chapters)
    yield "<main>"
    for at, chapter in enumerate(chapters):
        yield from _chapter(chapter, at, 1 if alone else 2)
    yield from ("</main>", "</body>", "</html>")


def _contents(chapters: Sequence[Chapter]) -> Iterator[str]:
    """Give links to the jobs of the page."""
    jobs = [(at, chapter.heading) for at, chapter in enumerate(chapters) if chapter.heading]
    if jobs:
        yield '<nav aria-label="Jobs"><ul>'
        yield from (f'<li><a href="#part-{at}">{escaped(name)}</a></li>' for at, name in jobs)
        yield "</ul></nav>"


def _chapter(chapter: Chapter, at: int, level: int) -> Iterator[str]:
    if not chapter.heading:
        for section in chapter.sections:
            yield from section_rows(section, 2)
        return
    yield f'<section class="job" id="part-{at}">'
    yield f'<header><h{level} class="title">{escaped(chapter.heading)}</h{level}>'
    yield f'<p class="under">{escaped(chapter.under)}</p></header>'
    for section in chapter.sections:
        yield from section_rows(section, level + 1)
    yield "</section>"
