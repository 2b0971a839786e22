"""Check the description of one heat pump installation against a rulebook.

    from tundish import Job, Rulebook, assess

    job = Job.from_file("job.toml")
    for finding in assess(job, Rulebook.built_in()).findings:
        ...

Nothing here prints, keeps global state or changes what it is given.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from tundish.findings.assess import assess
    from tundish.findings.finding import Assessment, Finding
    from tundish.findings.judged_job import JudgedJob
    from tundish.job.job import Job
    from tundish.results.stated_result import read_result
    from tundish.results.verify import verify
    from tundish.rulebook.evaluate.judge import Verdict
    from tundish.rulebook.rulebook import Rulebook
    from tundish.text.problem import Problem, Refused

__all__ = [
    "Assessment",
    "Finding",
    "Job",
    "JudgedJob",
    "Problem",
    "Refused",
    "Rulebook",
    "Verdict",
    "assess",
    "read_result",
    "verify",
]

_PLACES = {
    "Assessment": "tundish.findings.finding",
    "Finding": "tundish.findings.finding",
    "Job": "tundish.job.job",
    "JudgedJob": "tundish.findings.judged_job",
    "Problem": "tundish.text.problem",
    "Refused": "tundish.text.problem",
    "Rulebook": "tundish.rulebook.rulebook",
    "Verdict": "tundish.rulebook.evaluate.judge",
    "assess": "tundish.findings.assess",
    "read_result": "tundish.results.stated_result",
    "verify": "tundish.results.verify",
}


def __getattr__(name: str) -> Any:
    """Import a name when it is first asked for, so that `tundish --help` starts at once."""
    if name not in _PLACES:
        raise AttributeError(f"tundish has no '{name}'")
    from importlib import import_module

    return getattr(import_module(_PLACES[name]), name)
