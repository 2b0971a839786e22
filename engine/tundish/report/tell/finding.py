"""What is said of one finding; console and plain text both say exactly this."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from tundish.findings.finding import Affected, Finding, Input, Remedy, Working
from tundish.report.page.line import Line, entries
from tundish.report.tell.citations import citation_lines
from tundish.report.tell.phrases import as_sentence, assumed_texts, counted, listed

if TYPE_CHECKING:
    from tundish.compare.compare import FindingChange

_MOST_CHANGES = 4
_MOST_NAMED = 2
_STOPPED = "not looked for to the end: over lists this long it would take too much"
_MOST_LINES = 6
"""Line numbers past which nobody looks them up one by one."""


def about(finding: Finding | FindingChange | Affected) -> str:
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
    lines += _ground(finding, full)
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
    return [*lines, *_ground(finding, True)] if full else lines


def undecided_lines(finding: Finding) -> list[Line]:
    """Return what is said where something other than a fact left out stands in the way."""
    return [
        Line("finding", _statement(finding), severity=finding.severity),
        Line("entry", finding.title, "asked"),
        *_ground(finding, False),
    ]


def _statement(finding: Finding) -> str:
    """Return what was found, and in which item; what was asked for is told after it."""
    statement = as_sentence(finding.statement)
    return f"{as_sentence(finding.item)}: {statement}" if finding.item else statement


def _ground(finding: Finding, full: bool) -> list[Line]:
    """Return what a finding rests on: all of it, or as few rows as one can check it from."""
    if full:
        lines = entries("figures", [_input(figure) for figure in finding.inputs])
        lines += [line for work in finding.workings for line in _working_lines(work)]
    else:
        lines = entries("worked out", _sums(finding))
        lines += entries("written in", _places(finding.inputs))
    lines += [
        *entries("assumed", assumed_texts(finding.assumed, full)),
        *citation_lines(finding.sources),
    ]
    return [*lines, Line("entry", finding.rule, "rule")]


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
    yield Line("entry", f"= {' '.join(work.formula.split())}")
    if work.numbers not in (work.formula, work.result):
        yield Line("entry", f"= {work.numbers}")
    yield Line("entry", f"= {work.result}")
    yield from citation_lines(work.sources, "")


def change_lines(finding: Finding) -> list[Line]:
    """Return a line for each change of one fact that mends a breach, the best first.

    Args:
        finding: The breach.
    """
    if finding.stopped and not finding.changes:
        return [Line("entry", _STOPPED, "in numbers")]
    if not finding.tried:
        return []
    if not finding.changes:
        named = listed(list(finding.tried))
        return [Line("entry", f"no change of {named} alone mends this", "in numbers")]
    texts = [_change_text(change) for change in finding.changes[:_MOST_CHANGES]]
    more = len(finding.changes) - len(texts)
    if more:
        texts.append(f"or one of {counted(more, 'other change')} of one fact")
    if finding.stopped:
        texts.append(_STOPPED)
    return entries("in numbers", texts)


def _change_text(change: Remedy) -> str:
    text = f"{change.label} from {change.now} to {change.then}"
    also = [
        f"also mends {_titles(change.mends)}" if change.mends else "",
        f"but breaches {_titles(change.breaks)}" if change.breaks else "",
        f"leaves {counted(len(change.opens), 'requirement')} to be decided anew"
        if change.opens
        else "",
    ]
    return "; ".join([text, *(effect for effect in also if effect)])


def _titles(affected: Sequence[Affected]) -> str:
    """Name a few by their titles, and count many."""
    titles = list(dict.fromkeys(requirement.title for requirement in affected))
    if len(titles) > _MOST_NAMED:
        return counted(len(affected), "other requirement")
    return listed([f'"{title}"' for title in titles])
