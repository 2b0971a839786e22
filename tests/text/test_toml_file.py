import os
from pathlib import Path

import pytest

from tundish.text.bounds import DEEPEST_NESTING, LARGEST_FILE, LONGEST_NAME, MOST_VALUES
from tundish.text.problem import Problem, Refused
from tundish.text.toml_file import parse_toml, read_toml


def problem_of(path: Path) -> Problem:
    with pytest.raises(Refused) as caught:
        read_toml(path)
    (problem,) = caught.value.problems
    return problem


def test_a_file_is_read_with_its_text(tmp_path: Path) -> None:
    path = tmp_path / "job.toml"
    path.write_bytes("a = 'ü'\r\nb = 2\r\n".encode())
    file = read_toml(path)
    assert file.data == {"a": "ü", "b": 2}
    assert file.name == str(path)


def test_a_byte_order_mark_is_accepted(tmp_path: Path) -> None:
    path = tmp_path / "job.toml"
    path.write_bytes(b"\xef\xbb\xbfa = 1\n")
    assert read_toml(path).text == "a = 1\n"


def test_a_missing_file_is_refused(tmp_path: Path) -> None:
    assert "no such file" in problem_of(tmp_path / "none.toml").sentence


def test_a_folder_is_refused(tmp_path: Path) -> None:
    assert "folder" in problem_of(tmp_path).sentence


def test_a_pipe_that_nobody_writes_to_is_refused_and_not_waited_for(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "job.toml")
    assert "no plain file" in problem_of(tmp_path / "job.toml").sentence


def test_a_name_with_a_zero_byte_is_refused(tmp_path: Path) -> None:
    assert problem_of(tmp_path / "a\0b").sentence


@pytest.mark.skipif(os.geteuid() == 0, reason="the superuser may read everything")
def test_a_file_that_may_not_be_read_is_refused(tmp_path: Path) -> None:
    path = tmp_path / "job.toml"
    path.write_text("a = 1")
    path.chmod(0)
    assert "cannot be opened" in problem_of(path).sentence


def test_a_byte_that_is_not_utf_8_is_named_with_its_place(tmp_path: Path) -> None:
    path = tmp_path / "job.toml"
    path.write_bytes("a = 1\nü = '".encode() + b"\xff'\n")
    problem = problem_of(path)
    assert (problem.line, problem.column) == (2, 6)
    assert "byte 13 (0xFF)" in problem.sentence


@pytest.mark.parametrize(
    ("text", "line", "column"),
    [("a = 1\nb = \n", 2, 5), ("a = 1\na = 2\n", 2, 1), ("a = 'x", 1, 5), ("[a", 1, 3)],
)
def test_broken_toml_is_refused_at_its_place(text: str, line: int, column: int) -> None:
    with pytest.raises(Refused) as caught:
        parse_toml(text, "job.toml")
    (problem,) = caught.value.problems
    assert (problem.file, problem.line, problem.column) == ("job.toml", line, column)
    assert "(at" not in problem.sentence


def test_the_largest_file_is_read_and_a_byte_more_refused(tmp_path: Path) -> None:
    path = tmp_path / "job.toml"
    path.write_text("a = 1\n#" + "x" * (LARGEST_FILE - 7))
    assert read_toml(path).data == {"a": 1}
    path.write_text("a = 1\n#" + "x" * (LARGEST_FILE - 6))
    assert str(LARGEST_FILE) in problem_of(path).sentence


def test_the_deepest_nesting_is_read_and_one_more_refused() -> None:
    deepest = "[" * (DEEPEST_NESTING) + "]" * (DEEPEST_NESTING)
    assert parse_toml(f"a = {deepest}", "job.toml").data
    for depth in (DEEPEST_NESTING + 1, 100_000):
        with pytest.raises(Refused, match="deep"):
            parse_toml(f"a = {'[' * depth}{']' * depth}", "job.toml")


def test_a_number_of_too_many_digits_is_refused() -> None:
    with pytest.raises(Refused, match="cannot be read"):
        parse_toml("a = " + "9" * 10_000, "job.toml")


def test_the_most_keys_and_entries_are_read_and_one_more_refused() -> None:
    most = "list = [" + "1," * (MOST_VALUES - 1) + "]\n"
    assert parse_toml(most, "job.toml").data
    with pytest.raises(Refused, match="holds more than 100,000 keys and entries of lists"):
        parse_toml(most + "one_more = 1\n", "job.toml")


def test_the_longest_key_is_read_and_a_longer_one_refused() -> None:
    longest = "k" * LONGEST_NAME
    assert parse_toml(f"[t]\n{longest} = 1\n", "job.toml").data == {"t": {longest: 1}}
    with pytest.raises(Refused, match="has 201 characters; the most is 200"):
        parse_toml(f"[t]\n{longest}k = 1\n", "job.toml")
