"""Finding jobs among files."""

from pathlib import Path

import pytest

from command.conftest import GOOD_JOB, SHEET
from tundish.job.job_files import find_jobs, holds_job


@pytest.mark.parametrize(
    ("text", "is_job"),
    [
        (GOOD_JOB, True),
        (SHEET, False),
        (f"[site]\n{SHEET}", True),
        ("", True),
        ("= broken", True),
        ('[project]\nname = "something else"\n', False),
    ],
    ids=["job", "sheet", "both", "empty", "broken", "other"],
)
def test_a_file_counts_as_a_job_or_not(tmp_path: Path, text: str, is_job: bool) -> None:
    path = tmp_path / "some.toml"
    path.write_text(text)
    assert holds_job(path) is is_job


def test_hidden_files_and_folders_are_passed_over(tmp_path: Path) -> None:
    for name in (".hidden/a.toml", ".b.toml", "c.toml", "d.txt"):
        path = tmp_path / name
        path.parent.mkdir(exist_ok=True)
        path.write_text(GOOD_JOB)
    paths, problems = find_jobs([str(tmp_path)])
    assert [Path(path).name for path in paths] == ["c.toml"]
    assert problems == []


def test_a_folder_that_is_called_like_a_file_is_no_job(tmp_path: Path) -> None:
    (tmp_path / "folder.toml").mkdir()
    paths, problems = find_jobs([str(tmp_path)])
    assert paths == []
    assert len(problems) == 1


def test_a_name_that_no_file_can_have_is_left_to_the_reader(tmp_path: Path) -> None:
    for name in ("nul\0name", "x" * 5_000):
        paths, problems = find_jobs([name])
        assert paths == [name]
        assert problems == []
