"""Every way a file of a pack can be wrong, told at file, line and column."""

from pathlib import Path

import pytest

from rulebook.packs import (
    QUANTITY,
    RULE,
    SOURCES,
    TABLE,
    load,
    only_problem,
    problems,
    write_pack,
)
from tundish.reading.bounds import DEEPEST_TREE, LONGEST_DEPENDENCE
from tundish.reading.problem import Problem, Refused
from tundish.rulebook.rulebook import Rulebook

REQUIRES = '"placement.height_below >= site.snow_depth"'


def rule_problem(tmp_path: Path, old: str, new: str) -> Problem:
    assert RULE.count(old) >= 1
    problem = only_problem(tmp_path, {"snow/base.toml": RULE.replace(old, new)})
    assert problem.file == "snow/base.toml"
    return problem


def told(tmp_path: Path, files: dict[str, str]) -> dict[tuple[int | None, int | None], str]:
    """Return the sentences of a refused pack by place; a misspelt key is missing as well."""
    found = problems(tmp_path, files)
    assert len(found) <= 2, [str(each) for each in found]
    return {(each.line, each.column): each.sentence for each in reversed(found)}


@pytest.mark.parametrize(
    ("old", "new", "line", "column", "said"),
    [
        ("title    = ", "# ", 1, 1, "The rule has no 'title'."),
        ('cite     = [{ source = "practice" }]', "", 1, 1, "The rule has no 'cite'."),
        ('[{ source = "practice" }]', "[]", 7, 1, "The rule cites no source; without one it cannot be used."),
        ("reviewed = 2026-11-25", "", 1, 1, "The rule has no 'reviewed'."),
        ("2026-11-25", '"last year"', 8, 1, "'reviewed' should be a valid date."),
        ("because  =", "becuase  =", 5, 1, "A rule has no key 'becuase'. Did you mean 'because'?"),
        ('"fault"', '"blunder"', 3, 1, "'severity' is one of"),
        ('"fault"', "5", 3, 1, "'severity' is one of"),
        ('"design"', '"desing"', 4, 1, "not 'desing'."),
        ('"Snow blocks the fan."', '""', 5, 1, "'because' String should have at least 1 character."),
        ('"Snow blocks the fan."', "5", 5, 1, "'because' should be a valid string."),
        ('source = "practice"', 'source = "practise"', 7, 13, "sources.toml has no source 'practise'. Did you mean 'practice'?"),
        ('source = "practice"', 'sauce = "practice"', 7, 15, "A citation has no key 'sauce'. Did you mean 'source'?"),
        ("reviewed =", 'adjust = "site.snow_deth"\nreviewed =', 8, 1, "'site.snow_deth' is no fact of a job. Did you mean 'site.snow_depth'?"),
        ("reviewed =", 'adjust = "site"\nreviewed =', 8, 1, "'site' is no fact of a job."),
        ("reviewed =", "adjust = 5\nreviewed =", 8, 1, "'adjust' cannot be 5."),
        ("reviewed =", "adjust = [5]\nreviewed =", 8, 1, "'adjust' cannot be a list."),
        ("reviewed =", 'regions = ["gb"]\nreviewed =', 8, 12, "A region is an ISO 3166 code such as 'GB', not 'gb'."),
        ("reviewed =", 'regions = "GB"\nreviewed =', 8, 1, "'regions' should be a valid list."),
        ("reviewed =", 'each = "water.run"\nreviewed =', 8, 1, "'water.run' is not of the form 'electricity.circuit as circuit'."),
        ("reviewed =", 'each = "water.runs as run"\nreviewed =', 8, 1, "'water.runs' is no list of a job. Did you mean 'water.run'?"),
        ("reviewed =", 'each = "site as place"\nreviewed =', 8, 1, "'site' is no list of a job."),
        ("reviewed =", 'each = "water.run as site"\nreviewed =', 8, 1, "'site' already names something else here."),
        ("reviewed =", 'each = "water.run as in"\nreviewed =', 8, 1, "'in' already names something else here."),
        ('outcome = "met"', 'outcome = "passed"', 13, 1, "'outcome' is one of"),
        ('why     = "higher than the snow"', "", 10, 3, "The case has no 'why'."),
        ('unknown = ["site.snow_depth"]', "", 20, 3, "An undecided case lists the 'unknown' facts it must name."),
        ('outcome = "met"', 'outcome = "met"\nitem = 0', 14, 1, "'item' should be greater than or equal to 1."),
    ],
)
def test_a_rule_file_is_refused_with_a_sentence_at_its_place(
    tmp_path: Path, old: str, new: str, line: int, column: int, said: str
) -> None:
    assert old in RULE
    found = told(tmp_path, {"snow/base.toml": RULE.replace(old, new)})
    assert said in found.get((line, column), ""), found


