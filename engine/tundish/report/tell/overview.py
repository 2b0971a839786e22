"""The overview: how each of several jobs stands, a row a job, and what could not be read."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from tundish.findings.finding import Assessment
from tundish.report.page.line import GAP, Line
from tundish.report.tell.assessment import caution_lines
from tundish.report.tell.phrases import counted
from tundish.report.tell.summary import breached_worst_first, breaches, due_and_later
from tundish.survey.question import questions
from tundish.text.problem import Problem


def overview_lines(
    assessments: Sequence[Assessment], refused: Iterable[tuple[str, str]]
) -> Iterator[Line]:
    """Give a row for each job with its worst severity, then the cautions, each once.

    Args:
        assessments: The assessments, in the order the jobs were named.
        refused: Jobs that something is wrong with: the name of each, and what that is.
    """
    yield from (GAP, GAP, Line("section", "all jobs"))
    for assessment in assessments:
        breached = breached_worst_first(assessment)
        worst = breached[0].severity if breached else None
        yield Line("finding", _row(assessment), severity=worst)
    yield from (Line("item", f"{name}: {wrong}") for name, wrong in refused)
    cautions = (caution for assessment in assessments for caution in assessment.cautions)
    yield from caution_lines(dict.fromkeys(cautions))


def _row(assessment: Assessment) -> str:
    asked = len(questions(due_and_later(assessment)[0]))
    parts = [
        breaches(assessment) or "nothing known to be wrong",
        f"{counted(asked, 'question')} open now" if asked else "",
    ]
    # The file says which job is meant where two have the same title.
    names = dict.fromkeys(name for name in (assessment.job, assessment.file) if name)
    return f"{', '.join(names)}: {', '.join(part for part in parts if part)}"


def problem_lines(title: str, problems: Iterable[Problem]) -> Iterator[Line]:
    """Give a section with an item for each problem; nothing where there is none.

    Args:
        title: What is wrong, in a few words.
        problems: The problems.
    """
    for at, problem in enumerate(problems):
        if at == 0:
            yield from (GAP, Line("section", title))
        yield from _problem_lines(problem)


def _problem_lines(problem: Problem) -> Iterator[Line]:
    rows = problem.sentence.split("\n")
    text = " ".join(row.strip() for row in rows if not row.startswith(" "))
    yield Line("item", f"{problem.place}: {text}")
    # An expression and the caret below it stay as they are, or the caret would point elsewhere.
    shown = [row for row in rows if row.startswith(" ")]
    if shown:
        yield Line("code", "\n".join(shown))
