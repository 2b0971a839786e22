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
    from tundish.assessment.assess import assess
    from tundish.assessment.finding import Assessment, Finding
    from tundish.job.job import Job
    from tundish.reading.problem import Problem, Refused
    from tundish.report.stated import read_result
    from tundish.report.verifying import verify
    from tundish.rulebook.judging import Verdict
    from tundish.rulebook.rulebook import Rulebook

__all__ = [
    "Assessment",
    "Finding",
    "Job",
    "Problem",
    "Refused",
    "Rulebook",
    "Verdict",
    "assess",
    "read_result",
    "verify",
]

_PLACES = {
    "Assessment": "tundish.assessment.finding",
    "Finding": "tundish.assessment.finding",
    "Job": "tundish.job.job",
    "Problem": "tundish.reading.problem",
    "Refused": "tundish.reading.problem",
    "Rulebook": "tundish.rulebook.rulebook",
    "Verdict": "tundish.rulebook.judging",
    "assess": "tundish.assessment.assess",
    "read_result": "tundish.report.stated",
    "verify": "tundish.report.verifying",
}


def __getattr__(name: str) -> Any:
    """Import a name when it is first asked for, so that `tundish --help` starts at once."""
    if name not in _PLACES:
        raise AttributeError(f"tundish has no '{name}'")
    from importlib import import_module

    return getattr(import_module(_PLACES[name]), name)
