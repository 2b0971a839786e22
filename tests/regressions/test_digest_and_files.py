"""The digest of a job changed with the folder its file lay in, by the path of its unit sheet."""

from __future__ import annotations

from pathlib import Path

from tundish import Job
from tundish.findings.assess import digest_of
from tundish.job.facts import flatten

SHEET = '[unit]\nmodel = "Invented 8 kW outdoor unit"\n'


def test_a_sheet_in_another_folder_leaves_the_digest_as_it_is(tmp_path: Path) -> None:
    digests = set()
    for name in ("sheet.toml", "sheets/sheet.toml"):
        (tmp_path / name).parent.mkdir(exist_ok=True)
        (tmp_path / name).write_text(SHEET)
        (tmp_path / "job.toml").write_text(f'unit_sheet = "{name}"\n')
        digests.add(digest_of(flatten(Job.from_file(tmp_path / "job.toml"))))
    assert len(digests) == 1
