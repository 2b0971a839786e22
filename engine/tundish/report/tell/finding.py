"""What is said of one finding; console and plain text both say exactly this."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.findings.finding import Finding, Input, Working
from tundish.report.page.line import Line, entries
from tundish.report.tell.changes import change_lines
from tundish.report.tell.citations import citation_lines
from tundish.report.tell.phrases import as_sentence, listed

_MOST_LINES = 6
"""Line numbers past which nobody looks them up one by one."""


def about(finding: Finding) -> str:
    """Return what is required, and of which item."""
    return f"{finding.title}: {finding.item}" if finding.item else finding.title


def breached_lines(finding: Finding, full: bool = False) -> list[Line]:
    """Return all that is said of a breach: what, how far, why, what mends it, on what ground.

    Args:
        finding: The finding.
        full: Whether to tell every figure and working, and not only what a repair needs.
    """
    lines = [Line("finding", _statement(finding), severity=finding.severity)]
    if finding.margin is not None:
        lines.append(Line("bar", severity=finding.severity, margin=finding.margin))
    lines.append(Line("entry", finding.title, "asked"))
    lines.append(Line("entry", finding.because, "why"))
    lines.append(Line("entry", finding.remedy, "to mend"))
    lines += change_lines(finding)
    lines += _ground(finding) if full else _short_ground(finding)
    if finding.waiver:
        lines.append(Line("entry", finding.waiver, "waiver"))
    if not finding.due:
        lines.append(Line("entry", f"this need not be settled before {finding.stage}", "when"))
    return lines


def short_lines(finding: Finding, full: bool = False) -> list[Line]:
    """Return what is said of a requirement that needs nothing done.

    Args:
        finding: The finding.
        full: Whether to say what it rests on too.
    """
    text = f"{about(finding)}. {as_sentence(finding.waiver or finding.statement)}"
    lines = [Line("item", text.removesuffix(". "))]
    if full and finding.margin is not None:
        lines.append(Line("bar", margin=finding.margin))
    return [*lines, *_ground(finding)] if full else lines


def undecided_lines(finding: Finding, full: bool = False) -> list[Line]:
    """Return what is said where something other than a fact left out stands in the way."""
    return [
        Line("finding", _statement(finding), severity=finding.severity),
        Line("entry", finding.title, "asked"),
        *(_ground(finding) if full else _short_ground(finding)),
    ]


def _statement(finding: Finding) -> str:
    """Return what was found, and in which item; what was asked for is told after it."""
    statement = as_sentence(finding.statement)
    return f"{as_sentence(finding.item)}: {statement}" if finding.item else statement


def _ground(finding: Finding) -> list[Line]:
    """Return all that a finding rests on."""
    return [
        *entries("figures", [_input(figure) for figure in finding.inputs]),
        *(line for work in finding.workings for line in _working_lines(work)),
        *_assumed(finding),
        *citation_lines(finding.sources),
        Line("entry", finding.rule, "rule"),
    ]


def _short_ground(finding: Finding) -> list[Line]:
    """Return what a finding rests on, in as few rows as one can check it from."""
    return [
        *entries("worked out", _sums(finding)),
        *entries("written in", _places(finding.inputs)),
        *_assumed(finding),
        *citation_lines(finding.sources),
        Line("entry", finding.rule, "rule"),
    ]


def _assumed(finding: Finding) -> list[Line]:
    texts = [f"{label}: not known, a fallback was used" for label in finding.assumed]
    return entries("assumed", texts)


def _sums(finding: Finding) -> list[str]:
    """Return the sums behind the two sides of the comparison that decided."""
    if finding.margin is None:
        return []
    sides = (finding.margin.value, finding.margin.limit)
    return [
        f"{work.label} = {work.numbers} = {work.result}"
        for work in finding.workings
        if work.result in sides and work.numbers != work.result
    ]


def _places(inputs: tuple[Input, ...]) -> list[str]:
    """Return where the figures stand, one file a row."""
    lines: dict[str, list[int]] = {}
    for figure in inputs:
        file, _, line = figure.place.rpartition(":")
        if file:
            lines.setdefault(file, []).append(int(line))
    return [f"{file}, {_numbered(sorted(set(numbers)))}" for file, numbers in lines.items()]


def _numbered(lines: list[int]) -> str:
    if len(lines) > _MOST_LINES:
        return f"{len(lines)} lines from {lines[0]} to {lines[-1]}"
    return f"{'line' if len(lines) == 1 else 'lines'} {listed([str(line) for line in lines])}"


def _input(figure: Input) -> str:
    return f"{figure.label} {figure.value}  ({figure.place or figure.path})"


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
