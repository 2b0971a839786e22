"""One wrong thing in a pack is one problem: what merely follows from it is not told."""

from pathlib import Path

import pytest

from rulebook.packs import PROVISIONS, QUANTITY, RULE, SOURCES, TABLE, only_problem, problems
from tundish.rulebook.rulebook import Rulebook
from tundish.text.problem import Refused

EVERYTHING = {
    "snow/base.toml": RULE,
    "snow/quantities.toml": QUANTITY,
    "snow/provisions.toml": PROVISIONS,
    "tables/ratings.toml": TABLE,
    "sources.toml": SOURCES,
}

FACTS = """\
[crane_reach]
kind     = "quantity"
unit     = "m"
question = "How far does the crane reach?"
"""

SIZES = """\
[cranes]
facts    = ["more.crane_reach"]
sizes    = ["10 m", "20 m"]
cite     = [{ source = "practice" }]
reviewed = 2026-11-25
"""


@pytest.mark.parametrize(
    ("old", "new", "line", "said"),
    [
        ('"common practice"', '"hearsay"', 3, "'basis' is one of"),
        ('title = "Invented code"', "", 5, "The source has no 'title'."),
        ("[practice]", 'practice = "common practice"\n[other]', 1, "is no table of a source"),
    ],
)
def test_a_wrong_source_is_told_and_not_what_cites_it(
    tmp_path: Path, old: str, new: str, line: int, said: str
) -> None:
    assert old in SOURCES
    problem = only_problem(tmp_path, {**EVERYTHING, "sources.toml": SOURCES.replace(old, new)})
    assert (problem.file, problem.line) == ("sources.toml", line)
    assert said in problem.sentence


def test_a_source_that_nobody_declares_is_told_wherever_it_is_cited(tmp_path: Path) -> None:
    files = {**EVERYTHING, "sources.toml": SOURCES.replace("[code]", "[codes]")}
    found = problems(tmp_path, files)
    assert {each.file for each in found} == {"tables/ratings.toml", "snow/provisions.toml"}
    assert all("no source 'code'. Did you mean 'codes'?" in each.sentence for each in found)


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ('unit     = "mm"', 'unit     = "mn"', "'mn' is no known unit."),
        ("label    =", "lable    =", "A quantity has no key 'lable'. Did you mean 'label'?"),
        ("formula  =", 'of = "water.runs as run"\nformula  =', "'water.runs' is no list of a job."),
        (
            'formula  = "placement.height_below - site.snow_depth"',
            'formula  = "placement.height_below - site.snow_dept"',
            "Nothing is called 'site.snow_dept'.",
        ),
    ],
)
def test_a_wrong_quantity_is_told_and_not_what_uses_it(
    tmp_path: Path, old: str, new: str, said: str
) -> None:
    assert old in QUANTITY
    files = {
        "snow/quantities.toml": QUANTITY.replace(old, new),
        "snow/base.toml": RULE.replace(
            "placement.height_below >= site.snow_depth", "spare_height >= 1 m"
        ).replace("reviewed =", 'breach = "Only {spare_height}."\nreviewed ='),
        "snow/provisions.toml": PROVISIONS.replace(
            "site.snow_depth > 200 mm", "spare_height > 1 m"
        ),
    }
    problem = only_problem(tmp_path, files)
    assert problem.file == "snow/quantities.toml"
    assert said in problem.sentence


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ('unit = "A", read', 'unit = "AA", read', "'AA' is no known unit."),
        ("rows =", "row =", "A table has no key 'row'. Did you mean 'rows'?"),
    ],
)
def test_a_wrong_table_is_told_and_not_what_looks_things_up_in_it(
    tmp_path: Path, old: str, new: str, said: str
) -> None:
    assert old in TABLE
    files = {
        "tables/ratings.toml": TABLE.replace(old, new),
        "tables/later-ratings.toml": TABLE.replace("title ", 'edition_of = "ratings"\ntitle '),
        "snow/base.toml": RULE.replace(
            "placement.height_below >= site.snow_depth", "lookup('ratings', 6 A) > 1 A"
        ),
    }
    problem = only_problem(tmp_path, files)
    assert problem.file == "tables/ratings.toml"
    assert said in problem.sentence


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ('unit     = "m"', "", "A quantity has a 'unit', such as 'mm'."),
        ('"quantity"', '"quantities"', "'kind' is one of"),
        ('"m"', '"mtr"', "'mtr' is no known unit."),
    ],
)
def test_a_wrong_fact_is_told_and_not_what_names_it(
    tmp_path: Path, old: str, new: str, said: str
) -> None:
    assert old in FACTS
    files = {
        "facts.toml": FACTS.replace(old, new),
        "sizes.toml": SIZES,
        "snow/base.toml": RULE.replace("site.snow_depth", "more.crane_reach").replace(
            "reviewed =", 'adjust = "more.crane_reach"\nreviewed ='
        ),
    }
    problem = only_problem(tmp_path, files)
    assert problem.file == "facts.toml"
    assert said in problem.sentence