def carets(problem: Problem) -> tuple[str, str, str]:
    """Return the sentence, and what the caret stands under, with the marked text itself."""
    sentence, shown, marks = problem.sentence.split("\n")
    start = marks.index("^")
    return sentence, shown.strip(), shown[start : len(marks)]


@pytest.mark.parametrize(
    ("expression", "column", "under", "said"),
    [
        ("site.snow_dept > 1 m", 13, "site.snow_dept", "Nothing is called 'site.snow_dept'. Did you mean 'site.snow_depth'?"),
        ("site.snow_depth > 120 mn", 35, "mn", "'mn' is no known unit."),
        ("site.snow_depth > 120 s", 13, "site.snow_depth > 120 s", "cannot be compared"),
        ("site.snow_depth > 120", 13, "site.snow_depth > 120", "Is a unit missing?"),
        ("site.snow_depth + 1 m", 13, "site.snow_depth + 1 m", "This gives a quantity of length, where a condition (true or false) is asked for."),
    ],
)  # fmt: skip
def test_a_wrong_condition_is_shown_with_a_caret_under_the_place(
    tmp_path: Path, expression: str, column: int, under: str, said: str
) -> None:
    problem = rule_problem(tmp_path, REQUIRES, f'"{expression}"')
    sentence, shown, marked = carets(problem)
    assert said in sentence
    assert shown == expression
    assert marked == under
    assert (problem.line, problem.column, problem.key) == (2, column, "requires")


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


def test_broken_toml_is_told_at_its_place(tmp_path: Path) -> None:
    problem = only_problem(tmp_path, {"snow/base.toml": RULE.replace('"fault"', "fault")})
    assert "This is not TOML" in problem.sentence
    assert (problem.file, problem.line) == ("snow/base.toml", 3)


def test_all_problems_of_several_files_are_told_in_one_run(tmp_path: Path) -> None:
    found = problems(
        tmp_path,
        {
            "snow/base.toml": RULE.replace("because ", "becuase ").replace('"fault"', '"flaw"'),
            "snow/foot.toml": RULE.replace("snow_depth", "snow_deth", 1),
            "snow/quantities.toml": QUANTITY.replace("mm", "mn", 1),
            "tables/ratings.toml": TABLE.replace("[6, 10.5]", "[6]"),
            "sources.toml": SOURCES.replace('"standard"', '"hearsay"'),
        },
    )
    assert [(each.file, each.line) for each in found if "sources.toml has no" not in each.sentence] == [
        ("snow/base.toml", 1),
        ("snow/base.toml", 3),
        ("snow/base.toml", 5),
        ("snow/foot.toml", 2),
        ("snow/quantities.toml", 5),
        ("sources.toml", 7),
        ("tables/ratings.toml", 8),
    ]


def test_all_broken_files_are_told_in_one_run(tmp_path: Path) -> None:
    found = problems(tmp_path, {"snow/a.toml": "= 1", "snow/b.toml": "[", "snow/c.toml": RULE})
    assert [each.file for each in found] == ["snow/a.toml", "snow/b.toml"]


def test_problems_come_in_the_same_order_every_time(tmp_path: Path) -> None:
    files = {f"{topic}/a.toml": RULE.replace("reviewed", "reveiwed") for topic in "zcam"}
    found = problems(tmp_path, files)
    assert list(found) == sorted(found)
    assert len(found) == 8


# -- folders --------------------------------------------------------------------------------


