"""The commissioning sheet: what is to be read, tried and recorded on site, as a form."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from tundish.assessment.finding import Assessment, Finding
from tundish.report.form import Asked, form
from tundish.rulebook.judging import Verdict
from tundish.rulebook.rulebook import Rulebook

_STAGE = "commissioning"


def commissioning_sheet(
    assessment: Assessment, of_job: str, names: Mapping[str, str], rulebook: Rulebook
) -> str | None:
    """Write the blank sheet of a job.

    Args:
        assessment: The job, judged at commissioning.
        of_job: Path of the job's file from the folder that the sheet will lie in.
        names: The `name` of each list item that has one, by the item's path.
        rulebook: The rules it was judged by.

    Returns:
        TOML text, or None where nothing is left to be read.
    """
    waiting = [one for one in assessment.of(Verdict.UNDECIDED) if one.stage == _STAGE]
    asked = questions_by_path(waiting, rulebook)
    if not asked:
        return None
    head = [
        f"Commissioning sheet of: {assessment.job or of_job}",
        "",
        "Fill in on the spot what stands between the quotes; leave what was not read as it is.",
        "Then run: tundish check on this file. It is read together with the job it names.",
        "",
        *assessment.cautions[:1],
        "Readings on live parts, and work on refrigerant, are for those licensed for them.",
    ]
    return form(head, {"": {"of_job": of_job}, "job": {"stage": _STAGE}}, asked, names)


def questions_by_path(findings: Iterable[Finding], rulebook: Rulebook) -> dict[str, Asked]:
    """Return what findings wait for, by path, each with all that it decides."""
    declared = {one.fact.path: one.fact for one in rulebook.declared.values()}
    asked: dict[str, Asked] = {}
    for finding in findings:
        about = f"{finding.title} ({finding.item})" if finding.item else finding.title
        for one in finding.open:
            question = asked.setdefault(
                one.path, Asked(one.question, one.how, fact=declared.get(one.path))
            )
            question.decides.append(about)
            if one.limit:
                question.limits.append(one.limit)
    return dict(sorted(asked.items()))
