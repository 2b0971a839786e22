"""Tables and keys of TOML that exclude each other: both lines are named."""

from __future__ import annotations

import tomllib

import pytest

from tundish.text.problem import Refused
from tundish.text.toml_file import parse_toml
from tundish.text.toml_mistakes.mending import mended

CLASHES = [
    ("a = 1\nb = 2\na = 3", 3, 1, "'a' stands twice in this table: here and on line 1"),
    ("[t]\na.b = 1\na.b = 3", 3, 1, "'a.b' stands twice in this table: here and on line 2"),
    ("[t]\n'a' = 1\n  a = 3", 3, 3, "'a' stands twice in this table: here and on line 2"),
    ("[a]\n[b]\n[a]\nc = 1", 3, 1, "[a] is opened twice: here and on line 1; put the lines"),
    ("[[r]]\n[r.a]\n[[r]]\n[r.a]\n[r.a]", 5, 1, "[r.a] is opened twice: here and on line 4"),
    ("[case]\na = 1\n[[case]]\na = 2", 1, 1, "list of tables on line 3; write [[case]] here too"),
    ("[[case]]\na = 1\n[case]\na = 2", 3, 1, "from line 1 on; write [[case]] here too"),
    ("a = 1\na.b = 2", 2, 1, "'a' has a value on line 1, so nothing can stand inside it"),
    ("a = 1\n[a.b]", 2, 1, "'a' has a value on line 1, so nothing can stand inside it"),
    ("a = 1\n[a]", 2, 1, "'a' has a value on line 1, so it is no table here"),
    ("a = []\n[[a]]", 2, 1, "'a' has a value on line 1, so it is no table here"),
    ("a = {b = 1}\na.c = 2", 2, 1, "'a' was written whole in braces on line 1"),
    ("a.b = {}\n\na.b.c = 2", 3, 1, "Line 1 says {} of 'a.b'; take that line away."),
    ("a = {}\n[a]\nc = 2", 2, 1, "Line 1 says {} of 'a'; take that line away."),
    ("a = { }\n[a.b.c]", 2, 1, "Line 1 says {} of 'a'; take that line away."),
    ("[t]\na = {} # y\na.c = 2", 3, 1, "Line 2 says {} of 'a'; take that line away."),
    ("a.b = 2\na = {}", 2, 1, "More is said of 'a' from line 1 on; take this line away."),
    ("a = {}\na = {}", 2, 1, "'a' stands twice in this table: here and on line 1"),
    ("a = {b = 1}\n[a.c]", 2, 1, "'a' was written whole in braces on line 1"),
    ("[a]\nb.c = 1\n[a.b]", 3, 1, "'a.b' was begun by keys with dots on line 2"),
    ("s.a = 1\n[s]\nb = 2", 2, 1, "line 1; put the lines together: write s.b = … there, without"),
    ("s.a = 1\n[s]\ns.b = 2", 2, 1, "write s.b = … there, without the header [s]."),
    ("s.a = 1\n[[s]]", 2, 1, "write s.name = … there, without the header [[s]]."),
    ("[a]\nb.c = 1\n[a.b]\nd = 1", 3, 1, "write b.d = … there, without the header [a.b]."),
    ("[a.b]\nc = 1\n[a]\nb.d = 1", 4, 1, "'b' has a header of its own on line 1"),
    ("[a.b]\nc = 1\n[a]\nb = 1", 4, 1, "'b' is a table from line 1 on"),
    ("[a.b]\nc = 1\n[[a]]", 3, 1, "'a' is a table from line 1 on; write [[a]] before"),
]


@pytest.mark.parametrize(("text", "line", "column", "said"), CLASHES)
def test_both_lines_of_a_clash_are_named(text: str, line: int, column: int, said: str) -> None:
    with pytest.raises(Refused) as caught:
        parse_toml(text, "job.toml")
    (problem,) = caught.value.problems
    assert said in problem.sentence
    assert (problem.line, problem.column) == (line, column)


@pytest.mark.parametrize(
    "text",
    [
        "a = 1\n[b]\na = 1\n[c.d]\n[c]\na = 1\n[c.e]\n",
        "[[a]]\n[a.b]\nx = 1\n[[a]]\n[a.b]\nx = 1\n[[a.c]]\n[[a.c]]\n",
        "a.b = 1\na.c = 2\n[d]\na.b = 1\n",
        "[a.b.c]\nx = 1\n[a]\ny = 1\n[a.b]\nz = 1\n",
        '"a.b" = 1\na.b = 2\n',
        "[[a.b]]\nc = 1\n[a]\nd = 2\n",
    ],
)
def test_what_does_not_clash_is_not_told(text: str) -> None:
    assert tomllib.loads(text)
    problems = mended(text + "[last]\nmistake = yes\n", "job.toml").problems
    assert [problem.line for problem in problems] == [text.count("\n") + 2]


def test_a_list_whose_first_item_has_single_brackets_is_read_as_one() -> None:
    copy = mended("[case]\na = 1\n[[case]]\na = 2\n[[case]]\na = 3\n", "rule.toml")
    assert len(copy.problems) == 1
    assert copy.data == {"case": [{"a": 1}, {"a": 2}, {"a": 3}]}


def test_clashes_and_other_mistakes_are_told_in_one_run() -> None:
    with pytest.raises(Refused) as caught:
        parse_toml("a = yes\na = 2\n[b]\nc = 3 m\n[b]\nd = 4 m\n", "job.toml")
    assert [problem.line for problem in caught.value.problems] == [1, 2, 4, 5, 6]


def test_a_needless_pair_of_braces_is_told_once_and_all_else_is_read() -> None:
    copy = mended('a.b = {}\na.b.c = "x"\na.b.d = "y"\n[e]\nf = 1\n', "job.toml")
    assert [problem.line for problem in copy.problems] == [2]
    assert copy.data == {"a": {"b": {"c": "x", "d": "y"}}, "e": {"f": 1}}


def test_a_header_in_a_comment_is_read_as_one_where_its_keys_stand_twice() -> None:
    copy = mended("[[r]]\na = 1\n# [[s]]\n# b = 1\na = 2\nb = 3\n", "job.toml")
    assert [problem.line for problem in copy.problems] == [5]
    assert "The line '# [[s]]' above it still has its mark" in copy.problems[0].sentence
    assert copy.data == {"r": [{"a": 1}], "s": [{"a": 2, "b": 3}]}


def test_a_key_twice_below_one_header_in_a_comment_is_kept_once() -> None:
    copy = mended("# [[s]]\na = 1\na = 2\n", "job.toml")
    assert "keep one" in copy.problems[0].sentence
