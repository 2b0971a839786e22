from pathlib import Path

import pytest

from job.sample import JOB, SHEET


@pytest.fixture
def job_file(tmp_path: Path) -> Path:
    """A folder with the sample job and its sheet; the path of the job."""
    (tmp_path / "unit-sheet.toml").write_text(SHEET)
    path = tmp_path / "job.toml"
    path.write_text(JOB)
    return path
