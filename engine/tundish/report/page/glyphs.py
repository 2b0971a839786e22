"""Looks: the characters that a page is drawn with."""

from __future__ import annotations

from collections.abc import Mapping

from tundish.findings.finding import SEVERITIES
from tundish.groundwork.dataclass import dataclass
from tundish.rulebook.model.choices import Severity


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
        frame: The outline of the unit in a plan: across, down, corners from top left clockwise.
        wall: What a wall in a plan is made of.
        zone: What the outline of a zone is made of.
        blows: The mark of the side that air leaves from.
        away: For each side, the mark of a place that lies farther out than is drawn.
    """

    step: str
    no_step: str
    full: str
    blank: str
    limit: str
    line: str
    bullet: str
    frame: str
    wall: str
    zone: str
    blows: str
    away: Mapping[str, str]

    def gauge(self, severity: Severity | None) -> str:
        """Return a gauge of four steps, the fuller the more serious; it needs no colour."""
        full = len(SEVERITIES) - SEVERITIES.index(severity) if severity else 0
        return self.step * full + self.no_step * (len(SEVERITIES) - full)


def _arrows(four: str) -> dict[str, str]:
    return dict(zip(("back", "front", "left", "right"), four, strict=True))


DRAWN = Look("■", "□", "━", "┄", "┃", "─", "•", "─│┌┐┘└", "█", "·", "▼", _arrows("↑↓←→"))
"""For terminals that know more than ASCII."""

TYPED = Look("#", ".", "=", ".", "|", "-", "-", "-|++++", "#", ".", "v", _arrows("^v<>"))
"""For all others, and for text that is sent on."""
