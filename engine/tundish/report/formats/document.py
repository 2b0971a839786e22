"""Documents: what was checked, in one of the forms that are told whole, after the last job."""

from __future__ import annotations

from collections.abc import Callable
from typing import Literal, TypeAlias

from tundish.report.formats.checked import Checked

DocumentForm: TypeAlias = Literal["markdown", "html", "json", "sarif", "junit"]


def document(checked: Checked, form: DocumentForm) -> str:
    """Return what was checked in one form.

    The same jobs under the same rulebook give the same bytes, whenever and wherever.

    Args:
        checked: What was checked.
        form: The form.
    """
    return _writer(form)(checked)


def _writer(form: DocumentForm) -> Callable[[Checked], str]:
    """Return what writes a form; only that one is loaded."""
    match form:
        case "markdown":
            from tundish.report.formats.markdown import as_markdown

            return as_markdown
        case "html":
            from tundish.report.formats.html import as_html

            return as_html
        case "json":
            return _as_json
        case "sarif":
            from tundish.report.formats.sarif import as_sarif

            return as_sarif
        case "junit":
            from tundish.report.formats.junit import as_junit

            return as_junit


def _as_json(checked: Checked) -> str:
    """Return data; nothing where the only job that was asked for could not be read."""
    from tundish.results.as_data import as_data, as_json, several_as_data

    if checked.several:
        return as_json(several_as_data(checked.assessments, checked.problems))
    return "".join(as_json(as_data(assessment)) for assessment in checked.assessments)
