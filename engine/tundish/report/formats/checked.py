"""All that a check of jobs came to, for the forms that are one document."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator
from itertools import chain, starmap

from tundish.findings.finding import Assessment
from tundish.groundwork.dataclass import dataclass
from tundish.report.page.blocks import Chapter, chapters_of
from tundish.report.page.line import Line
from tundish.report.tell.assessment import SectionName, Show, assessment_lines
from tundish.report.tell.overview import overview_lines, problem_lines
from tundish.report.tell.phrases import counted
from tundish.text.problem import Problem


@dataclass(frozen=True, slots=True)
class Refusal:
    """What could not be read, or a job whose facts contradict each other.

    Attributes:
        name: What it is called.
        problems: Why.
        is_job: Whether it is a job, and not a folder in which none was found.
        is_judged: Whether it is judged all the same, those facts left aside.
    """

    name: str
    problems: tuple[Problem, ...]
    is_job: bool = True
    is_judged: bool = False

    @property
    def sort(self) -> str:
        """Say in a few words what is wrong."""
        return "facts contradict each other" if self.is_judged else "could not be read"


@dataclass(frozen=True, slots=True)
class Checked:
    """Assessments, and what is to be told of them.

    Attributes:
        assessments: The assessments, in the order the jobs were named.
        refusals: What could not be read, and jobs whose facts contradict each other.
        several: Whether several jobs were asked for, even if one alone was there.
        show: What to tell.
        workings: Whether to tell every figure and formula behind a breach.
        sections: Further sections to tell.
    """

    assessments: tuple[Assessment, ...]
    refusals: tuple[Refusal, ...] = ()
    several: bool = False
    show: Show = "usual"
    workings: bool = False
    sections: Collection[SectionName] = ()

    @property
    def problems(self) -> tuple[Problem, ...]:
        """Return what is wrong with all that could not be read, or contradicts itself."""
        return tuple(problem for refusal in self.refusals for problem in refusal.problems)


def refused_jobs(refusals: Iterable[Refusal]) -> list[tuple[str, str]]:
    """Return the jobs that something is wrong with, each with what that is in a few words."""
    return [(refusal.name, refusal.sort) for refusal in refusals if refusal.is_job]


def title_of(checked: Checked) -> str:
    """Return what a document of all that was checked is called."""
    jobs = [assessment.job or assessment.file for assessment in checked.assessments]
    names = [*jobs, *(refusal.name for refusal in checked.refusals if not refusal.is_judged)]
    if checked.several or len(names) != 1:
        number = len(checked.assessments)
        return f"{counted(number, 'job').capitalize()} checked"
    return names[0] or "A job without a title"


def chapters_of_checked(checked: Checked) -> list[Chapter]:
    """Return what a document says, a chapter for each job.

    Of several jobs the overview comes first, as a reader of many pages looks for it there; the
    cautions come last, once.

    Args:
        checked: What was checked.
    """
    jobs = [
        chapter
        for assessment in checked.assessments
        for chapter in chapters_of(_lines(checked, assessment))
    ]
    wrong: dict[str, list[Problem]] = {}
    for refusal in checked.refusals:
        wrong.setdefault(refusal.sort, []).extend(refusal.problems)
    unread = chapters_of(chain.from_iterable(starmap(problem_lines, wrong.items())))
    if not checked.several:
        return [*unread, *jobs]
    (overview,) = chapters_of(overview_lines(checked.assessments, refused_jobs(checked.refusals)))
    first, *last = overview.sections
    return [Chapter(sections=[first]), *unread, *jobs, *([Chapter(sections=last)] if last else [])]


def _lines(checked: Checked, assessment: Assessment) -> Iterator[Line]:
    return assessment_lines(
        assessment,
        checked.show,
        cautions=not checked.several,
        workings=checked.workings,
        sections=checked.sections,
    )
