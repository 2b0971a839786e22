"""SARIF 2.1.0: findings for programs that gather the results of checks on files."""

from __future__ import annotations

import hashlib
from collections.abc import Collection, Iterator
from typing import Any

from tundish.findings.finding import Assessment, Finding
from tundish.report.formats.checked import Checked
from tundish.report.formats.sarif_places import Artifacts, input_places, locations, message
from tundish.report.tell.assessment import Show
from tundish.report.tell.finding import about
from tundish.report.tell.phrases import as_sentence
from tundish.results.as_data import as_json
from tundish.rulebook.evaluate.judge import Verdict
from tundish.rulebook.model.choices import Severity
from tundish.text.escape import escape

_VERSION = "2.1.0"
_SCHEMA = "https://docs.oasis-open.org/sarif/sarif/v2.1.0/cos02/schemas/sarif-schema-2.1.0.json"

_LEVEL: dict[Severity, str] = {
    "danger": "error",
    "fault": "error",
    "caution": "warning",
    "note": "note",
}

_KIND = {
    Verdict.BREACHED: "fail",
    Verdict.WAIVED: "fail",
    Verdict.UNDECIDED: "open",
    Verdict.MET: "pass",
}

_TOLD: dict[Show, Collection[Verdict]] = {
    "usual": (Verdict.BREACHED, Verdict.UNDECIDED, Verdict.WAIVED),
    "all": (Verdict.BREACHED, Verdict.UNDECIDED, Verdict.WAIVED, Verdict.MET),
    "open": (Verdict.UNDECIDED,),
    "breached": (Verdict.BREACHED,),
}


def as_sarif(checked: Checked) -> str:
    """Return all that was checked as one run in SARIF.

    Args:
        checked: What was checked; `show` says which findings become results.

    Returns:
        JSON text that ends with a line break.
    """
    return as_json({"$schema": _SCHEMA, "version": _VERSION, "runs": [_run(checked)]})


def _run(checked: Checked) -> dict[str, Any]:
    pairs = [
        (assessment, finding)
        for assessment in checked.assessments
        for finding in _shown_findings(assessment, checked.show)
    ]
    artifacts = Artifacts(_files(checked, pairs))
    rules = {finding.rule: finding for _, finding in pairs}
    positions = {name: at for at, name in enumerate(sorted(rules))}
    return {
        "tool": {"driver": _driver(checked, [rules[name] for name in positions])},
        "invocations": [_invocation(checked, artifacts)],
        "columnKind": "unicodeCodePoints",
        "artifacts": artifacts.listed(),
        "results": [
            _result(finding, assessment, positions[finding.rule], artifacts)
            for assessment, finding in pairs
        ],
        "properties": {"jobs": [_job(assessment) for assessment in checked.assessments]},
    }


def _shown_findings(assessment: Assessment, show: Show) -> Iterator[Finding]:
    """Give the findings to tell; what can wait only where that is asked for."""
    for finding in assessment.findings:
        can_wait = finding.verdict is Verdict.UNDECIDED and not finding.due
        if finding.verdict in _TOLD[show] and not (can_wait and show == "usual"):
            yield finding


def _files(checked: Checked, pairs: list[tuple[Assessment, Finding]]) -> Iterator[str]:
    yield from (assessment.file for assessment in checked.assessments)
    yield from (file for _, finding in pairs for file, _, _ in input_places(finding))
    yield from (problem.file for problem in checked.problems)


def _driver(checked: Checked, rules: list[Finding]) -> dict[str, Any]:
    driver: dict[str, Any] = {"name": "tundish"}
    if checked.assessments:
        driver["version"] = checked.assessments[0].version
    driver["rules"] = [_rule(finding) for finding in rules]
    return driver


def _rule(finding: Finding) -> dict[str, Any]:
    """Return the rule behind a finding."""
    return {
        "id": finding.rule,
        "shortDescription": message(finding.title),
        "fullDescription": message(finding.because),
        "help": message(finding.remedy),
        "defaultConfiguration": {"level": _LEVEL[finding.severity]},
        "properties": {
            "severity": finding.severity,
            "stage": finding.stage,
            "sources": [escape(str(source)) for source in finding.sources],
        },
    }


def _result(
    finding: Finding, assessment: Assessment, rule: int, artifacts: Artifacts
) -> dict[str, Any]:
    kind = _KIND[finding.verdict]
    result: dict[str, Any] = {
        "ruleId": finding.rule,
        "ruleIndex": rule,
        "kind": kind,
        # In SARIF only failures have a level.
        "level": _LEVEL[finding.severity] if kind == "fail" else "none",
        "message": message(_message(finding)),
        "locations": locations(finding, assessment.file, artifacts),
        "partialFingerprints": {"ruleAndItem/v1": _fingerprint(finding)},
        "properties": _properties(finding, assessment),
    }
    if finding.verdict is Verdict.WAIVED:
        result["suppressions"] = [
            {
                "kind": "inSource",  # a waiver stands in the job itself
                "status": "accepted",
                "justification": escape(finding.waiver or "Set aside by a waiver."),
            }
        ]
    return result


def _message(finding: Finding) -> str:
    """Return the statement as a sentence, with the item it is of."""
    statement = as_sentence(finding.statement) or about(finding)
    text = f"{as_sentence(finding.item)}: {statement}" if finding.item else statement
    return text if text.endswith((".", "?", "!")) else f"{text}."


def _fingerprint(finding: Finding) -> str:
    """Return what stays the same wherever the facts stand, and when the rule is renamed."""
    names = finding.first_name or (finding.rule, finding.item)
    return hashlib.sha256("\0".join(names).encode(errors="replace")).hexdigest()


def _properties(finding: Finding, assessment: Assessment) -> dict[str, Any]:
    properties: dict[str, Any] = {
        "job": escape(assessment.job or assessment.file),
        "item": escape(finding.item),
        "verdict": finding.verdict.value,
        "severity": finding.severity,
        "stage": finding.stage,
        "due": finding.due,
        "fromMemory": finding.from_memory,
    }
    if finding.open:
        properties["open"] = [
            {"path": fact.path, "question": escape(fact.question)} for fact in finding.open
        ]
    if finding.waiver and finding.verdict is not Verdict.WAIVED:
        properties["waiver"] = escape(finding.waiver)
    if finding.doubtful:
        properties["doubtful"] = escape(finding.doubtful)
    return properties


def _invocation(checked: Checked, artifacts: Artifacts) -> dict[str, Any]:
    invocation: dict[str, Any] = {"executionSuccessful": not checked.problems}
    if checked.problems:
        invocation["toolExecutionNotifications"] = [
            {
                "level": "error",
                "message": message(problem.sentence),
                "locations": [artifacts.place(problem.file, problem.line, problem.column)]
                if problem.file
                else [],
            }
            for problem in checked.problems
        ]
    return invocation


def _job(assessment: Assessment) -> dict[str, Any]:
    return {
        "title": escape(assessment.job),
        "file": escape(assessment.file),
        "stage": assessment.stage,
        "region": assessment.region,
        "jobDigest": assessment.job_digest,
        "rulebookDigest": assessment.rulebook_digest,
    }
