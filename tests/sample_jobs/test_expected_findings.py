"""Each sample job gives the findings that are written down for it, by name and verdict."""

import tomllib
from pathlib import Path

import pytest

from tundish import Job
from tundish.text.bundled_folders import bundled_folder
from verdicts import verdicts

EXPECTED = Path(__file__).parent / "expected"
JOBS = sorted(bundled_folder("sample_jobs").glob("*.toml"))


TOLD = frozenset(("breached", "undecided", "waived"))
"""The verdicts whose findings are written down by name; of the others the number is enough."""


def findings_by_verdict(job: Path) -> dict[str, list[str] | int]:
    """Return the names of what is not in order, and how many are, as an expected file has them."""
    names: dict[str, list[str]] = {}
    for (rule, item), verdict in verdicts(Job.from_file(job)).items():
        names.setdefault(str(verdict), []).append(f"{rule} [{item}]" if item else rule)
    return {
        verdict: sorted(names[verdict]) if verdict in TOLD else len(names[verdict])
        for verdict in sorted(names)
    }


def test_there_are_five_samples() -> None:
    assert len(JOBS) == 5


@pytest.mark.parametrize("job", JOBS, ids=lambda job: job.stem)
def test_a_sample_gives_its_expected_findings(job: Path) -> None:
    expected = tomllib.loads((EXPECTED / job.name).read_text(encoding="utf-8"))
    assert findings_by_verdict(job) == expected
