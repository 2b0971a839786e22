"""A rulebook out of the store is the rulebook that was linked, and can never judge otherwise."""

import contextlib
import os
import shutil
import subprocess
import sys
from collections.abc import Iterator, Mapping
from dataclasses import fields
from pathlib import Path
from typing import Any

import pytest

from rulebook.packs import QUANTITY, RULE, SOURCES, TABLE, write_pack
from tundish.cache.store import load, save
from tundish.findings.assess import assess
from tundish.job.job import Job
from tundish.rulebook import rulebook as module
from tundish.rulebook.cache.fingerprint import fingerprint_of
from tundish.rulebook.files.pack import files_of
from tundish.rulebook.model.declared_facts import Declared
from tundish.rulebook.rulebook import Rulebook
from tundish.text.bundled_folders import bundled_folder
from tundish.text.problem import Refused
from verdicts import verdicts

pytestmark = pytest.mark.skipif(not hasattr(os, "geteuid"), reason="files have no owners here")
FILES = {
    "sources.toml": SOURCES,
    "facts.toml": '[colour]\nkind = "text"\nquestion = "Of which colour is it?"\n',
    "snow/base.toml": RULE,
    "snow/quantities.toml": QUANTITY,
    "tables/ratings.toml": TABLE,
}
SAMPLES = sorted(bundled_folder("sample_jobs").glob("*.toml"))


@pytest.fixture(name="place", autouse=True)
def place_of_its_own(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "caches"))
    monkeypatch.delenv("TUNDISH_CACHE", raising=False)
    return tmp_path / "caches" / "tundish"


@contextlib.contextmanager
def nothing_linked() -> Iterator[None]:
    """Fail where a rulebook is linked rather than read from the store."""

    def linked(_: object) -> None:
        raise AssertionError("linked anew")

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("tundish.rulebook.link.link_packs.link", linked)
        yield


def unstored(*folders: Path) -> Rulebook:
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("TUNDISH_CACHE", "off")
        return module._read(list(folders))


def twice(*folders: Path) -> Rulebook:
    """Read packs, and give them as the store gives them the second time."""
    module._read(list(folders))
    with nothing_linked():
        return module._read(list(folders))


def fingerprint(*folders: Path) -> str:
    return fingerprint_of(pack for folder in folders for pack in files_of(folder)).code


def same(one: Rulebook, other: Rulebook) -> None:
    for field in fields(Rulebook):
        if field.name in ("cache",):
            continue
        mine, theirs = getattr(one, field.name), getattr(other, field.name)
        if isinstance(mine, Mapping):
            assert list(mine) == list(theirs), field.name
            for key in mine:
                alike(mine[key], theirs[key])
        elif field.name == "scope":
            assert dict(mine.facts) == dict(theirs.facts)
            assert dict(mine.quantities) == dict(theirs.quantities)
        else:
            assert mine == theirs


def alike(mine: Any, theirs: Any) -> None:
    if isinstance(mine, Declared):  # kinds of fact are not to be compared
        assert (mine.fact, type(mine.kind)) == (theirs.fact, type(theirs.kind))
        return
    assert mine == theirs
    if hasattr(mine, "source") and hasattr(mine.source, "file"):
        assert mine.source.file == theirs.source.file
    for function in ("applies_where", "does_apply", "could_apply", "is_met", "calculate", "amount"):
        if hasattr(mine, function):
            assert getattr(mine, function).__code__ == getattr(theirs, function).__code__


def test_the_built_in_rulebook_comes_back_as_it_was() -> None:
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("TUNDISH_CACHE", "off")
        plain = Rulebook.built_in()
    back = twice(bundled_folder("rules"))
    same(plain, back)
    assert plain.digest == back.digest
    for path in SAMPLES:
        job = Job.from_file(path)
        assert verdicts(job, plain) == verdicts(job, back)
    for path in SAMPLES[::4]:
        job = Job.from_file(path)
        assert assess(job, plain) == assess(job, back)


def test_packs_laid_over_each_other_come_back_too(tmp_path: Path) -> None:
    stricter = 'replaces = "A stricter house."\n' + RULE
    base = write_pack(tmp_path / "base", FILES)
    over = write_pack(tmp_path / "over", {"sources.toml": "", "snow/base.toml": stricter})
    same(unstored(base, over), twice(base, over))


def test_places_in_files_are_told_from_the_store(tmp_path: Path) -> None:
    base = write_pack(tmp_path / "base", FILES)
    plain, back = unstored(base), twice(base)
    for path in (("requires",), ("case", 0)):
        ours = plain.rules["snow/base"].source.problem(path, "x")
        assert back.rules["snow/base"].source.problem(path, "x") == ours


