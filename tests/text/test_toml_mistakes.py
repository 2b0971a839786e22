"""Mistakes of TOML: each is told by a sentence, at its place, and its cure can be read."""

from __future__ import annotations

import datetime
import tomllib
from pathlib import Path
from typing import Any

import pytest

from tundish.text.bounds import MOST_PROBLEMS
from tundish.text.bundled_folders import bundled_folder
from tundish.text.problem import Problem, Refused
from tundish.text.toml_file import parse_mended, parse_toml
from tundish.text.toml_mistakes.mending import mended
from tundish.text.toml_mistakes.scanner import Scanner

Case = tuple[str, str, int, Any]

WORDS: list[Case] = [
    ("a = yes", "write true.", 5, True),
    ("a = True", "write true.", 5, True),
    ("a = on", "write true.", 5, True),
    ("a = no", "write false.", 5, False),
    ("a = FALSE", "write false.", 5, False),
    ("a = off  # for now", "write false.", 5, False),
    ("a = none", 'write "none".', 5, "none"),
    ("a = None", 'write "none".', 5, "none"),
    ("a = null", "leave the line out while it is not known", 5, "none"),
    ("a = copper", 'write "copper".', 5, "copper"),
    ("a = copper 28 x 0.9", 'write "copper 28 x 0.9".', 5, "copper 28 x 0.9"),
    ("a = [copper, steel]", 'write "copper".', 6, ["copper", "steel"]),
    ("a = { b = yes }", "write true.", 11, {"b": True}),
]

NUMBERS: list[Case] = [
    ("a = 120 mm", 'write "120 mm".', 5, "120 mm"),
    ("a = 120mm", 'write "120 mm".', 5, "120 mm"),
    ("a = 5 %", 'write "5 %".', 5, "5 %"),
    ("a = -3.5 degC", 'write "-3.5 degC".', 5, "-3.5 degC"),
    ("a = 120\u00a0mm", 'write "120 mm".', 5, "120 mm"),
    ('a = 3/4" pipe', "write '3/4\" pipe'.", 5, '3/4" pipe'),
    ("a = [120 mm, 3 m]", 'write "120 mm".', 6, ["120 mm", "3 m"]),
    ("a = 3,5", "write 3.5, or with its unit in quotes", 5, 3.5),
    ("a = 3,500", "two ways; write 3.500 or 3500.", 5, 3.5),
    ("a = 3,5 m", 'write "3.5 m".', 5, "3.5 m"),
    ("a = 1,500 m", 'two ways; write "1.500 m" or "1500 m".', 5, "1.500 m"),
    ("a = { b = 3,5 m, c = 1 }", 'write "3.5 m".', 11, {"b": "3.5 m", "c": 1}),
    ("a = .5", "write 0.5.", 5, 0.5),
    ("a = 5.", "write 5.0.", 5, 5.0),
    ("a = 007", "write 7, or", 5, 7),
    ("a = <3 mm", 'write "<3 mm".', 5, "<3 mm"),
]

DAY = datetime.date(2026, 11, 30)
DAYS: list[Case] = [
    ("a = 30.11.2026", "write 2026-11-30.", 5, DAY),
    ("a = 30-11-26", "write 2026-11-30.", 5, DAY),
    ("a = 11/30/2026", "write 2026-11-30.", 5, DAY),
    ("a = 30/11/2026", "write 2026-11-30.", 5, DAY),
    ("a = 2026/11/30", "write 2026-11-30.", 5, DAY),
    ("a = 5/6/2026", "write 2026-06-05 or 2026-05-06.", 5, datetime.date(2026, 6, 5)),
    ("a = 2026-2-3", "write 2026-02-03.", 5, datetime.date(2026, 2, 3)),
    ("a = 2026-02-30", "There is no day '2026-02-30'", 5, "2026-02-30"),
    ("a = 31.11.2026", "There is no day '31.11.2026'", 5, "31.11.2026"),
]

