"""What is said of one finding; console and plain text both say exactly this."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.assessment.finding import Finding, Input, Working
from tundish.report.citation_lines import citation_lines
from tundish.report.line import Line, entries
from tundish.report.words import as_sentence


def about(finding: Finding) -> str:
    """Return what is required, and of which item."""
    return f"{finding.title}: {finding.item}" if finding.item else finding.title


def breached_lines(finding: Finding) -> list[Line]:
    """Return all that is said of a breach: what, how far, why, what mends it, on what ground."""
    lines = [
        Line("finding", about(finding), severity=finding.severity),
        Line("statement", as_sentence(finding.statement)),
    ]
    if finding.margin is not None:
        lines.append(Line("bar", severity=finding.severity, margin=finding.margin))
    lines.append(Line("entry", finding.because, "why"))
    lines.append(Line("entry", finding.remedy, "to mend"))
    lines += _ground(finding)
    if not finding.due:
        lines.append(Line("entry", f"this need not be settled before {finding.stage}", "when"))
    return lines


def short_lines(finding: Finding, full: bool = False) -> list[Line]:
    """Return what is said of a requirement that needs nothing done.

    Args:
        finding: The finding.
        full: Whether to say what it rests on too.
    """
    lines = [
        Line("item", f"{about(finding)}. {as_sentence(finding.statement)}".removesuffix(". ")),
    ]
    if full and finding.margin is not None:
        lines.append(Line("bar", margin=finding.margin))
    return [*lines, *_ground(finding)] if full else lines


def undecided_lines(finding: Finding) -> list[Line]:
    """Return what is said where something other than a fact left out stands in the way."""
    return [
        Line("finding", about(finding), severity=finding.severity),
        Line("statement", as_sentence(finding.statement)),
        *_ground(finding),
    ]


def _ground(finding: Finding) -> list[Line]:
    """Return what a finding rests on."""
    return [
        *entries("figures", [_input(one) for one in finding.inputs]),
        *(line for work in finding.workings for line in _working_lines(work)),
        *entries(
            "assumed", [f"{label}: not known, a fallback was used" for label in finding.assumed]
        ),
        *citation_lines(finding.sources),
        Line("entry", finding.rule, "rule"),
    ]


def _input(one: Input) -> str:
    return f"{one.label} {one.value}  ({one.place or one.path})"


def _working_lines(work: Working) -> Iterator[Line]:
    """Give a formula, the numbers put in and the result, each on a row of its own."""
    yield Line("entry", f"{work.label}: {work.name}", "worked out")
    yield Line("entry", f"= {_on_one_line(work.formula)}")
    if work.numbers not in (work.formula, work.result):
        yield Line("entry", f"= {work.numbers}")
    yield Line("entry", f"= {work.result}")
    yield from citation_lines(work.sources, "")


def _on_one_line(formula: str) -> str:
    return " ".join(formula.split())