@pytest.mark.parametrize("name", ["base.toml", "snow/deep/base.toml", "tables/more/ratings.toml"])
def test_a_rule_file_stands_one_folder_deep(tmp_path: Path, name: str) -> None:
    problem = only_problem(tmp_path, {name: RULE})
    assert problem.sentence == "A rule file stands one folder deep: TOPIC/RULE.toml."


def test_an_empty_folder_holds_no_rules(tmp_path: Path) -> None:
    with pytest.raises(Refused, match="This folder holds no rules."):
        Rulebook.load(tmp_path, with_built_in=False)


def test_a_folder_that_is_not_there_is_told(tmp_path: Path) -> None:
    with pytest.raises(Refused, match="There is no such folder of rules."):
        Rulebook.load(tmp_path / "nowhere", with_built_in=False)


def test_all_missing_folders_are_told_in_one_run(tmp_path: Path) -> None:
    with pytest.raises(Refused) as caught:
        Rulebook.load(tmp_path / "nowhere", tmp_path / "elsewhere", with_built_in=False)
    assert len(caught.value.problems) == 2


def test_a_folder_named_like_a_file_is_told(tmp_path: Path) -> None:
    (tmp_path / "snow" / "base.toml").mkdir(parents=True)
    with pytest.raises(Refused, match="This is a folder"):
        Rulebook.load(write_pack(tmp_path, {}), with_built_in=False)


def test_every_source_that_is_missing_is_told(tmp_path: Path) -> None:
    cite = 'cite = [{ source = "one" }, { source = "practice" }, { source = "two" }]'
    text = RULE.replace('cite     = [{ source = "practice" }]', cite)
    found = problems(tmp_path, {"snow/base.toml": text})
    assert [each.column for each in found] == [9, 54]


# -- sources --------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "line", "said"),
    [
        ('stray = "text"\n' + SOURCES, 1, "'stray' is no table of a source."),
        (SOURCES.replace('"standard"', '"hearsay"'), 7, "'basis' is one of"),
        (SOURCES.replace("edition", "edtion"), 8, "Did you mean 'edition'?"),
        (SOURCES.replace('title = "Invented code"', ""), 5, "The source has no 'title'."),
    ],
)
def test_a_bibliography_is_refused_with_a_sentence(
    tmp_path: Path, text: str, line: int, said: str
) -> None:
    problem = only_problem(tmp_path, {"sources.toml": text, "snow/base.toml": RULE})
    assert said in problem.sentence
    assert (problem.file, problem.line) == ("sources.toml", line)


# -- quantities -----------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("old", "new", "line", "said"),
    [
        ("[spare_height]", "[Spare-height]", 1, "'Spare-height' is no name: small letters, digits and '_'."),
        ("[spare_height]", "[site]", 1, "'site' already names a part of the job."),
        ("[spare_height]", "[pi]", 1, "'pi' is a word of the language."),
        ("[spare_height]", "[and]", 1, "'and' is a word of the language."),
        ('unit     = "mm"', "", 1, "A quantity has either a 'unit' or 'gives' (truth or text)."),
        ('unit     = "mm"', 'unit = "mm"\ngives = "truth"', 1, "A quantity has either a 'unit' or 'gives'"),
        ('"mm"', '"mn"', 5, "'mn' is no known unit. Did you mean"),
        ('"mm"', '"kW"', 4, "This gives a quantity of length, where a quantity of power is asked for."),
        ('unit     = "mm"', 'gives = "truth"', 4, "This gives a quantity of length, where a condition (true or false) is asked for."),
        ('unit     = "mm"', 'gives = "number"', 5, "'gives' is one of"),
        ("label    =", "lable    =", 2, "A quantity has no key 'lable'. Did you mean 'label'?"),
        ("- site.snow_depth", "- site.snow", 4, "Nothing is called 'site.snow'. Did you mean"),
        ('"practice"', '"practise"', 6, "sources.toml has no source 'practise'."),
        ('unit     = "mm"', 'unit = "mm"\nof = "water.runs as run"', 6, "'water.runs' is no list of a job."),
        ("[spare_height]", "stray = 5\n[spare_height]", 1, "'stray' is no table of a quantity."),
        ('value = "180 mm"', 'value = "180 mm"\nwithin = "a bit"', 13, "'a bit' does not begin with a number"),
        ('value = "180 mm"', "value = 180", 12, "'value' cannot be 180."),
    ],
)  # fmt: skip
def test_a_quantity_is_refused_with_a_sentence_at_its_place(
    tmp_path: Path, old: str, new: str, line: int, said: str
) -> None:
    assert old in QUANTITY
    text = QUANTITY.replace(old, new)
    if old == "[spare_height]":
        name = new.strip("[]") if "\n" not in new else "spare_height"
        text = text.replace("[[spare_height.", f"[[{name}.")
    found = problems(tmp_path, {"snow/quantities.toml": text, "snow/base.toml": RULE})
    seen = [(each.line, said in each.sentence) for each in found]
    assert (line, True) in seen, [str(each) for each in found]