QUOTES: list[Case] = [
    ("a = “120 mm”", 'curly; write "120 mm".', 5, "120 mm"),
    ("a = ‘120 mm’", 'curly; write "120 mm".', 5, "120 mm"),
    ("a = „120 mm“", 'curly; write "120 mm".', 5, "120 mm"),
    ("a = «120 mm»", 'curly; write "120 mm".', 5, "120 mm"),
    ('a = "120 mm”', 'curly; write "120 mm".', 5, "120 mm"),
    ('a = “120 mm"', 'curly; write "120 mm".', 5, "120 mm"),
    ('a = "abc', 'not closed; write "abc".', 5, "abc"),
    ("a = 'abc", "not closed; write 'abc'.", 5, "abc"),
    ('a = "abc # def', 'not closed; write " where it ends.', 5, "abc # def"),
    ('a = ["b, "c"]', 'not closed; write "b".', 6, ["b", "c"]),
    ('a = ["b", "c]', "no closing", 11, ["b", "c"]),
    ("a = 'it's'", 'write "it\'s".', 8, "it's"),
    ('a = "the "big" one"', "write 'the \"big\" one'.", 10, 'the "big" one'),
    ('a = "C:\\jobs"', "write \"C:/jobs\" or 'C:\\jobs'.", 8, "C:\\jobs"),
    ('a = "jobs\\"', "write \"jobs/\" or 'jobs\\'.", 10, "jobs\\"),
    ('a = "x\\u12"', "a backslash begins an escape", 7, "x\\u12"),
]

APOSTROPHES: list[Case] = [
    (
        "a = Mrs. Smith's bedroom",
        'quotes; write "Mrs. Smith\'s bedroom".',
        5,
        "Mrs. Smith's bedroom",
    ),
    ("a = it's  # isn't it", 'quotes; write "it\'s".', 5, "it's"),
    ("a = Smith's and Brown's", "in quotes", 5, "Smith's and Brown's"),
]

SIGNS: list[Case] = [
    ('a: "12 cm"', "stands =, not :.", 2, "12 cm"),
    ("a := 3", "stands =, not :=.", 3, 3),
    ("a == 3", "one =", 3, 3),
    ("a => 3", "one =", 3, 3),
    ('a "12 cm"', "stands =; write it here.", 3, "12 cm"),
    ("a = { b: 1 }", "stands =, not :.", 8, {"b": 1}),
    ("a = 1 // note", "write # for //.", 7, 1),
    ('a = "x" ; note', "write # for ;.", 9, "x"),
    ("a = 1;", "without a semicolon", 6, 1),
    ("a = 1,", "without a comma", 6, 1),
    ("a = 1]", "closes nothing", 6, 1),
    ('a = "x" and more', "stands more; put # before it", 9, "x"),
    ("a = 1 b = 2", "another key; write it on a line of its own", 7, 1),
    ("a\u00a0= 3", "U+00A0 (no-break space)", 2, 3),
    ("a =\u00a03", "type a plain space", 4, 3),
    ("\u00a0a = 3", "type a plain space", 1, 3),
    ("a\u200b = 3", "U+200B (zero width space), which TOML does not take; delete it.", 2, 3),
    ("a = 'x\0y'", "U+0000 (a control character)", 7, "xy"),
]

BRACKETS: list[Case] = [
    ("a = [1, 2", "The [ that opens here is not closed; write ]", 5, [1, 2]),
    ("a = [[1], [2]", "The [ that opens here", 5, [[1], [2]]),
    ("a = { b = 1", "The { that opens here is not closed; write }", 5, {"b": 1}),
    ("a = { b = 1, }", "no comma; delete it", 12, {"b": 1}),
    ('a = ["b" "c"]', "no comma; write one", 10, ["b", "c"]),
    ('a = "b", "c"', 'square brackets; write ["b", "c"].', 5, ["b", "c"]),
    ("a = (1, 2)", "square brackets; write [1, 2].", 5, [1, 2]),
]

KNOWN = [*WORDS, *NUMBERS, *DAYS, *QUOTES, *APOSTROPHES, *SIGNS, *BRACKETS]


