"""Files are written whole or not at all, and never over one that is there."""

from pathlib import Path

import pytest

from tundish.text.new_file import AlreadyThereError, write_new


def test_a_new_file_is_written(tmp_path: Path) -> None:
    write_new(tmp_path / "a.toml", "x = '°'\r\n")
    assert (tmp_path / "a.toml").read_bytes() == "x = '°'\r\n".encode()
    assert [path.name for path in tmp_path.iterdir()] == ["a.toml"]


def test_a_file_that_is_there_is_kept(tmp_path: Path) -> None:
    path = tmp_path / "a.toml"
    path.write_text("old")
    with pytest.raises(AlreadyThereError):
        write_new(path, "new")
    assert path.read_text() == "old"
    assert len(list(tmp_path.iterdir())) == 1


def test_a_link_that_leads_nowhere_is_kept(tmp_path: Path) -> None:
    path = tmp_path / "a.toml"
    path.symlink_to(tmp_path / "elsewhere.toml")
    with pytest.raises(AlreadyThereError):
        write_new(path, "new")
    assert not (tmp_path / "elsewhere.toml").exists()


def test_a_folder_that_is_not_there_is_an_error_that_leaves_nothing(tmp_path: Path) -> None:
    with pytest.raises(OSError, match="No such file"):
        write_new(tmp_path / "no" / "a.toml", "new")
    assert not list(tmp_path.iterdir())