def test_a_change_anywhere_is_a_new_rulebook(tmp_path: Path) -> None:
    base = write_pack(tmp_path / "base", FILES)
    job = {"site": {"snow_depth": "100 mm"}, "placement": {"height_below": "300 mm"}}
    before = assess(Job.from_data(job), module._read([base]))
    rule = base / "snow" / "base.toml"
    text = rule.read_text()
    rule.write_text(text.replace('severity = "fault"', 'severity = "danger"'))
    assert rule.read_text() != text
    after = assess(Job.from_data(job), module._read([base]))
    assert before.rulebook_digest != after.rulebook_digest
    assert {one.severity for one in before.findings} != {one.severity for one in after.findings}
    rule.write_text("broken")
    with pytest.raises(Refused):
        module._read([base])
    rule.write_text(text)
    with nothing_linked():
        assert module._read([base]).digest == before.rulebook_digest


def test_packs_in_another_order_or_under_another_name_are_not_taken_for_each_other(
    tmp_path: Path,
) -> None:
    one = write_pack(tmp_path / "one", FILES)
    other = write_pack(tmp_path / "other", {"sources.toml": "", "snow/more.toml": RULE})
    first = fingerprint(one, other)
    assert fingerprint(one, other) == first
    assert fingerprint(other, one) != first
    (other / "snow" / "more.toml").rename(other / "snow" / "most.toml")
    assert fingerprint(one, other) != first


def test_a_stored_rulebook_names_files_as_they_are_named_now(tmp_path: Path) -> None:
    one = write_pack(tmp_path / "one", FILES)
    module._read([one])
    shutil.copytree(one, tmp_path / "two")
    with nothing_linked():
        back = module._read([tmp_path / "two"])
    name = back.rules["snow/base"].source.file.name
    assert Path(name) == tmp_path / "two" / "snow" / "base.toml"


def test_a_broken_entry_is_linked_anew(tmp_path: Path, place: Path) -> None:
    base = write_pack(tmp_path / "base", FILES)
    plain = module._read([base])
    parts = [path for path in place.iterdir() if path.name != "key"]
    assert {path.suffix for path in parts} == {".entry", ".codes", ".proofs"}
    for part in parts:
        whole = part.read_bytes()
        for at in range(0, len(whole), max(1, len(whole) // 60)):
            part.write_bytes(whole[:at] + bytes([whole[at] ^ 255]) + whole[at + 1 :])
            same(plain, module._read([base]))


def test_what_is_gone_beside_an_entry_is_made_anew(tmp_path: Path, place: Path) -> None:
    base = write_pack(tmp_path / "base", FILES)
    plain = unstored(base)
    module._read([base])
    for part in list(place.glob("*.codes")) + list(place.glob("*.proofs")):
        part.unlink()
    same(plain, module._read([base]))


def test_what_travels_with_the_program_is_taken_for_its_own_rules_alone(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("TUNDISH_CACHE", "off")
    base = write_pack(tmp_path / "base", FILES)
    plain = module._read([base])
    monkeypatch.setattr(module, "bundled_folder", lambda _: base)
    carried = tmp_path / "linked"
    carried.mkdir()
    module.prebuild(carried).cached("answer", lambda: compile("42", "made", "eval"))
    monkeypatch.setattr("tundish.cache.prebuilt.FOLDER", carried)
    with nothing_linked():
        back = module._read([base])
    same(plain, back)
    assert eval(back.cached("answer", lambda: compile("1", "made", "eval"))) == 42
    for part in carried.iterdir():
        whole = part.read_bytes()
        for at in range(0, len(whole), max(1, len(whole) // 40)):
            part.write_bytes(whole[:at] + bytes([whole[at] ^ 255]) + whole[at + 1 :])
            same(plain, module._read([base]))
        part.write_bytes(whole)
    (base / "snow" / "base.toml").write_text(RULE.replace('"fault"', '"danger"'))
    assert module._read([base]).rules["snow/base"].severity == "danger"


def test_code_made_of_a_rulebook_is_kept_beside_it(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    base = write_pack(tmp_path / "base", FILES)
    made: list[int] = []

    def make() -> Any:
        made.append(1)
        return compile("40 + 2", "made", "eval")

    for _ in range(3):
        code = module._read([base]).cached("whole", make)
        assert eval(code) == 42
    assert len(made) == 1
    monkeypatch.setenv("TUNDISH_CACHE", "off")
    unstored(base).cached("whole", make)
    assert len(made) == 2


def test_where_nothing_can_be_kept_all_goes_on(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    base = write_pack(tmp_path / "base", FILES)
    (tmp_path / "file").write_text("")
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "file"))
    same(unstored(base), module._read([base]))
    assert not save("one", b"") and load("one") is None


def test_two_at_once_do_each_other_no_harm(tmp_path: Path) -> None:
    base = write_pack(tmp_path / "base", FILES)
    code = (
        "import sys; from pathlib import Path; from tundish.rulebook import rulebook as m;"
        f"print(m._read([Path({str(base)!r})]).digest)"
    )
    running = [
        subprocess.Popen([sys.executable, "-c", code], stdout=subprocess.PIPE, text=True)
        for _ in range(4)
    ]
    told = {process.communicate(timeout=120)[0] for process in running}
    assert told == {unstored(base).digest + "\n"}
    with nothing_linked():
        module._read([base])
