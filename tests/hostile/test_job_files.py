"""The worst that a job file can do is to be refused: soon, with a sentence, and in plain text."""

from __future__ import annotations

import os
import signal
from collections.abc import Iterator
from pathlib import Path
from typing import NoReturn

import pytest

from tundish import Job, Refused
from tundish.findings.judged_job import JudgedJob
from tundish.text.bounds import LARGEST_FILE, LONGEST_LIST, MOST_PROBLEMS
from verdicts import verdicts

SECONDS = 60
"""Far more than any refusal takes; a test that hangs is ended."""

BY_THE_THOUSAND = {
    "keys": "[job]\n" + "".join(f"unknown_{at} = 1\n" for at in range(60_000)),
    "tables": "".join(f"[t{at}]\n" for at in range(60_000)),
    "misspelt": "[site]\n" + "".join(f"snow_depht_{at} = 1\n" for at in range(60_000)),
    "arrays": f"a = {'[' * 10_000}{']' * 10_000}",
    "inline tables": f"a = {'{a=' * 10_000}1{'}' * 10_000}",
    "dotted key": f"a{'.a' * 500_000} = 1",
    "dotted key in quotes": f"""a{'."a"' * 300_000} = 1""",
    "dotted header": f"[a{'.a' * 500_000}]",
    "dots within a table": f"a = {{ a{' . a' * 500_000} = 1 }}",
    "list on one line": f"[water]\nrun = [{'1,' * 300_000}]",
    "list of texts": f"[water]\nrun = [{chr(34)}°{chr(34)}{',1' * 300_000}]",
    "items": "[[water.run]]\n" * (LONGEST_LIST + 1),
    "wrong items": "[[water.run]]\nx = 1\n" * LONGEST_LIST,
    "waivers": "[[waiver]]\nrule = 'a/b'\n" * LONGEST_LIST,
    "tolerances": "[[tolerance]]\nof = 'site.snow_depht'\n" * LONGEST_LIST,
    "more": "[more]\n" + "".join(f"a{at} = 1\n" for at in range(60_000)),
    "long number": f"[site]\naltitude = {'9' * 100_000}",
    "long hexadecimal number": f"[site]\naltitude = 0x{'f' * 1_000_000}",
    "long text": f"[job]\ntitle = '{'x' * (LARGEST_FILE - 100)}'",
    "too much": "#" * (LARGEST_FILE + 1),
}

MISTAKES_BY_THE_THOUSAND = {
    "words without quotes": "a = yes\n" * 100_000,
    "one at the end": "".join(f"k{at} = 1\n" for at in range(20_000)) + "b = yes\n",
    "lists that are not closed": "a = [\n" * 150_000,
    "braces that are not closed": "a = {\n" * 150_000,
    "texts that are not closed": 'a = """x\n' * 100_000,
    "three quotes and backslashes": '"""\\' * 250_000,
    "entries without commas": f"a = [{'1 2, ' * 200_000}]",
    "line ends in a list": f"a = [{chr(10) * 1_000_000}",
    "headers that are not closed": "[a\n" * 250_000,
    "tables opened again": "[a]\n[[a]]\n" * 100_000,
    "backslashes in a text": 'a = "' + "\\q" * 500_000 + '"',
    "signs of equality": f"a {'=' * 1_000_000}",
    "quotes": f"""a = {"'a" * 500_000}""",
    "one header": f"[{'a' * 1_000_000}",
    "NULs": "\0" * 1_000_000,
}

BROKEN = {
    "nothing to end a line": "[job]\rtitle = 'a'\r",
    "NUL": "[job]\ntitle = 'a\0b'",
    "control character": '[job]\ntitle = "\\u001b[2J"',
    "turned round": '[job]\ntitle = "\\u202egnp.exe"',
    "bell in a key": '[job]\n"\\u0007" = 1',
    "key twice": "[job]\ntitle = 'a'\ntitle = 'b'",
    "table twice": "[job]\ntitle = 'a'\n[job]\nstage = 'design'",
    "key of another alphabet": "[site]\n\u0430ltitude = '1 m'",
    "quoted key of another alphabet": '[site]\n"\u0430ltitude" = "1 m"',
    "key in capitals": "[Site]\naltitude = '1 m'",
    "key taken apart by accents": '[site]\n"altitude\u0301" = "1 m"',
    "no such day": "[job]\ndate = 2026-02-30",
    "day before all days": "[job]\ndate = 0000-01-01",
    "name twice": "[[water.run]]\nname = 'a'\n[[water.run]]\nname = 'a'",
    "markup": "[job]\nstage = '[red]x[/red]<script>'",
    "of itself": "of_job = 'job.toml'",
}

NUMBERS = ["1e400", "nan", "inf", "-inf", "9" * 400, "1e308 km", "nan m", "inf m", "-1e999 m"]


@pytest.fixture(autouse=True)
def ended_if_it_hangs() -> Iterator[None]:
    def end(*_: object) -> NoReturn:
        raise TimeoutError("it hangs")

    before = signal.signal(signal.SIGALRM, end)
    signal.alarm(SECONDS)
    yield
    signal.alarm(0)
    signal.signal(signal.SIGALRM, before)


def refused(path: Path) -> Refused:
    with pytest.raises(Refused) as caught:
        JudgedJob(Job.from_file(path))
    for problem in caught.value.problems:
        assert str(problem).isprintable()
        assert len(problem.sentence) < 2_000
    return caught.value


