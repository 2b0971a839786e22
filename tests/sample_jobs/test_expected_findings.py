"""Each sample job gives the findings that are written down for it, by name and verdict."""

import tomllib
from pathlib import Path

import pytest

from tundish import Job, Rulebook, assess
from tundish.text.bundled_folders import travelling_folder

EXPECTED = Path(__file__).parent / "expected"
JOBS = sorted(travelling_folder("sample_jobs").glob("*.toml"))


def findings_by_verdict(job: Path) -> dict[str, list[str]]:
    """Return the names of all findings under their verdicts, as an expected file has them."""
    found: dict[str, list[str]] = {}
    for finding in assess(Job.from_file(job), Rulebook.built_in()).findings:
        name = f"{finding.rule} [{finding.item}]" if finding.item else finding.rule
        found.setdefault(str(finding.verdict), []).append(name)
    return {verdict: sorted(names) for verdict, names in sorted(found.items())}


def test_there_are_five_samples() -> None:
    assert len(JOBS) == 5


@pytest.mark.parametrize("job", JOBS, ids=lambda job: job.stem)
def test_a_sample_gives_its_expected_findings(job: Path) -> None:
    expected = tomllib.loads((EXPECTED / job.name).read_text(encoding="utf-8"))
    assert findings_by_verdict(job) == expected
