"""A wrong condition of a rule is shown with a caret under the exact place."""

from pathlib import Path

import pytest

from rulebook.packs import RULE, only_problem, problems
from tundish.text.problem import Problem

REQUIRES = '"placement.height_below >= site.snow_depth"'


def rule_problem(tmp_path: Path, old: str, new: str) -> Problem:
    assert old in RULE
    problem = only_problem(tmp_path, {"snow/base.toml": RULE.replace(old, new)})
    assert problem.file == "snow/base.toml"
    return problem


def carets(problem: Problem) -> tuple[str, str, str]:
    """Return the sentence, and what the caret stands under, with the marked text itself."""
    sentence, shown, marks = problem.sentence.split("\n")
    start = marks.index("^")
    return sentence, shown.strip(), shown[start : len(marks)]


@pytest.mark.parametrize(
    ("expression", "column", "under", "said"),
    [
        (
            "site.snow_dept > 1 m",
            13,
            "site.snow_dept",
            "Nothing is called 'site.snow_dept'. Did you mean 'site.snow_depth'?",
        ),
        ("site.snow_depth > 120 mn", 35, "mn", "'mn' is no known unit."),
        ("site.snow_depth > 120 s", 13, "site.snow_depth > 120 s", "cannot be compared"),
        ("site.snow_depth > 120", 13, "site.snow_depth > 120", "Is a unit missing?"),
        (
            "site.snow_depth + 1 m",
            13,
            "site.snow_depth + 1 m",
            "This gives a quantity of length, where a condition (true or false) is asked for.",
        ),
    ],
)
def test_a_wrong_condition_is_shown_with_a_caret_under_the_place(
    tmp_path: Path, expression: str, column: int, under: str, said: str
) -> None:
    problem = rule_problem(tmp_path, REQUIRES, f'"{expression}"')
    sentence, shown, marked = carets(problem)
    assert said in sentence
    assert shown == expression
    assert marked == under
    assert (problem.line, problem.column, problem.key) == (2, column, "requires")


@pytest.mark.parametrize("key", ["until_known", "once_known"])
def test_a_wrong_name_of_what_must_be_known_is_shown_there(tmp_path: Path, key: str) -> None:
    line = f'{key} = ["site.altitude", "site.snow_dept"]\nrequires'
    problem = rule_problem(tmp_path, "requires", line)
    sentence, shown, marked = carets(problem)
    assert "Did you mean 'site.snow_depth'?" in sentence
    assert shown == marked == "site.snow_dept"
    assert (problem.line, problem.key) == (2, f"{key}.1")


@pytest.mark.parametrize("name", ["site.altitude + 1 m", "true", "known(site.altitude)"])
def test_only_facts_and_quantities_can_be_waited_for(tmp_path: Path, name: str) -> None:
    problem = rule_problem(tmp_path, "requires", f'until_known = ["{name}"]\nrequires')
    assert (problem.line, problem.key) == (2, "until_known.0")


def test_what_is_missing_at_the_end_is_shown_with_one_caret(tmp_path: Path) -> None:
    problem = rule_problem(tmp_path, REQUIRES, '"site.snow_depth > "')
    assert problem.sentence.endswith("site.snow_depth > \n    " + " " * 17 + "^")
    assert (problem.line, problem.column) == (2, 13 + 17)


def test_an_expression_of_several_lines_shows_the_line_that_is_wrong(tmp_path: Path) -> None:
    problem = rule_problem(tmp_path, REQUIRES, '"""\ntrue\n  and site.snow_dept > 1 m\n"""')
    _, shown, marked = carets(problem)
    assert (shown, marked) == ("and site.snow_dept > 1 m", "site.snow_dept")
    assert (problem.line, problem.column) == (4, 7)


def test_an_expression_of_several_lines_may_lack_its_end(tmp_path: Path) -> None:
    problem = rule_problem(tmp_path, REQUIRES, '"""\ntrue\nand\n"""')
    assert "A value is missing here, where the expression ends." in problem.sentence
    assert (problem.line, problem.column) == (4, 4)


def test_an_expression_of_blanks_is_refused(tmp_path: Path) -> None:
    problem = rule_problem(tmp_path, REQUIRES, '"""\n\n\n"""')
    assert "The expression is empty." in problem.sentence


def test_a_breach_sentence_is_checked_where_its_expression_stands(tmp_path: Path) -> None:
    problem = rule_problem(
        tmp_path, "reviewed =", 'breach = "Only {site.snow_dept} of snow."\nreviewed ='
    )
    _, _, marked = carets(problem)
    assert marked == "site.snow_dept"
    assert (problem.line, problem.column) == (8, 17)


def test_a_wrong_place_in_applies_is_told(tmp_path: Path) -> None:
    problem = rule_problem(tmp_path, "requires =", 'applies = "nowhere"\nrequires =')
    assert (problem.line, problem.column, problem.key) == (2, 12, "applies")


@pytest.mark.parametrize(
    ("breach", "column", "marked", "said"),
    [
        ("Only {site.snow_depth of snow.", 16, "{", "This bracket is never closed"),
        ("Only site.snow_depth} of snow.", 31, "}", "Nothing opens this bracket"),
        ("Only {{site.snow_depth} of snow.", 16, "{", "This bracket is never closed"),
        ("Only {site.snow_depth}} of snow.", 33, "}", "Nothing opens this bracket"),
        ("Only {} of snow.", 17, "}", "The expression is empty."),
    ],
)
def test_a_bracket_without_its_other_half_is_told_in_a_breach_sentence(
    tmp_path: Path, breach: str, column: int, marked: str, said: str
) -> None:
    problem = rule_problem(tmp_path, "reviewed =", f'breach = "{breach}"\nreviewed =')
    sentence, _, under = carets(problem)
    assert said in sentence
    assert under == marked
    assert (problem.line, problem.column, problem.key) == (8, column, "breach")


def test_all_signs_of_other_notations_are_told_at_their_own_places(tmp_path: Path) -> None:
    text = RULE.replace(REQUIRES, '"placement.on == \\"wall\\" OR site.snow_depth ≥ 1,5 m"')
    found = problems(tmp_path, {"snow/base.toml": text})
    assert [(each.line, each.column) for each in found] == [(2, 29), (2, 38), (2, 57), (2, 59)]
    assert [each.sentence.split("\n")[0] for each in found] == [
        "A text stands between single quotes: write 'wall'.",
        "Write 'or' in small letters.",
        "Write '>=' for '≥'.",
        "The decimal sign is a point: write 1.5.",
    ]


def test_a_text_without_its_quotes_is_told_with_the_choices_of_the_fact(tmp_path: Path) -> None:
    problem = rule_problem(tmp_path, REQUIRES, '"placement.on == ground"')
    sentence, _, marked = carets(problem)
    assert marked == "ground"
    assert sentence.startswith(
        "'ground' is one of the choices of placement.on: write 'ground' in quotes. The choices are "
        "'ground', "
    )