@pytest.mark.parametrize("text", BY_THE_THOUSAND.values(), ids=BY_THE_THOUSAND)
def test_what_comes_by_the_thousand_is_refused_soon(tmp_path: Path, text: str) -> None:
    path = tmp_path / "job.toml"
    path.write_text(text, encoding="utf-8")
    assert 1 <= len(refused(path).problems) <= MOST_PROBLEMS + 1


@pytest.mark.parametrize("text", MISTAKES_BY_THE_THOUSAND.values(), ids=MISTAKES_BY_THE_THOUSAND)
def test_so_are_mistakes_of_toml_by_the_thousand(tmp_path: Path, text: str) -> None:
    path = tmp_path / "job.toml"
    path.write_text(text, encoding="utf-8")
    assert 1 <= len(refused(path).problems) <= MOST_PROBLEMS + 1


@pytest.mark.parametrize("text", BROKEN.values(), ids=BROKEN)
def test_what_is_not_as_it_should_be_is_refused(tmp_path: Path, text: str) -> None:
    path = tmp_path / "job.toml"
    path.write_text(text, encoding="utf-8", newline="")
    refused(path)


@pytest.mark.parametrize("number", NUMBERS, ids=lambda number: number[:9])
@pytest.mark.parametrize("quoted", ["{}", "'{}'"])
def test_a_number_that_nothing_can_have_is_refused(
    tmp_path: Path, number: str, quoted: str
) -> None:
    path = tmp_path / "job.toml"
    path.write_text(f"[site]\naltitude = {quoted.format(number)}")
    refused(path)


@pytest.mark.parametrize("content", [b"\xff\xfe[\0", b"[job]\ntitle = '\xc3'", b"\xed\xa0\x80"])
def test_what_is_not_utf_8_is_refused_at_its_place(tmp_path: Path, content: bytes) -> None:
    path = tmp_path / "job.toml"
    path.write_bytes(content)
    (problem,) = refused(path).problems
    assert problem.line is not None
    assert "UTF-8" in problem.sentence


def test_a_mark_of_byte_order_and_the_line_ends_of_windows_are_read(tmp_path: Path) -> None:
    path = tmp_path / "job.toml"
    path.write_bytes(b"\xef\xbb\xbf[job]\r\ntitle = 'a'\r\n\r\n[site]\r\naltitude = 'x'\r\n")
    (problem,) = refused(path).problems
    assert (problem.line, problem.column) == (5, 13)


def test_zero_below_zero_is_zero(tmp_path: Path) -> None:
    found = []
    for written in ("0 m", "-0 m"):
        path = tmp_path / "job.toml"
        path.write_text(f"[site]\naltitude = '{written}'")
        found.append(verdicts(Job.from_file(path)))
    assert found[0] == found[1]


NO_FILES = [
    "folder",
    "pipe",
    "loop",
    "device",
    "/dev/zero",
    "sparse",
    "nowhere",
    "a\0b",
    "x" * 5_000,
]


def make(folder: Path) -> None:
    (folder / "folder").mkdir()
    os.mkfifo(folder / "pipe")
    (folder / "loop").symlink_to("loop")
    (folder / "device").symlink_to("/dev/zero")
    with (folder / "sparse").open("wb") as file:
        file.truncate(1 << 40)


@pytest.mark.parametrize("name", NO_FILES, ids=lambda name: repr(name[:12]))
def test_what_is_no_plain_file_is_refused_and_not_waited_for(tmp_path: Path, name: str) -> None:
    make(tmp_path)
    refused(tmp_path / name)


@pytest.mark.parametrize("key", ["unit_sheet", "based_on", "of_job"])
@pytest.mark.parametrize("name", [*NO_FILES, "..", ".", "C:\\\\sheet.toml", "\\\\\\\\host\\\\x"])
def test_so_it_is_where_a_job_names_it(tmp_path: Path, key: str, name: str) -> None:
    make(tmp_path)
    path = tmp_path / "job.toml"
    path.write_text(f'{key} = "{name}"'.replace("\0", "\\u0000"))
    refused(path)


@pytest.mark.parametrize("key", ["unit_sheet", "based_on", "of_job"])
def test_no_text_of_a_file_that_is_no_sheet_is_told(tmp_path: Path, key: str) -> None:
    (tmp_path / "secret.toml").write_text("[login]\nword = 'hunter2'\n[unit]\nmodel = 1\n")
    (tmp_path / "jobs").mkdir()
    path = tmp_path / "jobs" / "job.toml"
    path.write_text(f"{key} = '../secret.toml'")
    assert "hunter2" not in str(refused(path))


def test_a_sheet_with_items_by_the_thousand_is_refused_soon(tmp_path: Path) -> None:
    items = "".join(f"[[water.run]]\nname = 'run {at}'\n" for at in range(LONGEST_LIST))
    (tmp_path / "job.toml").write_text(items)
    path = tmp_path / "sheet.toml"
    path.write_text("of_job = 'job.toml'\n" + items.replace("run ", "rum "))
    assert len(refused(path).problems) <= MOST_PROBLEMS + 1


@pytest.mark.parametrize(
    "text",
    [f"a = {'0' * 80_000}x", "a = {\n" + "#\n" * 40_000 + "x", "a = {\n" + "#\n" * 40_000 + "}\n"],
    ids=["zeros", "comments in braces", "comments in closed braces"],
)
def test_what_is_no_toml_is_looked_through_once(text: str) -> None:
    # Whatever grows with the square here takes minutes, and is ended.
    with pytest.raises(Refused):
        Job.from_toml(f"{text}\nb = yes\n")
