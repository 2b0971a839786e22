"""Assessing: one job judged by every rule, and what came out put into findings."""

from __future__ import annotations

import hashlib
from collections.abc import Mapping
from functools import cache
from typing import Any

from tundish.findings.build_findings import VERDICTS, judged_worst_first
from tundish.findings.cautions import CAUTIONS
from tundish.findings.deferred import promised
from tundish.findings.figures import figures_of
from tundish.findings.finding import STAGES, Assessment
from tundish.findings.finding_builder import FindingWriter
from tundish.findings.siting import siting_of
from tundish.findings.tolerances import doubted
from tundish.findings.waivers import waived
from tundish.job.facts import Facts
from tundish.job.job import Job
from tundish.job.named_file import FILES
from tundish.job.parts.heading import Heading
from tundish.job.sides import SIDES
from tundish.rulebook.model.choices import Stage
from tundish.rulebook.rulebook import Rulebook
from tundish.text.bundled_folders import installed_version


def assess(
    job: Job,
    rulebook: Rulebook | None = None,
    *,
    stage: Stage | None = None,
    region: str | None = None,
) -> Assessment:
    """Judge a job by a rulebook.

    Args:
        job: The job; nothing in it is changed.
        rulebook: The rules; the built-in ones where none is given.
        stage: The stage to judge at, in place of the job's own.
        region: The ISO 3166 code of the region to judge for, in place of the job's own.

    Returns:
        Every finding, worst first.

    Raises:
        ValueError: If there is no such stage.
        Refused: If the job waives a rule that is not there, or the region is no ISO 3166 code.

    Example:
        >>> job = Job.from_data({"job.stage": "design", "site.snow_depth": "120 mm"})
        >>> assess(job).stage
        'design'
    """
    rules = rulebook or Rulebook.built_in()
    facts = assessed_facts(job, rules, stage, region)
    stage_now = str(facts.values.get("job.stage") or "")
    writer = FindingWriter(facts, rules, stage_now, job)
    judged = judged_worst_first(facts, rules, stage_now, writer)
    findings = waived(doubted(judged, job, facts, rules), job, rules) if judged else judged
    if job.waiver:
        findings = sorted(findings, key=lambda finding: VERDICTS.index(finding.verdict))
    return promised(
        Assessment,
        _supply,
        job,
        facts,
        rules,
        stage=stage_now,
        region=str(facts.values.get("job.region", "")),
        findings=tuple(findings),
    )


def _supply(name: str, job: Job, facts: Facts, rulebook: Rulebook) -> Mapping[str, Any]:
    """Supply what an assessment tells besides its findings."""
    match name:
        case "figures" | "siting":
            figures = figures_of(facts, rulebook, rulebook.session(facts.values))
            return {"figures": figures, "siting": siting_of(facts, figures)}
        case "job_digest":
            return {"job_digest": digest_of(facts)}
        case _:
            return {
                "job": job.title or "",
                "file": job.source.files[0].name if job.source else "",
                "date": job.date,
                "rulebook_digest": rulebook.digest,
                "version": program_version(),
                "cautions": CAUTIONS,
            }


_NOT_STATED = (*FILES, SIDES)
"""What stands among the facts of a job although the job states nothing with it."""


def digest_of(facts: Facts) -> str:
    """Return SHA-256 over a job's facts in SI units.

    It is the same in whatever units they were written, and in whichever files they stand.
    """
    import json  # here, as a check that nobody keeps shows no digest

    told = {path: value for path, value in facts.values.items() if path not in _NOT_STATED}
    text = json.dumps(told, sort_keys=True, ensure_ascii=True)
    return hashlib.sha256(text.encode()).hexdigest()


@cache
def program_version() -> str:
    """Return the version of the installed program, or "unknown" in a bare work tree."""
    return installed_version() or "unknown"


def assessed_facts(job: Job, rulebook: Rulebook, stage: str | None, region: str | None) -> Facts:
    """Return the job's facts, with the stage and region asked for put over its own.

    Args:
        job: The job.
        rulebook: Knows the facts that packs declare.
        stage: The stage to put in place of its own, or None.
        region: The ISO 3166 code to put in place of its own, or None.

    Raises:
        ValueError: If there is no such stage.
        Refused: If the region is no ISO 3166 code.
    """
    facts = rulebook.facts(job)
    if stage is not None and stage not in STAGES:
        raise ValueError(f"There is no stage '{stage}'; there are {', '.join(STAGES)}.")
    if stage is None and region is None:
        return facts
    Heading(region=region)
    asked = {"job.stage": stage, "job.region": region}
    over: Mapping[str, str] = {path: value for path, value in asked.items() if value is not None}
    return Facts({**facts.values, **over}, {**facts.written, **over}, facts.names)
