"""Data: an assessment as JSON, for other programs."""

from __future__ import annotations

import dataclasses
import datetime
import json
import math
from collections.abc import Iterable, Mapping, Sequence
from enum import Enum
from typing import Any

from tundish.compare.compare import JobComparison
from tundish.findings.finding import SEVERITIES, Assessment
from tundish.order.purchase_list import OrderList
from tundish.rulebook.evaluate.judge import Verdict
from tundish.survey.survey import Inquiry
from tundish.text.problem import Problem

FORM = 1
"""Number of this form of the data; a later one that old readers cannot read gets the next."""

HEAD: dict[str, Any] = {"form": FORM, "program": "tundish"}
"""What all data begin with."""


def as_data(assessment: Assessment) -> dict[str, Any]:
    """Return an assessment as dictionaries, lists, texts, truths and numbers.

    Args:
        assessment: The findings.

    Returns:
        The fields of the assessment under their own names, in a stable order, with the number of
        this form before them. Quantities are texts with their units, as people are shown them.
    """
    data = dict(HEAD)
    for name in _names(assessment):
        if name != "findings":
            data[name] = _plain(getattr(assessment, name))
    data["counts"] = _counts(assessment)
    data["findings"] = [_plain(finding) for finding in assessment.findings]
    return data


def several_as_data(
    assessments: Iterable[Assessment], problems: Iterable[Problem]
) -> dict[str, Any]:
    """Return several assessments, and what kept other files from being assessed."""
    return {
        **HEAD,
        "assessments": [as_data(assessment) for assessment in assessments],
        "problems": [_plain(problem) for problem in problems],
    }


def order_as_data(order: OrderList) -> dict[str, Any]:
    """Return an order list as dictionaries, lists and texts, in a stable order."""
    data = HEAD | {name: _plain(getattr(order, name)) for name in _names(order) if name != "lines"}
    data["lines"] = [{**_plain(line), "from_memory": line.from_memory} for line in order.lines]
    return data


def comparison_as_data(comparison: JobComparison) -> dict[str, Any]:
    """Return a comparison as dictionaries, lists and texts, in a stable order."""
    data = dict(HEAD)
    for side in ("before", "after"):
        assessment: Assessment = getattr(comparison, side)
        whole = as_data(assessment)
        data[side] = {name: value for name, value in whole.items() if name != "findings"}
    for name in ("new", "gone", "changed", "inputs", "quantities"):
        data[name] = _plain(getattr(comparison, name))
    return data


def impact_as_data(comparisons: Iterable[tuple[str, JobComparison]]) -> dict[str, Any]:
    """Return what a change of rules alters, job by job."""
    return {
        **HEAD,
        "jobs": [
            {
                "file": name,
                "job_digest": comparison.after.job_digest,
                "rulebook_digests": [
                    comparison.before.rulebook_digest,
                    comparison.after.rulebook_digest,
                ],
                **{key: _plain(getattr(comparison, key)) for key in ("new", "gone", "changed")},
            }
            for name, comparison in comparisons
        ],
    }


def survey_as_data(assessment: Assessment, inquiries: Sequence[Inquiry]) -> dict[str, Any]:
    """Return the questions of a survey, ranked, each with the rules that wait for it."""
    return {
        **HEAD,
        "job": assessment.job,
        "file": assessment.file,
        "stage": assessment.stage,
        "job_digest": assessment.job_digest,
        "rulebook_digest": assessment.rulebook_digest,
        "version": assessment.version,
        "questions": [
            {
                "asked": _plain(inquiry.asked),
                "facts": list(inquiry.places),
                "severity": inquiry.severity,
                "directly": [[finding.rule, finding.item] for finding in inquiry.directly],
                "through": [[finding.rule, finding.item] for finding in inquiry.through],
                "alone": inquiry.alone,
                "inside": [entry.path for entry in inquiry.inside],
            }
            for inquiry in inquiries
        ],
    }


def as_json(data: Mapping[str, Any]) -> str:
    """Return data as JSON text that ends with a line break.

    It holds ASCII alone, other characters as escapes, so that nothing in a job's text can reach a
    terminal raw and no encoding on the way can spoil it.
    """
    return json.dumps(data, indent=2, ensure_ascii=True, allow_nan=False) + "\n"


def _counts(assessment: Assessment) -> dict[str, Any]:
    breached = assessment.of(Verdict.BREACHED)
    counts: dict[str, Any] = {verdict.value: assessment.count(verdict) for verdict in Verdict}
    counts["breached by severity"] = {
        severity: sum(finding.severity == severity for finding in breached)
        for severity in SEVERITIES
    }
    return counts


def _plain(value: Any) -> Any:
    """Return a value as JSON can hold it."""
    if dataclasses.is_dataclass(value):
        return {name: _plain(getattr(value, name)) for name in _names(value)}
    if isinstance(value, tuple | list):
        return [_plain(item) for item in value]
    if isinstance(value, Enum):
        return value.value
    if isinstance(value, datetime.date):
        return value.isoformat()
    if isinstance(value, float) and not math.isfinite(value):
        return None
    return value


def _names(value: Any) -> list[str]:
    fields = dataclasses.fields(value)
    return [field.name for field in fields if field.metadata.get("in data", True)]
