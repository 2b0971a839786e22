"""Every way a file of a pack can be wrong, told at file, line and column."""

from pathlib import Path

import pytest

from rulebook.packs import (
    PROVISIONS,
    QUANTITY,
    RULE,
    SOURCES,
    TABLE,
    load,
    only_problem,
    problems,
    told,
    write_pack,
)
from tundish.rulebook.rulebook import Rulebook
from tundish.text.bounds import LONGEST_TEXT
from tundish.text.problem import Refused


@pytest.mark.parametrize(
    ("old", "new", "line", "column", "said"),
    [
        ("title    = ", "# ", 1, 1, "The rule has no 'title'."),
        (
            'cite     = [{ source = "practice" }]',
            "",
            1,
            1,
            "The rule has no 'cite'. Write cite = [{ source =",
        ),
        (
            '[{ source = "practice" }]',
            "[]",
            7,
            1,
            "The rule cites no source; without one it cannot be used.",
        ),
        ("reviewed = 2026-11-25", "", 1, 1, "The rule has no 'reviewed'."),
        (
            "2026-11-25",
            '"last year"',
            8,
            1,
            "'reviewed' should be a valid date. Write reviewed = 2026-11-25, without quotes.",
        ),
        ("because  =", "becuase  =", 5, 1, "A rule has no key 'becuase'. Did you mean 'because'?"),
        ('"fault"', '"blunder"', 3, 1, "'severity' is one of"),
        ('"fault"', "5", 3, 1, "'severity' is one of"),
        ('"design"', '"desing"', 4, 1, "not 'desing'."),
        (
            '"Snow blocks the fan."',
            '""',
            5,
            1,
            "'because' is empty.",
        ),
        ('"Snow blocks the fan."', "5", 5, 1, "'because' should be a valid string."),
        (
            'source = "practice"',
            'source = "practise"',
            7,
            13,
            "sources.toml has no source 'practise'. Did you mean 'practice'?",
        ),
        (
            'source = "practice"',
            'sauce = "practice"',
            7,
            15,
            "A citation has no key 'sauce'. Did you mean 'source'?",
        ),
        (
            "reviewed =",
            'adjust = "site.snow_deth"\nreviewed =',
            8,
            1,
            "'site.snow_deth' is no fact of a job. Did you mean 'site.snow_depth'?",
        ),
        ("reviewed =", 'adjust = "site"\nreviewed =', 8, 1, "'site' is no fact of a job."),
        ("reviewed =", "adjust = 5\nreviewed =", 8, 1, "'adjust' cannot be 5."),
        ("reviewed =", "adjust = [5]\nreviewed =", 8, 1, "'adjust' cannot be a list."),
        (
            "reviewed =",
            'regions = ["gb"]\nreviewed =',
            8,
            12,
            "'gb' is not how a country is written; write 'GB'.",
        ),
        (
            "reviewed =",
            'regions = ["GB", "UK"]\nreviewed =',
            8,
            18,
            "'UK' is no country of ISO 3166-1. Did you mean 'GB'?",
        ),
        ("reviewed =", 'regions = "GB"\nreviewed =', 8, 1, "'regions' should be a valid list."),
        (
            "reviewed =",
            'each = "water.run"\nreviewed =',
            8,
            1,
            "'water.run' is not of the form 'electricity.circuit as circuit'.",
        ),
        (
            "reviewed =",
            'each = "water.runs as run"\nreviewed =',
            8,
            1,
            "'water.runs' is no list of a job. Did you mean 'water.run'?",
        ),
        ("reviewed =", 'each = "site as place"\nreviewed =', 8, 1, "'site' is no list of a job."),
        (
            "reviewed =",
            'each = "water.run as site"\nreviewed =',
            8,
            1,
            "'site' already names something else here.",
        ),
        (
            "reviewed =",
            'each = "water.run as in"\nreviewed =',
            8,
            1,
            "'in' already names something else here.",
        ),
        ('outcome = "met"', 'outcome = "passed"', 13, 1, "'outcome' is one of"),
        ('why     = "higher than the snow"', "", 10, 3, "The case has no 'why'."),
        (
            'unknown = ["site.snow_depth"]',
            "",
            20,
            3,
            "An undecided case lists the 'unknown' facts it must name.",
        ),
        (
            'outcome = "met"',
            'outcome = "met"\nitem = 0',
            14,
            1,
            "'item' should be greater than or equal to 1.",
        ),
    ],
)
def test_a_rule_file_is_refused_with_a_sentence_at_its_place(
    tmp_path: Path, old: str, new: str, line: int, column: int, said: str
) -> None:
    assert old in RULE
    found = told(tmp_path, {"snow/base.toml": RULE.replace(old, new)})
    assert said in found.get((line, column), ""), found


def test_a_text_is_read_up_to_the_bound_and_no_further(tmp_path: Path) -> None:
    longest = "x" * (LONGEST_TEXT - 1) + "."
    assert load(tmp_path / "n", {"snow/base.toml": RULE.replace("Snow blocks the fan.", longest)})
    text = RULE.replace("Snow blocks the fan.", "x" + longest)
    problem = only_problem(tmp_path / "more", {"snow/base.toml": text})
    assert problem.sentence == "'because' is longer than 2,000 characters."


