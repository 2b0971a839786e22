"""The worst that a pack of rules from another firm can do is to be refused, soon."""

from __future__ import annotations

import os
from collections.abc import Iterator
from pathlib import Path

import pytest

from hostile.test_job_files import ended_if_it_hangs
from report.packs import write_pack
from rulebook.packs import RULE
from tundish import Refused, Rulebook
from tundish.text.bounds import MOST_PROBLEMS, MOST_REGIONS

__all__ = ["ended_if_it_hangs"]

MANY = 5_000


def lots(text: str, between: str = ",") -> str:
    return between.join(text.replace("%", str(at)) for at in range(MANY))


PACKS: dict[str, dict[str, str]] = {
    "facts to adjust": {
        "t/a.toml": RULE + f"\nadjust = [{lots(chr(39) + 'site.snow%' + chr(39))}]"
    },
    "keys": {"t/a.toml": RULE + "\n" + lots("key_% = 1", "\n")},
    "regions": {"t/a.toml": RULE + f"\nregions = [{lots(chr(39) + 'GB' + chr(39))}]"},
    "retired": {
        "pack.toml": "title = 'x'\n" + lots("[[retire]]\nrule = 't/r%'\nbecause = 'So.'", "\n")
    },
    "sources": {"sources.toml": lots("[s%]\ntitle = 'x'\nbasis = 'hearsay'", "\n")},
    "declared": {
        "facts.toml": lots("[f%]\nkind = 'quantity'\nquestion = 'What?'\nunit = 'mmm'", "\n"),
        "t/a.toml": RULE,
    },
    "rows": {
        "tables/a.toml": "title = 'x'\nkeys = [{ name = 'a' }]\ngives = [{ name = 'b' }]\n"
        f"cite = []\nreviewed = 2026-11-25\nrows = [{lots('[1, 2, 3]')}]"
    },
    "no file": {"t/folder.toml/x": ""},
    "capitals": {"t/a.toml": RULE, "t/A.toml": RULE},
    "another alphabet": {"t/\u0430.toml": RULE},
    "accents apart": {"t/cafe\u0301.toml": RULE},
    "control character": {"t/a\x1b[2J.toml": RULE},
    "no name": {"t/.toml.toml": RULE, "t/-.toml": RULE},
    "deep": {"a/" * 100 + "r.toml": RULE},
    "not UTF-8": {"t/a.toml": "title = '\udcff'"},
}


@pytest.fixture(autouse=True)
def _ended(ended_if_it_hangs: None) -> Iterator[None]:
    yield


def refused(folder: Path) -> Refused:
    with pytest.raises(Refused) as caught:
        Rulebook.load(folder, with_built_in=False)
    assert len(caught.value.problems) <= MOST_PROBLEMS + 1
    for problem in caught.value.problems:
        assert "\x1b" not in str(problem)
    return caught.value


@pytest.mark.parametrize("files", PACKS.values(), ids=PACKS)
def test_it_is_refused_soon(tmp_path: Path, files: dict[str, str]) -> None:
    for name, text in files.items():
        path = tmp_path / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8", errors="surrogateescape")
    refused(tmp_path)


@pytest.mark.parametrize(
    "target", ["/dev/zero", "/etc/passwd", "../outside.toml", "a.toml", "pipe"]
)
def test_a_link_that_leads_out_or_nowhere_is_refused(tmp_path: Path, target: str) -> None:
    (tmp_path / "outside.toml").write_text(RULE)
    topic = tmp_path / "pack" / "t"
    topic.mkdir(parents=True)
    os.mkfifo(topic / "pipe")
    (topic / "a.toml").symlink_to(target if target != "../outside.toml" else "../../outside.toml")
    refused(tmp_path / "pack")


def test_a_folder_of_a_country_that_leads_out_is_refused(tmp_path: Path) -> None:
    pack = write_pack(tmp_path / "pack")
    (pack / "national").mkdir()
    (pack / "national" / "GB").symlink_to("/")
    assert "leads out" in str(refused(pack))


def test_a_topic_that_leads_to_itself_is_read_once(tmp_path: Path) -> None:
    pack = write_pack(tmp_path / "pack")
    (pack / "placement" / "up").symlink_to("..")
    assert Rulebook.load(pack, with_built_in=False).rules


def test_a_pack_may_itself_be_reached_by_a_link(tmp_path: Path) -> None:
    write_pack(tmp_path / "pack")
    (tmp_path / "link").symlink_to("pack")
    assert Rulebook.load(tmp_path / "link", with_built_in=False).rules


def test_regions_are_read_to_the_bound(tmp_path: Path) -> None:
    for number, held in ((MOST_REGIONS, True), (MOST_REGIONS + 1, False)):
        codes = [f"{chr(65 + at // 26)}{chr(65 + at % 26)}" for at in range(number)]
        path = tmp_path / str(number) / "t" / "a.toml"
        path.parent.mkdir(parents=True)
        path.write_text(f"regions = {codes}\n" + RULE)
        told = [str(one) for one in _problems(tmp_path / str(number))]
        assert any("'regions'" in one for one in told) is not held


def _problems(folder: Path) -> tuple[object, ...]:
    try:
        Rulebook.load(folder, with_built_in=False)
    except Refused as refused:
        return refused.problems
    return ()