PROSE = [
    "What feet are put under the unit?",
    "(north, south or west)",
    "There's one foot under it",
    "Measured on a map",
    "Is none there?",
    "0 m where no water ever stands.",
]


@pytest.mark.parametrize("line", PROSE)
def test_a_line_for_reading_without_its_mark_is_told(line: str) -> None:
    text = f"a = 1\n{line}\nb = 2\n"
    (problem,) = told(text)
    assert problem.sentence.startswith("This is no fact; put # before it if it is for reading.")
    assert (problem.line, problem.column) == (2, 1)
    assert mended(text, "job.toml").data == {"a": 1, "b": 2}


@pytest.mark.parametrize("line", ['name "the big living room one"', "altitude 40 m", "site: x y"])
def test_a_key_and_a_value_are_no_line_for_reading(line: str) -> None:
    assert "for reading" not in told(f"{line}\n")[0].sentence


def told(text: str) -> tuple[Problem, ...]:
    with pytest.raises(Refused) as caught:
        parse_toml(text, "job.toml")
    return caught.value.problems


@pytest.mark.parametrize(("line", "said", "column", "value"), KNOWN, ids=[one[0] for one in KNOWN])
def test_a_mistake_is_told_at_its_place_and_its_cure_reads(
    line: str, said: str, column: int, value: object
) -> None:
    text = f"before = 1\n{line}\nafter = 2\n"
    problem = told(text)[0]
    assert said in problem.sentence
    assert (problem.line, problem.column) == (2, column)
    copy = mended(text, "job.toml")
    assert copy.text is not None
    assert tomllib.loads(copy.text) == {"before": 1, "a": value, "after": 2}
    assert copy.text.count("\n") == text.count("\n")


KEYS = [
    ("snow depth = 1", "A key has no spaces; write snow_depth.", 1, {"snow_depth": 1}),
    ("a.snow depth = 1", "write a.snow_depth.", 1, {"a": {"snow_depth": 1}}),
    ("höhe = 1", 'write "höhe"', 1, {"höhe": 1}),
    ("a..b = 1", "write a.b.", 1, {"a": {"b": 1}}),
    ("[site", "The header is not closed; write [site].", 6, {"site": {}}),
    ("[[run]", "write [run], or [[run]] for an item of a list.", 6, {"run": {}}),
    ("[[run", "write [[run]].", 6, {"run": [{}]}),
    ("[run]]", "closed too often; write [run].", 5, {"run": {}}),
    ("[snow depth]", "write snow_depth.", 2, {"snow_depth": {}}),
    ("[site] a = 1", "another key; write it on a line of its own", 8, {"site": {}}),
    ("site:", "write [site].", 5, {"site": {}}),
    ("a =", "no value; write one, or leave the line out", 4, {}),
    ("// note", "write # for //.", 1, {}),
    ("; note", "write # for ;.", 1, {}),
]


@pytest.mark.parametrize(("line", "said", "column", "data"), KEYS, ids=[one[0] for one in KEYS])
def test_so_is_one_in_a_key_or_a_header(
    line: str, said: str, column: int, data: dict[str, Any]
) -> None:
    (problem,) = told(f"\n{line}\n")
    assert said in problem.sentence
    assert (problem.line, problem.column) == (2, column)
    assert mended(f"\n{line}\n", "job.toml").data == data


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("= 5", "there is no key"),
        ("snow_depth", "no = and no value; write snow_depth = and the value."),
        ("[]", "A header has a name"),
        ("- one\n- two", "The entries of a list stand in brackets"),
        ('{\n "site": {}\n}', "this looks like JSON"),
        ("a = {\n b = 1,\n c = 2\n}", "A table in braces stands on one line"),
        ("a = { b = 1, b = 2 }", "This key stands twice"),
        ('["b", 1],\n["c", 2],', "No list is open here"),
        ("a = 1\rb = 2\r", "carriage return"),
        ('"key = 3', "The key that begins here is not closed"),
    ],
)
def test_what_nobody_can_mend_is_told_once(text: str, said: str) -> None:
    (problem,) = told(text)
    assert said in problem.sentence
    assert problem.line == 1