def test_a_place_in_a_source_is_read_up_to_the_bound_and_no_further(tmp_path: Path) -> None:
    cited, longest = 'source = "practice"', "x" * LONGEST_TEXT
    assert cited in RULE
    for name, at in (("n", longest), ("more", "x" + longest)):
        files = {"snow/base.toml": RULE.replace(cited, f'{cited}, at = "{at}"')}
        if name == "n":
            assert load(tmp_path / name, files)
        else:
            assert "longer than 2,000 characters" in only_problem(tmp_path / name, files).sentence


def test_broken_toml_is_told_at_its_place(tmp_path: Path) -> None:
    problem = only_problem(tmp_path, {"snow/base.toml": RULE.replace('"fault"', "fault")})
    assert 'A text stands in quotes; write "fault".' in problem.sentence
    assert (problem.file, problem.line, problem.column) == ("snow/base.toml", 3, 12)


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
    # A key that is misspelt is not missing too, and what cites a source that is refused is right.
    assert [(each.file, each.line) for each in found] == [
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
    assert len(found) == 4


# -- folders --------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("name", "said"),
    [
        ("base.toml", "A rule file stands one folder deep: TOPIC/base.toml."),
        (
            "snow/deep/base.toml",
            "A rule file stands one folder deep: move it to 'snow/base.toml'.",
        ),
        (
            "snow/deep/deeper/base.toml",
            "A rule file stands one folder deep: move it to 'snow/base.toml'.",
        ),
        (
            "source.toml",
            "A rule file stands one folder deep: TOPIC/source.toml. Did you mean 'sources.toml'?",
        ),
        ("quantities.toml", "This file stands in the folder of its topic: TOPIC/quantities.toml."),
        (
            "Snow Load/Above_Ground.toml",
            "Folders and files of rules are named in small letters, digits and hyphens: "
            "'snow-load/above_ground.toml'.",
        ),
        (
            "snow/base.toml.toml",
            "Folders and files of rules are named in small letters, digits and hyphens: "
            "'snow/base.toml'.",
        ),
        (
            "snow/base.toml.txt",
            "This file is not read, as its name does not end with '.toml': rename it to "
            "'base.toml'.",
        ),
        ("snow/base.TOML", "rename it to 'base.toml'."),
        ("snow/rule.tml", "rename it to 'rule.toml'."),
        ("sources.tml", "rename it to 'sources.toml'."),
        ("national/GB/snow/base.toml.txt", "rename it to 'base.toml'."),
        ("tables/base.toml", "This is a rule: move it to 'TOPIC/base.toml'."),
        ("snow/quantities/base.toml", "This is a rule: move it to 'snow/base.toml'."),
        ("snow/provisions.toml", "This is a rule: move it to 'snow/RULE.toml'."),
    ],
)
def test_a_rule_file_that_would_not_be_read_is_told(tmp_path: Path, name: str, said: str) -> None:
    problem = only_problem(tmp_path, {"snow/read.toml": RULE, name: RULE})
    assert problem.file == name
    assert problem.sentence.endswith(said)


@pytest.mark.parametrize(
    ("text", "said"),
    [
        (QUANTITY, "This holds quantities: move it to 'snow/quantities.toml'."),
        (PROVISIONS, "This holds parts of the order list: move it to 'snow/provisions.toml'."),
        (SOURCES, "This holds sources: move it to 'sources.toml'."),
        (TABLE, "This is a table: move it to 'tables/mine.toml'."),
    ],
)
def test_what_is_no_rule_is_told_where_a_rule_is_read(tmp_path: Path, text: str, said: str) -> None:
    problem = only_problem(tmp_path, {"snow/read.toml": RULE, "snow/mine.toml": text})
    assert (problem.file, problem.sentence) == ("snow/mine.toml", said)


def test_files_that_are_nobodys_rule_are_passed_over(tmp_path: Path) -> None:
    others = ("README.md", "snow/photo.jpg", ".git/base.toml.txt", "snow/.base.toml.txt")
    kept = ("snow/base.toml~", "snow/base.toml.bak", "snow/letter.txt", "tables.ods")
    files = dict.fromkeys((*others, *kept), "not TOML")
    assert load(tmp_path, {"snow/base.toml": RULE, **files}).rules
    (tmp_path / "snow" / "folder.tml").mkdir()
    assert Rulebook.load(tmp_path, with_built_in=False).rules


def test_a_file_that_is_not_read_is_told_although_the_rest_is_stored(tmp_path: Path) -> None:
    load(tmp_path, {"snow/base.toml": RULE})
    load(tmp_path, {})
    (tmp_path / "snow" / "feet.toml.txt").write_text(RULE)
    for _ in range(2):
        with pytest.raises(Refused, match=r"rename it to 'feet\.toml'"):
            Rulebook.load(tmp_path, with_built_in=False)


def test_an_empty_folder_holds_no_rules(tmp_path: Path) -> None:
    with pytest.raises(Refused, match="This folder holds no rules"):
        Rulebook.load(tmp_path, with_built_in=False)


def test_a_folder_that_is_not_there_is_told(tmp_path: Path) -> None:
    with pytest.raises(Refused, match="There is no such folder of rules"):
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
