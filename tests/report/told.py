"""Whether a page says what its lines say."""

from __future__ import annotations

from collections.abc import Iterator

from report.made import everything
from tundish.findings.finding import Assessment
from tundish.report.formats.checked import Checked
from tundish.report.page.bar import bar
from tundish.report.tell.assessment import assessment_lines
from tundish.text.escape import escape


def one(assessment: Assessment | None = None) -> Checked:
    """Return one assessment with all there is to say of it."""
    return Checked((assessment or everything(),), show="all", workings=True, sections=("margins",))


def said_by_lines(checked: Checked) -> Iterator[str]:
    """Give every text that the console says of the assessments."""
    for assessment in checked.assessments:
        for line in assessment_lines(
            assessment, checked.show, workings=checked.workings, sections=checked.sections
        ):
            text = line.text[1:] if line.role == "section" else line.text  # its first is a capital
            yield from (words(text), words(line.label))
            if line.severity and line.role == "finding":
                yield line.severity.upper()
            if line.margin:
                drawn = bar(line.margin, 30)
                yield from (words(line.margin.value), words(line.margin.limit))
                yield drawn.words if drawn else ""


def words(text: str) -> str:
    """Return text as a reader sees it, however many spaces stand between its words."""
    return " ".join(escape(text).split())