def test_what_is_not_known_is_told_as_the_reader_of_toml_has_it() -> None:
    (problem,) = told("a = 1\nb = @{}\n")
    assert problem.sentence.startswith("This is not TOML: ")
    assert (problem.line, problem.column) == (2, 5)


def test_a_problem_shows_the_line_and_carets_below_the_place() -> None:
    (problem,) = told("[site]\nbonding = yes  # both\n")
    rows = problem.sentence.split("\n")
    assert rows[1:] == ["    bonding = yes  # both", "              ^^^"]


@pytest.mark.parametrize("before", [0, 20, 35, 200])
@pytest.mark.parametrize("behind", [0, 40, 200])
def test_a_long_line_is_cut_around_its_place(before: int, behind: int) -> None:
    (problem,) = told(f"{'k' * before}k = yes # {'y' * behind}\n")
    _, line, carets = problem.sentence.split("\n")
    assert line[carets.index("^") :][:3] == "yes"
    assert carets.count("^") == 3
    assert len(line) <= 76


def test_control_characters_are_not_shown_as_such() -> None:
    (problem,) = told("a = 'x\x1b[2J'\n")
    assert problem.sentence.replace("\n", "").isprintable()


def test_all_mistakes_are_told_in_one_run_and_down_the_page() -> None:
    text = "a = yes\nb = 120 mm // wide\n[c\nd: 3,5\ne = [\n 1\n 2,\n x\n[f]\ng = “x”\n"
    found = [(each.line, each.column) for each in told(text)]
    assert found == sorted(found)
    assert {line for line, _ in found} == {1, 2, 3, 4, 5, 7, 8, 10}
    assert mended(text, "").data == {
        "a": True,
        "b": "120 mm",
        "c": {"d": 3.5, "e": [1, 2, "x"]},
        "f": {"g": "x"},
    }


def test_columns_are_those_of_the_line_as_it_was_written() -> None:
    found = told("a = [yes, copper, 120 mm, 3 m]\n")
    assert [each.column for each in found] == [6, 11, 19, 27]


def test_windows_line_ends_shift_no_place() -> None:
    assert [(each.line, each.column) for each in told("a = 1\r\nb = yes\r\n")] == [(2, 5)]


def test_what_is_in_a_long_text_or_a_list_begins_no_statement() -> None:
    text = 'a = """\n[b]\nc = yes\n"""\nd = [\n  [1],\n  ["x"], # [y]\n]\n'
    assert [each.line for each in told(text + "e = yes\n")] == [9]


def test_a_long_text_that_is_not_closed_ends_before_the_next_statement() -> None:
    found = told('a = """\nx\ny\n[b]\nc = yes\n')
    assert [(each.line, each.column) for each in found] == [(1, 5), (5, 5)]


def test_more_than_the_most_problems_are_not_told() -> None:
    found = told("a = yes\n" * (MOST_PROBLEMS + 5))
    assert len(found) == MOST_PROBLEMS + 1
    assert "what comes after was not looked at" in found[0].sentence


def test_a_mended_file_says_its_mistakes() -> None:
    file = parse_mended("a = yes\nb = 2\n", "job.toml")
    assert file.data == {"a": True, "b": 2}
    assert [each.line for each in file.mistakes] == [1]
    assert parse_mended("a = true\n", "job.toml").mistakes == ()


def toml_files() -> list[Path]:
    return [
        path
        for folder in ("rules", "sample_jobs")
        for path in sorted(bundled_folder(folder).rglob("*.toml"))
    ]


def test_every_statement_of_a_good_file_is_found_whole() -> None:
    """A statement cut at the wrong place would be told as a mistake that is not there."""
    files = toml_files()
    assert len(files) > 100
    for path in files:
        text = path.read_text()
        for statement in Scanner(text).statements():
            assert tomllib.loads(statement.text), path


def test_a_mistake_at_the_end_of_a_good_file_is_the_only_one() -> None:
    for path in toml_files()[::25]:
        text = path.read_text() + "\nmistake = yes\n"
        assert [each.line for each in told(text)] == [text.count("\n")], path
