"""Assessing: one job judged by every rule, and what came out put into findings."""

from __future__ import annotations

import hashlib
from collections.abc import Collection, Iterator
from dataclasses import replace
from functools import cache

from tundish.findings.cautions import CAUTIONS
from tundish.findings.figures import figures_of
from tundish.findings.finding import Assessment, Finding
from tundish.findings.judged_job import JudgedJob
from tundish.findings.siting import siting_of
from tundish.job.facts import Facts
from tundish.job.job import Job
from tundish.job.named_file import FILES
from tundish.job.sides import SIDES
from tundish.rulebook.evaluate.contradictions import Contradicted
from tundish.rulebook.evaluate.judge import Verdict
from tundish.rulebook.model.choices import Stage
from tundish.rulebook.rulebook import Rulebook
from tundish.text.bundled_folders import installed_version


def assess(
    job: Job,
    rulebook: Rulebook | None = None,
    *,
    stage: Stage | None = None,
    region: str | None = None,
    verdicts: Collection[Verdict] = tuple(Verdict),
    changes: bool = False,
    grounds: bool = True,
    aside: Contradicted | None = None,
) -> Assessment:
    """Judge a job by a rulebook, and explain what came out.

    Args:
        job: The job; nothing in it is changed.
        rulebook: The rules; the built-in ones where none is given.
        stage: The stage to judge at, in place of the job's own.
        region: The ISO 3166 code of the region to judge for, in place of the job's own.
        verdicts: Which verdicts are explained; fewer take less time.
        changes: Whether to look for changes that mend what is breached, which takes longest.
        grounds: Whether a finding that waits for facts says what it rests on too, or only those
            facts, which takes less time.
        aside: What was raised when the job was assessed before: the facts that contradict each
            other are taken as not known, and the assessment tells them.

    Returns:
        The findings, worst first.

    Raises:
        ValueError: If there is no such stage.
        Contradicted: If facts of the job cannot be so together; catch it for `aside`.
        Refused: If the job waives a rule that is not there, a tolerance names no figure, or the
            region is no ISO 3166 code.

    Example:
        >>> job = Job.from_data({"job.stage": "design", "site.snow_depth": "120 mm"})
        >>> assess(job).stage
        'design'
    """
    without = () if aside is None else aside.paths
    judged = JudgedJob(job, rulebook, stage=stage, region=region, without=without)
    assessment = assessment_of(judged, verdicts, changes, grounds)
    return assessment if aside is None else replace(assessment, contradictions=aside.problems)


def assessment_of(
    judged: JudgedJob,
    verdicts: Collection[Verdict],
    changes: bool = False,
    grounds: bool = True,
) -> Assessment:
    """Return the assessment of a job that is judged already.

    Args:
        judged: The job.
        verdicts: Which verdicts are explained.
        changes: Whether to look for changes that mend what is breached.
        grounds: Whether a finding that waits for facts says what it rests on too.
    """
    job, facts, rulebook = judged.job, judged.facts, judged.rulebook
    findings = tuple(
        judged.explain(row)
        if grounds or row.verdict is not Verdict.UNDECIDED
        else judged.waiting(row)
        for row in judged.judgements
        if row.verdict in verdicts or judged.is_doubtful(row)
    )
    figures = figures_of(facts, rulebook, rulebook.session(facts.values))
    return Assessment(
        job=job.title or "",
        file=job.source.files[0].name if job.source else "",
        stage=judged.stage,
        region=str(facts.values.get("job.region", "")),
        date=job.date,
        figures=figures,
        siting=siting_of(facts, figures),
        findings=_with_changes(findings, facts, rulebook) if changes else findings,
        job_digest=digest_of(facts),
        rulebook_digest=rulebook.digest,
        version=program_version(),
        cautions=CAUTIONS,
        judgements=judged.judgements,
        unverified=rulebook.unverified_rules,
        silent=tuple(_silent(rulebook, str(facts.values.get("job.region", "")))),
    )


def _silent(rulebook: Rulebook, region: str) -> Iterator[str]:
    """Say which rules of packs are not asked, as a rule of the country stands in their place.

    Who replaced an international rule may expect that its own is asked in every country.
    """
    for rule in rulebook.replaced_and_overridden:
        for override in rule.overridden:
            if override.region == region:
                other = f"'{override.other}' is asked instead"
                instead = other if override.other else "it is out of use there"
                yield f"'{rule.name}' of your pack is not asked in {region}: {instead}."


def _with_changes(
    findings: tuple[Finding, ...], facts: Facts, rulebook: Rulebook
) -> tuple[Finding, ...]:
    if not any(finding.verdict is Verdict.BREACHED for finding in findings):
        return findings
    # Loaded here, as a job without breaches needs no changes.
    from tundish.findings.remedies import Mender
    from tundish.findings.trials import Trials

    mender = Mender(facts, rulebook, Trials(rulebook))
    return tuple(
        mender.mended(finding) if finding.verdict is Verdict.BREACHED else finding
        for finding in findings
    )


_NOT_STATED = (*FILES, SIDES)
"""What stands among the facts of a job although the job states nothing with it."""


def digest_of(facts: Facts) -> str:
    """Return SHA-256 over a job's facts in SI units.

    It is the same in whatever units they were written, and in whichever files they stand.
    """
    import json  # here, as many commands show no digest

    values = {path: value for path, value in facts.values.items() if path not in _NOT_STATED}
    text = json.dumps(values, sort_keys=True, ensure_ascii=True)
    return hashlib.sha256(text.encode()).hexdigest()


@cache
def program_version() -> str:
    """Return the version of the installed program, or "unknown" in a bare work tree."""
    return installed_version() or "unknown"