def test_a_wrong_rule_is_told_and_not_that_it_cannot_be_replaced_or_retired(tmp_path: Path) -> None:
    below, above = tmp_path / "below", tmp_path / "above"
    (below / "snow").mkdir(parents=True)
    (above / "snow").mkdir(parents=True)
    (below / "sources.toml").write_text(SOURCES)
    (below / "snow" / "base.toml").write_text(RULE.replace('"fault"', '"error"'))
    (below / "snow" / "feet.toml").write_text(RULE.replace("site.snow_depth", "site.snow", 1))
    replacing = RULE.replace("title ", 'replaces = "It stands on a roof."\ntitle ')
    (above / "snow" / "base.toml").write_text(replacing)
    retire = '[[retire]]\nrule = "snow/feet"\nbecause = "No feet here."\n'
    (above / "pack.toml").write_text('title = "Roofs"\n' + retire)
    with pytest.raises(Refused) as caught:
        Rulebook.load(below, above, with_built_in=False)
    files = [Path(each.file).relative_to(tmp_path).as_posix() for each in caught.value.problems]
    assert files == ["below/snow/base.toml", "below/snow/feet.toml"]


def test_a_rule_without_a_name_for_the_item_is_told_at_each_alone(tmp_path: Path) -> None:
    text = RULE.replace("placement.height_below >= site.snow_depth", "run.length > 5 m")
    for each, said in (
        ("water.run", "Write 'water.run as run'."),
        ("water.runs as run", "'water.runs' is no list of a job."),
        ("water.runs", "is not of the form"),
    ):
        problem = only_problem(
            tmp_path / each.replace(" ", "-"),
            {"snow/base.toml": text.replace("title ", f'each = "{each}"\ntitle ', 1)},
        )
        assert (problem.line, problem.key) == (1, "each")
        assert said in problem.sentence


def test_a_wrong_fact_of_an_item_is_told_beside_a_list_without_a_name(tmp_path: Path) -> None:
    text = RULE.replace("placement.height_below >= site.snow_depth", "run.lenght > 5 m")
    text = text.replace("title ", 'each = "water.run"\ntitle ', 1)
    found = problems(tmp_path, {"snow/base.toml": text})
    assert [each.key for each in found] == ["each", "requires"]
    assert "Did you mean 'run.length'?" in found[1].sentence


def test_a_rule_with_a_wrong_word_is_told_all_else_that_is_wrong_too(tmp_path: Path) -> None:
    text = RULE.replace('"fault"', '"error"').replace("site.snow_depth", "site.snow_dept", 1)
    text = text.replace('"practice"', '"practise"').replace("2026-11-25", "9999-11-25")
    found = problems(tmp_path, {"snow/base.toml": text})
    assert [(each.line, each.key) for each in found] == [
        (2, "requires"),
        (3, "severity"),
        (7, "cite.0"),
        (8, "reviewed"),
    ]


def test_a_key_that_is_missing_is_told_beside_one_that_is_much_unlike_it(tmp_path: Path) -> None:
    text = RULE.replace("because  =", "colour   =")
    found = problems(tmp_path, {"snow/base.toml": text})
    assert [each.sentence for each in found] == [
        "The rule has no 'because'.",
        "A rule has no key 'colour'.",
    ]