def test_a_quantity_of_items_may_not_take_the_name_of_their_fact(tmp_path: Path) -> None:
    text = QUANTITY.replace("spare_height", "length").replace(
        'unit     = "mm"', 'unit = "mm"\nof = "water.run as run"'
    )
    problem = only_problem(tmp_path, {"snow/quantities.toml": text, "snow/base.toml": RULE})
    assert problem.sentence == "'length' already names a fact of water.run."


def test_a_quantity_can_only_be_one_of_the_words_it_says(tmp_path: Path) -> None:
    text = QUANTITY.replace('unit     = "mm"', 'gives = "text"\nchoices = ["deep", "shallow"]')
    text = text.replace(
        "placement.height_below - site.snow_depth",
        "if site.snow_depth > 1 m then 'deep' else 'shalow'",
    )
    problem = only_problem(tmp_path, {"snow/quantities.toml": text, "snow/base.toml": RULE})
    assert "'shalow' is none of the words this can be: deep, shallow." in problem.sentence


def chain(formulas: dict[str, str]) -> str:
    body = QUANTITY.partition("[[")[0]
    return "\n".join(
        body.replace("[spare_height]", f"[{name}]").replace(
            "placement.height_below - site.snow_depth", formula
        )
        for name, formula in formulas.items()
    )


def test_a_quantity_computed_from_itself_is_refused(tmp_path: Path) -> None:
    text = chain({"one": "two", "two": "three + 1 m", "three": "one"})
    problem = only_problem(tmp_path, {"snow/quantities.toml": text, "snow/base.toml": RULE})
    assert problem.sentence == "This is computed from itself: one needs two needs three needs one."
    assert (problem.line, problem.key) == (4, "one.formula")


def test_a_quantity_that_names_itself_is_refused(tmp_path: Path) -> None:
    text = chain({"one": "one + 1 m"})
    problem = only_problem(tmp_path, {"snow/quantities.toml": text, "snow/base.toml": RULE})
    assert problem.sentence == "This is computed from itself: one needs one."


def test_a_cycle_through_a_loop_is_refused(tmp_path: Path) -> None:
    item = chain({"part": "run.length + whole"}).replace('unit  ', 'of = "water.run as run"\nunit  ')
    text = item + "\n" + chain({"whole": "sum(run.part for run in water.run)"})
    problem = only_problem(tmp_path, {"snow/quantities.toml": text, "snow/base.toml": RULE})
    assert problem.sentence == "This is computed from itself: part needs whole needs part."


@pytest.mark.parametrize("backwards", [False, True])
def test_quantities_in_a_row_are_bounded_whatever_their_order(
    tmp_path: Path, backwards: bool
) -> None:
    def row(length: int) -> dict[str, str]:
        formulas = {"q1": "site.snow_depth"}
        formulas |= {f"q{at}": f"q{at - 1}" for at in range(2, length + 1)}
        items = list(formulas.items())
        return dict(items[::-1] if backwards else items)

    files = {"snow/base.toml": RULE}
    longest = {**files, "snow/quantities.toml": chain(row(LONGEST_DEPENDENCE))}
    rulebook = load(tmp_path / "n", longest)
    last = ("", f"q{LONGEST_DEPENDENCE}")
    assert rulebook.session({"site.snow_depth": 0.5}).derive(*last) == 0.5
    longer = {**files, "snow/quantities.toml": chain(row(LONGEST_DEPENDENCE + 1))}
    problem = only_problem(tmp_path / "more", longer)
    assert problem.sentence == "More than 64 quantities are computed in a row."


