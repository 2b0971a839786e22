"""The survey as a form: one line for each question, to be filled in and laid over the job."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from tundish.assessment.finding import Assessment
from tundish.assessment.survey import Inquiry
from tundish.report.commissioning_sheet import questions_by_path
from tundish.report.form import form
from tundish.rulebook.rulebook import Rulebook


def survey_form(
    assessment: Assessment,
    found: Sequence[Inquiry],
    of_job: str,
    names: Mapping[str, str],
    rulebook: Rulebook,
) -> str:
    """Write the blank form of a survey.

    Args:
        assessment: The findings that wait.
        found: What is not known.
        of_job: Path of the job's file from the folder that the form will lie in.
        names: The `name` of each list item that has one, by the item's path.
        rulebook: The rules that ask.
    """
    findings = {(one.rule, one.item): one for inquiry in found for one in inquiry.findings}
    head = [
        f"Survey of: {assessment.job or of_job}",
        "",
        "Fill in what stands between the quotes; leave what is still open as it is.",
        "Then run: tundish check on this file. It is read together with the job it names;",
        "tundish join puts both into one file.",
    ]
    asked = questions_by_path(findings.values(), rulebook)
    return form(head, {"": {"of_job": of_job}}, asked, names)
