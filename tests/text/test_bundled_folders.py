"""Where the program lies, and which it is."""

import sys
from importlib import metadata
from pathlib import Path

import pytest

from tundish.text.bundled_folders import installed_version


def test_the_version_is_that_of_the_folder_an_installer_leaves(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "site" / "tundish-1.2.3.dist-info").mkdir(parents=True)
    said = "Metadata-Version: 2.1\nName: tundish\nVersion: 1.2.3\n"
    (tmp_path / "site" / "tundish-1.2.3.dist-info" / "METADATA").write_text(said)
    places = [str(tmp_path / "nowhere"), str(tmp_path / "site")]
    monkeypatch.setattr(sys, "path", [*places, *sys.path])
    # The standard library reads the same out of the file in it.
    assert installed_version() == metadata.version("tundish") == "1.2.3"


def test_a_work_tree_has_no_version(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sys, "path", [str(tmp_path)])
    assert installed_version() is None
