"""Tolerances: assessing a job whose figures may be off, against the same job taken as exact."""

from __future__ import annotations

from pathlib import Path

from changed_samples import SAMPLE_JOBS, changed
from measuring import medians, told, worst

from tundish import Job, Rulebook, Verdict, assess
from tundish.rulebook.search.readers import Readers

SEVERAL = 5

_TOLD = (Verdict.BREACHED, Verdict.UNDECIDED, Verdict.WAIVED)
"""What `tundish check` explains, besides what a tolerance leaves in doubt."""


def measure() -> None:
    """Measure each sample as exact, with one tolerance and with several.

    They are tolerances of the figures that most rules read: the worst case.
    """
    rulebook = Rulebook.built_in()
    readers = Readers.of(rulebook).rules
    ratios = {}
    for path in SAMPLE_JOBS:
        exact = _with_tolerances(path, [])
        figures = [
            fact
            for fact, value in rulebook.facts(exact).values.items()
            # A share of a temperature says nothing, and so is refused.
            if isinstance(value, float) and fact in readers and "temperature" not in fact
        ]
        figures.sort(key=lambda fact: -len(readers[fact]))
        tasks = {
            name: lambda job=job: assess(job, rulebook, verdicts=_TOLD)
            for name, job in {
                "exact": exact,
                f"one, of {figures[0]}": _with_tolerances(path, figures[:1]),
                f"{SEVERAL}": _with_tolerances(path, figures[:SEVERAL]),
            }.items()
        }
        times = medians(tasks)
        told(f"assess, {path.stem}: tolerances", times, "exact", {})
        ratios |= {f"{path.stem}, {name}": times[name] / times["exact"] for name in tasks}
    worst("With tolerances", ratios, 5)


def _with_tolerances(path: Path, facts: list[str]) -> Job:
    return changed(path, tolerance=[{"of": fact, "share": "5 %"} for fact in facts])