def sum_of(length: int, first: str) -> str:
    return " + ".join([first, *["site.snow_depth"] * (length - 1)])


def test_what_is_computed_stands_no_deeper_than_the_bound(tmp_path: Path) -> None:
    def files(length: int) -> dict[str, str]:
        formulas = {"low": sum_of(75, "site.snow_depth"), "high": sum_of(length, "low")}
        return {"snow/base.toml": RULE, "snow/quantities.toml": chain(formulas)}

    deepest = DEEPEST_TREE - 75
    assert load(tmp_path / "n", files(deepest)).quantities
    problem = only_problem(tmp_path / "more", files(deepest + 1))
    assert problem.sentence.startswith("With all it is computed from, this stands more than")
    assert problem.key == "high.formula"


def test_a_rule_stands_no_deeper_than_the_bound_either(tmp_path: Path) -> None:
    def files(length: int) -> dict[str, str]:
        requires = sum_of(length, "low") + " > 1 m"
        return {
            "snow/base.toml": RULE.replace(REQUIRES, f'"{requires}"'),
            "snow/quantities.toml": chain({"low": sum_of(75, "site.snow_depth")}),
        }

    deepest = DEEPEST_TREE - 76
    assert load(tmp_path / "n", files(deepest)).rules
    problem = only_problem(tmp_path / "more", files(deepest + 1))
    assert (problem.file, problem.key) == ("snow/base.toml", "requires")


# -- tables ---------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("old", "new", "line", "column", "said"),
    [
        ("[6, 10.5]", "[6]", 8, 3, "This row has 1 cells; each has 2."),
        ("[6, 10.5]", "[6, 10, 12]", 8, 3, "This row has 3 cells; each has 2."),
        ("[6, 10.5]", "[10.0, 12]", 8, 3, "A row with these keys already stands above."),
        ("[6, 10.5]", '["six", 10]', 8, 3, "A cell does not fit its column"),
        ("[6, 10.5]", "[6, true]", 8, 3, "A cell does not fit its column"),
        ("[6, 10.5]", "[6, inf]", 8, 3, "A cell does not fit its column"),
        ("[6, 10.5]", "[nan, 10]", 8, 3, "A cell does not fit its column"),
        ("[6, 10.5]", "[6, 1979-05-27]", 8, 7, "'rows' cannot be 1979-05-27."),
        ('read = "next up"', 'read = "downwards"', 2, 45, "'read' is one of"),
        ('unit = "A", read', 'unit = "Amps", read', 2, 33, "is no known unit."),
        ('unit = "A", read', "read", 2, 13, "A text is read exactly, not next up."),
        ('"rating", unit = "A"', '"rating", unit = "volt"', 3, 32, "is no known unit."),
        ('"rating", unit = "A"', '"current", unit = "A"', 1, 1, "Every key and column has a name of its own."),
        ('"next up" }]', '"linear" }]', 3, 13, "A text cannot be read linearly between rows."),
        ('source = "code"', 'source = "cod"', 4, 13, "sources.toml has no source 'cod'. Did you mean 'code'?"),
        ("reviewed", "reveiwed", 5, 1, "A table has no key 'reveiwed'. Did you mean 'reviewed'?"),
    ],
)
def test_a_table_is_refused_with_a_sentence_at_its_place(
    tmp_path: Path, old: str, new: str, line: int, column: int, said: str
) -> None:
    text = TABLE.replace(old, new)
    if "linearly" in said:
        text = text.replace('"rating", unit = "A"', '"rating"').replace("16", '"x"').replace("10.5", '"y"')
    found = told(tmp_path, {"tables/ratings.toml": text, "snow/base.toml": RULE})
    assert said in found.get((line, column), ""), found


def test_a_huge_number_in_a_table_is_refused(tmp_path: Path) -> None:
    text = TABLE.replace("[6, 10.5]", f"[6, 1{'0' * 400}]")
    problem = only_problem(tmp_path, {"tables/ratings.toml": text, "snow/base.toml": RULE})
    assert "A cell does not fit its column" in problem.sentence
