"""What a file of findings states, read back: the reverse of the data that `check --json` gives."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import Any

from tundish.findings.finding import STAGES
from tundish.groundwork.dataclass import dataclass
from tundish.results.as_data import FORM
from tundish.text.bounds import LARGEST_RESULT
from tundish.text.json_file import read_json
from tundish.text.problem import refusal
from tundish.text.quoted import quoted

_TEXTS = ("job", "file", "stage", "region", "job_digest", "rulebook_digest", "version")
_NAMED = ("rule", "item", "verdict", "severity", "statement")


@dataclass(frozen=True, slots=True)
class Stated:
    """One assessment as a file states it; none of it has been verified.

    Attributes:
        name: The file it stands in, as problems show it.
        data: The assessment, as `as_data` gives it.
    """

    name: str
    data: Mapping[str, Any]

    def text(self, key: str) -> str:
        """Return one of the texts that every assessment has."""
        return str(self.data[key])


def read_result(path: str | Path, of_job: str = "") -> Stated:
    """Read the assessment that a file of findings states.

    Args:
        path: The file, as `tundish check --json` puts it out.
        of_job: The job's file, which tells which one is meant where several are stated.

    Raises:
        Refused: If it cannot be read, or states no assessment, or several and none of that job.
    """
    name, data = str(path), read_json(path, LARGEST_RESULT)
    wrong = _wrong_head(data)
    if wrong:
        raise refusal(name, wrong)
    result = data
    if "assessments" in data:
        several = data["assessments"]
        meant = [item for item in several if isinstance(item, dict) and item.get("file") == of_job]
        if len(meant) != 1:
            raise refusal(
                name,
                f"It states {len(several)} jobs, and {len(meant)} of them is {quoted(of_job)}.",
            )
        result = meant[0]
    wrong = _wrong(result)
    if wrong:
        raise refusal(name, wrong)
    return Stated(name, result)


def _wrong_head(data: Any) -> str:
    if not isinstance(data, dict) or data.get("program") != "tundish":
        return "This holds no findings; name a file that 'tundish check --json' put out."
    if data.get("form") != FORM or isinstance(data["form"], bool):
        return f"Its form is {quoted(data.get('form'))}; this program reads form {FORM}."
    if "assessments" in data and not isinstance(data["assessments"], list):
        return "'assessments' is a list."
    return ""


def _wrong(data: Mapping[str, Any]) -> str:
    """Say what keeps data from being an assessment, or nothing."""
    for key in _TEXTS:
        if not isinstance(data.get(key), str):
            return f"'{key}' is a text, not {_described(data, key)}."
    if data["stage"] and data["stage"] not in STAGES:
        return f"'stage' is one of {', '.join(STAGES)}, not {quoted(data['stage'])}."
    findings = data.get("findings")
    if not isinstance(findings, list):
        return f"'findings' is a list, not {_described(data, 'findings')}."
    for number, finding in enumerate(findings, start=1):
        if not isinstance(finding, dict):
            return f"Finding {number} is an object, not {quoted(finding)}."
        for key in _NAMED:
            if not isinstance(finding.get(key), str):
                return f"'{key}' of finding {number} is a text, not {_described(finding, key)}."
    return ""


def _described(data: Mapping[str, Any], key: str) -> str:
    return quoted(data[key]) if key in data else "left out"
