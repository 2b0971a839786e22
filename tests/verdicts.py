"""What rules say of a job, without the explanations that an assessment takes its time for."""

from __future__ import annotations

from collections.abc import Mapping

from tundish import Job, Rulebook, Verdict
from tundish.findings.judged_job import JudgedJob


def verdicts(
    job: Job | Mapping[str, object], rulebook: Rulebook | None = None, region: str | None = None
) -> dict[tuple[str, str], Verdict]:
    """Return the verdicts by rule and item.

    Args:
        job: The job, or its facts.
        rulebook: The rules; the built-in ones where none is given.
        region: The region to judge for, in place of the job's own.
    """
    job = job if isinstance(job, Job) else Job.from_data(dict(job))
    judged = JudgedJob(job, rulebook, region=region).judgements
    by_row = {(one.rule, one.item): one.verdict for one in judged}
    assert len(by_row) == len(judged), "two items of one name"
    return by_row


def verdicts_by_rule(
    values: Mapping[str, object], rulebook: Rulebook | None = None
) -> dict[str, Verdict | tuple[Verdict, ...]]:
    """Return the verdicts of every rule, by its name, a tuple where it is asked of each item.

    Args:
        values: The facts of a job, as `Rulebook.facts` gives them.
        rulebook: The rules; the built-in ones where none is given.
    """
    evaluator = (rulebook or Rulebook.built_in()).evaluator
    return dict(zip(evaluator.names, evaluator.verdicts(values), strict=True))


def verdicts_of(
    rule: str, job: Job | Mapping[str, object], rulebook: Rulebook | None = None
) -> list[Verdict]:
    """Return the verdicts of one rule, one for each of its items."""
    return [found for (name, _), found in verdicts(job, rulebook).items() if name == rule]


def verdict_of(
    rule: str, job: Job | Mapping[str, object], rulebook: Rulebook | None = None
) -> Verdict:
    """Return the verdict of a rule that makes one finding."""
    (verdict,) = verdicts_of(rule, job, rulebook)
    return verdict
