"""What is open of a job, as questions in the order they are asked."""

from __future__ import annotations

from collections.abc import Iterable

from tundish.findings.assess import assessment_of
from tundish.findings.finding import SEVERITIES, Assessment, Finding
from tundish.findings.judged_job import JudgedJob
from tundish.groundwork.dataclass import dataclass
from tundish.interview.order import Order, walking_key
from tundish.interview.question import Form, Question, form_of, group_words, item_words
from tundish.job.changes import value_at
from tundish.job.facts import Facts
from tundish.job.hints import written_path
from tundish.job.job import MORE, Job
from tundish.job.model.paths import outer_paths
from tundish.job.model.schema import Items, Record
from tundish.rulebook.evaluate.judge import Verdict
from tundish.rulebook.model.choices import Stage
from tundish.rulebook.model.declared_facts import kind_of
from tundish.rulebook.rulebook import Rulebook
from tundish.survey.survey import inquiries


@dataclass(frozen=True, slots=True)
class JobStatus:
    """How a job stands.

    Attributes:
        job: The job.
        facts: Its facts, stage and region as they are asked for.
        judged: What the rules say of it, a row each.
        assessment: What is breached and what is undecided, explained.
        waiting: The findings that wait for each place where an answer would be written, those
            places first that are asked for first.
        limits: What is known at each place of the limit that an answer is held against.
    """

    job: Job
    facts: Facts
    judged: JudgedJob
    assessment: Assessment
    waiting: dict[str, tuple[Finding, ...]]
    limits: dict[str, tuple[str, ...]]


def status_of(
    job: Job, rulebook: Rulebook, stage: Stage | None, region: str | None, order: Order | None
) -> JobStatus:
    """Judge a job and find out what is open.

    Args:
        job: The job.
        rulebook: The rules.
        stage: The stage to judge at, in place of the job's own.
        region: The region to judge for, in place of the job's own.
        order: The order of facts; None for what decides the most first.
    """
    judged = JudgedJob(job, rulebook, stage=stage, region=region)
    assessment = assessment_of(judged, (Verdict.BREACHED, Verdict.UNDECIDED))
    facts = judged.facts
    waiting: dict[str, dict[tuple[str, str], Finding]] = {}
    limits: dict[str, dict[str, None]] = {}
    for inquiry in inquiries(assessment, rulebook):
        for fact in inquiry.facts:
            place = asked_place(fact.path, facts, rulebook)
            waiting.setdefault(place, {})
            limits.setdefault(place, {}).update({fact.limit: None} if fact.limit else {})
            for finding in inquiry.findings:
                if fact in finding.open:
                    waiting[place][finding.rule, finding.item] = finding
    places = list(waiting)
    if order is not None:
        places.sort(key=lambda place: walking_key(place, order))
    return JobStatus(
        job,
        facts,
        judged,
        assessment,
        {place: _worst_first(waiting[place].values()) for place in places},
        {place: tuple(texts) for place, texts in limits.items()},
    )


def asked_place(path: str, facts: Facts, rulebook: Rulebook) -> str:
    """Return what is asked for where a fact is open.

    It is the place where a file has the fact; or the outermost group or list around it of which
    nobody knows yet whether it is there.

    Args:
        path: The path of the fact, positions counted from 1.
        facts: What is known.
        rulebook: Knows what is at a path.
    """
    if path.startswith(f"{MORE}."):
        return path
    for outer in outer_paths(path):
        entry = None if outer.endswith("]") else rulebook.asked(outer)
        may_be_absent = isinstance(entry, Items) or (
            isinstance(entry, Record) and entry.can_be_absent
        )
        if may_be_absent and value_at(facts, outer) is None:
            return outer
    return written_path(path)


def question_at(
    place: str,
    status: JobStatus,
    rulebook: Rulebook,
    file: str,
    form: Form | None = None,
) -> Question:
    """Return the question for a place.

    Args:
        place: Where the answer is written.
        status: How the job stands.
        rulebook: The rules.
        file: The file that the answer is written into.
        form: What is asked for, where the place alone does not say so.
    """
    asked = rulebook.asked(place)
    assert asked is not None, place
    kind = kind_of(place, rulebook.declared)
    return Question(
        form=form or form_of(asked, kind, is_begun=f"{place}[1]" in status.facts.names),
        path=place,
        asked=asked,
        item=item_words(place, status.facts, rulebook),
        group=group_words(place, rulebook),
        kind=kind,
        limits=status.limits.get(place, ()),
        findings=status.waiting.get(place, ()),
        file=file,
    )


def _worst_first(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    return tuple(sorted(findings, key=lambda finding: SEVERITIES.index(finding.severity)))
