"""Looks: the characters that a page is drawn with."""

from __future__ import annotations

from dataclasses import dataclass

from tundish.assessment.finding import SEVERITIES
from tundish.rulebook.shapes import Severity


@dataclass(frozen=True, slots=True)
class Look:
    """The characters of a page.

    Attributes:
        step: A filled step of the gauge before a severity.
        no_step: An empty one.
        full: A filled part of a bar.
        blank: An empty one.
        limit: The mark of the limit in a bar.
        line: What the line after the name of a section is made of.
        bullet: What stands before an item of a list.
    """

    step: str
    no_step: str
    full: str
    blank: str
    limit: str
    line: str
    bullet: str

    def gauge(self, severity: Severity | None) -> str:
        """Return a gauge of four steps, the fuller the more serious; it needs no colour."""
        full = len(SEVERITIES) - SEVERITIES.index(severity) if severity else 0
        return self.step * full + self.no_step * (len(SEVERITIES) - full)


DRAWN = Look("■", "□", "━", "┄", "┃", "─", "•")
"""For terminals that know more than ASCII."""

TYPED = Look("#", ".", "=", ".", "|", "-", "-")
"""For all others, and for text that is sent on."""
