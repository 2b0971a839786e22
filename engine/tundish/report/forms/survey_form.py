"""The survey as a form: one line for each question, to be filled in and merged over the job."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from tundish.findings.finding import Assessment
from tundish.report.forms.form import form
from tundish.report.forms.form_questions import form_questions
from tundish.rulebook.rulebook import Rulebook
from tundish.survey.survey import Inquiry


def survey_form(
    assessment: Assessment,
    survey: Sequence[Inquiry],
    of_job: str,
    names: Mapping[str, str],
    rulebook: Rulebook,
) -> str:
    """Write the blank form of a survey.

    Args:
        assessment: The findings that wait.
        survey: What is not known.
        of_job: Path of the job's file from the folder that the form will lie in.
        names: The `name` of each list item that has one, by the item's path.
        rulebook: The rules that it was judged by.
    """
    waiting = [
        (finding, fact)
        for inquiry in survey
        for fact in inquiry.facts
        for finding in inquiry.findings
        if fact in finding.open
    ]
    questions = form_questions(waiting, rulebook, assessment.stage)
    head = [
        f"Survey of: {assessment.job or of_job}",
        "",
        "Fill in what stands between the quotes; leave what is still open as it is.",
        "Then run: tundish check on this file. It is read together with the job it names;",
        "tundish join puts both into one file.",
    ]
    return form(head, {"": {"of_job": of_job}}, questions.asked, names, questions.notes)
