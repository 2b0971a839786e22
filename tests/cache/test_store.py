"""What is kept is given back whole, or not at all."""

import os
import stat
import sys
from pathlib import Path

import pytest

from tundish.cache import private_folder
from tundish.cache.location import folder
from tundish.cache.store import can_save, load, save

pytestmark = pytest.mark.skipif(not hasattr(os, "geteuid"), reason="files have no owners here")
CONTENT = b"what was worked out"


@pytest.fixture(name="place", autouse=True)
def place_of_its_own(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "caches"))
    monkeypatch.delenv("TUNDISH_CACHE", raising=False)
    return tmp_path / "caches" / "tundish"


def mode(path: Path) -> int:
    return stat.S_IMODE(path.stat().st_mode)


def test_what_is_kept_is_given_back(place: Path) -> None:
    assert load("one") is None
    assert save("one", CONTENT)
    assert load("one") == CONTENT
    assert save("one", b"")
    assert load("one") == b""
    assert sorted(path.name for path in place.iterdir()) == ["key", "one"]


def test_nobody_else_can_read_or_write_it(place: Path) -> None:
    before = os.umask(0)
    try:
        save("one", CONTENT)
    finally:
        os.umask(before)
    assert [mode(place), mode(place / "key"), mode(place / "one")] == [0o700, 0o600, 0o600]


def test_no_byte_can_be_put_otherwise(place: Path) -> None:
    save("one", CONTENT)
    whole = (place / "one").read_bytes()
    for at in range(len(whole)):
        (place / "one").write_bytes(whole[:at] + bytes([whole[at] ^ 1]) + whole[at + 1 :])
        assert load("one") is None
    for length in range(len(whole)):
        (place / "one").write_bytes(whole[:length])
        assert load("one") is None
    (place / "one").write_bytes(whole)
    assert load("one") == CONTENT


def test_what_is_kept_under_one_name_is_not_taken_for_another(place: Path) -> None:
    save("one", CONTENT)
    (place / "other").write_bytes((place / "one").read_bytes())
    (place / "other").chmod(0o600)
    assert load("other") is None


def test_another_key_opens_nothing_and_is_replaced_where_it_is_none(place: Path) -> None:
    save("one", CONTENT)
    (place / "key").write_bytes(bytes(32))
    assert load("one") is None
    (place / "key").write_bytes(b"short")
    assert load("one") is None
    assert save("one", CONTENT)
    assert load("one") == CONTENT


@pytest.mark.parametrize("bits", [0o644, 0o620, 0o604, 0o602, 0o610])
@pytest.mark.parametrize("name", ["key", "one"])
def test_a_file_that_others_may_touch_is_left_alone(place: Path, name: str, bits: int) -> None:
    save("one", CONTENT)
    (place / name).chmod(bits)
    assert load("one") is None


@pytest.mark.parametrize("bits", [0o750, 0o770, 0o707, 0o711])
def test_a_folder_that_others_may_enter_is_left_alone(place: Path, bits: int) -> None:
    save("one", CONTENT)
    place.chmod(bits)
    assert load("one") is None
    assert not save("one", CONTENT)
    assert not can_save()


def test_what_belongs_to_somebody_else_is_left_alone(monkeypatch: pytest.MonkeyPatch) -> None:
    save("one", CONTENT)
    somebody = os.geteuid() + 1
    monkeypatch.setattr("os.geteuid", lambda: somebody)
    assert load("one") is None
    assert not save("one", CONTENT)


@pytest.mark.parametrize("name", ["key", "one"])
def test_no_link_is_followed(place: Path, tmp_path: Path, name: str) -> None:
    save("one", CONTENT)
    (place / name).rename(tmp_path / "elsewhere")
    (place / name).symlink_to(tmp_path / "elsewhere")
    assert load("one") is None
    (place / name).unlink()
    os.link(tmp_path / "elsewhere", place / name)
    assert load("one") is None


def test_a_folder_behind_a_link_is_none(place: Path, tmp_path: Path) -> None:
    save("one", CONTENT)
    place.rename(tmp_path / "elsewhere")
    place.symlink_to(tmp_path / "elsewhere")
    assert load("one") is None
    assert not save("one", CONTENT)


def test_what_is_no_plain_file_is_not_waited_for(place: Path) -> None:
    save("one", CONTENT)
    (place / "one").unlink()
    os.mkfifo(place / "one", 0o600)
    assert load("one") is None
    (place / "one").unlink()
    (place / "one").mkdir(0o700)
    assert load("one") is None
    assert not save("one", CONTENT)  # a folder is not replaced by a file
    assert sorted(path.name for path in place.iterdir()) == ["key", "one"]


def test_a_file_in_place_of_the_folder_does_no_harm(place: Path) -> None:
    place.parent.mkdir(parents=True)
    place.write_text("in the way")
    assert load("one") is None
    assert not save("one", CONTENT)


def test_what_is_too_large_is_not_kept_and_not_read(
    place: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    save("one", CONTENT)
    monkeypatch.setattr(private_folder, "LARGEST", len(CONTENT) + 32)
    assert load("one") == CONTENT
    monkeypatch.setattr(private_folder, "LARGEST", len(CONTENT) + 31)
    assert load("one") is None
    assert not save("two", CONTENT)


def test_a_full_disk_leaves_what_was_there(place: Path) -> None:
    save("one", CONTENT)

    def full(*_: object, **__: object) -> None:
        raise OSError("no space left on device")

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("os.rename", full)
        assert not save("one", b"other")
    assert load("one") == CONTENT
    assert sorted(path.name for path in place.iterdir()) == ["key", "one"]


def test_only_so_much_is_kept_and_the_oldest_goes_first(place: Path) -> None:
    for at in range(30):
        save(f"n{at}", CONTENT)
        os.utime(place / f"n{at}", (at, at))
    assert load("n29") == CONTENT
    assert load("n0") is None
    assert len(list(place.iterdir())) <= 26
    assert (place / "key").exists()


@pytest.mark.parametrize("word", ["off", "OFF", " no ", "0", "false"])
def test_it_can_be_turned_off(place: Path, monkeypatch: pytest.MonkeyPatch, word: str) -> None:
    save("one", CONTENT)
    monkeypatch.setenv("TUNDISH_CACHE", word)
    assert load("one") is None
    assert not save("two", CONTENT)
    assert not can_save()
    assert not (place / "two").exists()


def test_it_lies_where_the_platform_keeps_such_things(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    # Source: XDG Base Directory Specification, XDG_CACHE_HOME: $HOME/.cache where it is not set
    # or empty; relative paths are invalid and ignored. That and ~/Library/Caches: from memory.
    monkeypatch.setenv("HOME", str(tmp_path))
    for named in ("", "relative/path"):
        monkeypatch.setenv("XDG_CACHE_HOME", named)
        monkeypatch.setattr(sys, "platform", "linux")
        assert folder() == tmp_path / ".cache" / "tundish"
        monkeypatch.setattr(sys, "platform", "darwin")
        assert folder() == tmp_path / "Library" / "Caches" / "tundish"
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "x"))
    assert folder() == tmp_path / "x" / "tundish"
