"""What is said of margins: the requirements that are met or missed by the least."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.findings.finding import Assessment, Finding
from tundish.report.page.line import GAP, Line, apart, section
from tundish.report.tell.finding import about
from tundish.report.tell.phrases import as_sentence, counted
from tundish.rulebook.evaluate.judge import Verdict

_MOST = 10


def margin_lines(assessment: Assessment) -> Iterator[Line]:
    """Give the section on margins: the tightest, and all that a tolerance leaves in doubt.

    Args:
        assessment: The findings.
    """
    yield from (GAP, Line("section", "margins"))
    tight = tightest(assessment)
    if tight:
        yield Line("words", f"Nearest to their limits: {counted(len(tight), 'requirement')}.")
    else:
        yield Line("words", "No requirement that was decided stands near a limit.")
    for finding in tight:
        yield GAP
        yield Line("finding", about(finding), severity=finding.severity)
        yield Line("bar", severity=finding.severity, margin=finding.margin)
        yield Line("entry", as_sentence(finding.statement), str(finding.verdict))
        if finding.doubtful:
            yield Line("entry", finding.doubtful, "in doubt")
        yield Line("entry", finding.rule, "rule")
    exact = sum(share == 0 for share, _ in _shares(assessment))
    if exact:
        yield GAP
        yield Line("words", f"Exactly at their limits, as sizes chosen to fit are: {exact} more.")


def doubt_lines(assessment: Assessment) -> Iterator[Line]:
    """Give what is in order, but might not be within the tolerances that the job states."""
    doubtful = [
        finding
        for finding in assessment.findings
        if finding.doubtful and finding.verdict is Verdict.MET
    ]
    return section("in order, but in doubt", apart(map(_doubt, doubtful)))


def _doubt(finding: Finding) -> Iterator[Line]:
    yield Line("finding", about(finding), severity=finding.severity)
    yield Line("entry", as_sentence(finding.statement), "found")
    yield Line("entry", finding.doubtful, "in doubt")
    yield Line("entry", finding.rule, "rule")


def tightest(assessment: Assessment, number: int = _MOST) -> list[Finding]:
    """Return the decided findings whose figures are nearest to their limits, nearest first.

    Those exactly at a limit are sizes chosen to fit, and left out.

    Args:
        assessment: The findings.
        number: How many at most.
    """
    apart = [pair for pair in _shares(assessment) if pair[0] != 0]
    return [finding for _, finding in sorted(apart, key=lambda pair: pair[0])[:number]]


def _shares(assessment: Assessment) -> list[tuple[float, Finding]]:
    decided = (Verdict.BREACHED, Verdict.WAIVED, Verdict.MET)
    return [
        (abs(finding.margin.share), finding)
        for verdict in decided
        for finding in assessment.of(verdict)
        if finding.margin and finding.margin.share is not None
    ]
