"""The commissioning sheet: what is to be read, tried and recorded on site, as a form."""

from __future__ import annotations

from collections.abc import Mapping

from tundish.findings.finding import Assessment
from tundish.report.forms.form import form
from tundish.report.forms.form_questions import form_questions
from tundish.rulebook.evaluate.judge import Verdict
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
        rulebook: The rules that it was judged by.

    Returns:
        TOML text, or None where nothing is left to be read.
    """
    waiting = [
        (finding, fact)
        for finding in assessment.of(Verdict.UNDECIDED)
        for fact in finding.open
        if finding.stage == _STAGE
    ]
    if not waiting:
        return None
    questions = form_questions(waiting, rulebook, _STAGE)
    head = [
        f"Commissioning sheet of: {assessment.job or of_job}",
        "",
        "Fill in on the spot what stands between the quotes; leave what was not read as it is.",
        "Then run: tundish check on this file. It is read together with the job it names.",
        "",
        *assessment.cautions[:1],
        "Readings on live parts, and work on refrigerant, are for those licensed for them.",
    ]
    keys = {"": {"of_job": of_job}, "job": {"stage": _STAGE}}
    return form(head, keys, questions.asked, names, questions.notes)
