"""The JSON Schema of findings as data, made from the classes that the data are made from."""

from __future__ import annotations

from tundish.findings.finding import SEVERITIES, Assessment
from tundish.report.schemas.data_schema import DRAFT, DataSchemas, Schema, closed_to_gaps
from tundish.results.as_data import FORM
from tundish.rulebook.evaluate.judge import Verdict
from tundish.text.problem import Problem

_HEAD: dict[str, Schema] = {
    "form": {"const": FORM, "description": "Number of this form of the data."},
    "program": {"const": "tundish", "description": "What wrote the data."},
}


def findings_schema() -> Schema:
    """Return the schema of what `tundish check --json` puts out, for one job or several."""
    schemas = DataSchemas()
    assessment = schemas.reference(Assessment, {**_HEAD, "counts": _counts()})
    return {
        "$schema": DRAFT,
        "$id": f"urn:tundish:findings:{FORM}",
        "title": "Findings of tundish",
        "description": "One assessment, or several with what could not be read.",
        "oneOf": [assessment, _several(assessment, schemas)],
        "$defs": schemas.definitions,
    }


def _several(assessment: Schema, schemas: DataSchemas) -> Schema:
    properties = {
        **_HEAD,
        "assessments": {"type": "array", "items": assessment},
        "problems": {"type": "array", "items": schemas.reference(Problem)},
    }
    return closed_to_gaps("Several assessments, and why other files have none.", properties)


def _counts() -> Schema:
    number: Schema = {"type": "integer", "minimum": 0}
    severities = closed_to_gaps(
        "How many breaches there are of each severity.",
        {name: dict(number) for name in SEVERITIES},
    )
    verdicts = {verdict.value: dict(number) for verdict in Verdict}
    return closed_to_gaps(
        "How many findings came out how.", {**verdicts, "breached by severity": severities}
    )
