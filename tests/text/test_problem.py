import pickle

from tundish.text.problem import Problem, Refused


def test_a_problem_shows_file_line_and_column() -> None:
    assert str(Problem("job.toml", 3, 7, "Write a unit.")) == "job.toml:3:7: Write a unit."


def test_a_problem_without_a_place_shows_the_file_alone() -> None:
    assert str(Problem("job.toml", None, None, "There is no such file.")) == (
        "job.toml: There is no such file."
    )


def test_problems_are_told_in_reading_order_and_once() -> None:
    late, early = Problem("a", 10, 1, "late"), Problem("a", 2, 5, "early")
    whole = Problem("a", None, None, "whole")
    other = Problem("b", 1, 1, "other")
    refused = Refused([other, late, early, whole, late])
    assert refused.problems == (whole, early, late, other)
    assert str(refused).splitlines()[1] == "a:2:5: early"


def test_a_refusal_survives_the_way_out_of_a_worker() -> None:
    refused = Refused([Problem("a", 1, 2, "wrong", "site.altitude")])
    assert pickle.loads(pickle.dumps(refused)).problems == refused.problems
