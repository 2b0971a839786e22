"""Facts that a pack declares: asked for, read, judged and refused like any other."""

from pathlib import Path
from typing import Any

import pytest

from rulebook.packs import RULE, load, only_problem, proofs
from tundish import Job, Refused, Verdict, assess

FACTS = """\
[crane_reach]
kind     = "quantity"
unit     = "m"
label    = "reach of the crane"
question = "How far does the crane reach?"
how      = "From the hire firm."
who      = "installer"

[colour]
kind     = "text"
choices  = ["white", "grey"]
question = "Which colour is the casing?"
"""
REACH = """\
title    = "The crane reaches the place"
requires = "more.crane_reach >= 6 m and more.colour != 'grey'"
severity = "fault"
stage    = "design"
because  = "What it does not reach it cannot set down."
remedy   = "Hire a longer one."
cite     = [{ source = "practice" }]
reviewed = 2026-11-25

[[case]]
why     = "exactly"
given   = { "more.crane_reach" = "600 cm", "more.colour" = "white" }
outcome = "met"

[[case]]
why     = "short"
given   = { "more.crane_reach" = "5.9 m" }
outcome = "breached"

[[case]]
why     = "not known"
given   = {}
outcome = "undecided"
unknown = ["more.crane_reach", "more.colour"]
"""
FILES = {"snow/base.toml": RULE, "lift/reach.toml": REACH, "facts.toml": FACTS}


def judged(folder: Path, more: dict[str, Any] | None) -> Any:
    job = Job.from_data({"more": more} if more is not None else {})
    found = assess(job, load(folder, FILES)).findings
    return next(one for one in found if one.rule == "lift/reach")


def test_rules_over_declared_facts_are_proved(tmp_path: Path) -> None:
    assert not proofs(tmp_path, FILES)["lift/reach"].failures


@pytest.mark.parametrize(
    ("more", "verdict"),
    [
        ({"crane_reach": "7 m", "colour": "white"}, Verdict.MET),
        ({"crane_reach": "5 m"}, Verdict.BREACHED),
        ({"crane_reach": "7 m"}, Verdict.UNDECIDED),
        ({}, Verdict.UNDECIDED),
        (None, Verdict.UNDECIDED),
    ],
)
def test_a_job_states_them_under_more(
    tmp_path: Path, more: dict[str, Any] | None, verdict: Verdict
) -> None:
    assert judged(tmp_path, more).verdict is verdict


def test_what_is_not_known_is_asked_as_the_pack_says(tmp_path: Path) -> None:
    asked = {one.path: one for one in judged(tmp_path, None).open}
    reach = asked["more.crane_reach"]
    assert reach.question == "How far does the crane reach?"
    assert (reach.label, reach.who) == ("reach of the crane", "installer")


def test_what_is_known_is_told_with_its_place(tmp_path: Path) -> None:
    path = tmp_path / "job.toml"
    path.write_text("[more]\ncrane_reach = '5 m'\n")
    found = assess(Job.from_file(path), load(tmp_path / "rules", FILES))
    (breach,) = found.of(Verdict.BREACHED)
    assert [(one.value, one.place) for one in breach.inputs] == [("5 m", f"{path}:2")]


@pytest.mark.parametrize(
    ("more", "said"),
    [
        ({"crane_reech": "5 m"}, "Did you mean 'crane_reach'?"),
        ({"crane_reach": "5 L"}, "is not a quantity in m but of the kind volume"),
        ({"crane_reach": 5}, "has no unit"),
        ({"colour": "gray"}, "Did you mean 'grey'?"),
    ],
)
def test_what_no_pack_declares_or_is_wrong_is_refused(
    tmp_path: Path, more: dict[str, Any], said: str
) -> None:
    with pytest.raises(Refused) as caught:
        judged(tmp_path, more)
    assert said in caught.value.problems[0].sentence
    assert caught.value.problems[0].key.startswith("more.")


def test_more_is_a_table() -> None:
    with pytest.raises(Refused, match="Write a table of facts"):
        Job.from_data({"more": 3})


def test_the_built_in_rules_know_no_more_facts() -> None:
    with pytest.raises(Refused, match="No pack of rules declares"):
        assess(Job.from_data({"more": {"crane_reach": "5 m"}}))


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ('unit     = "m"\n', "", "A quantity has a 'unit'"),
        ('unit     = "m"', 'unit     = "mtr"', "mtr"),
        ('kind     = "quantity"', 'kind     = "truth"', "A truth has no unit."),
        ('kind     = "quantity"', 'kind     = "length"', "'kind' is one of"),
        ('question = "How far', 'qestion = "How far', ""),
    ],
)
def test_a_declaration_that_is_wrong_is_told(tmp_path: Path, old: str, new: str, said: str) -> None:
    files = {"snow/base.toml": RULE, "facts.toml": FACTS.replace(old, new)}
    with pytest.raises(Refused) as caught:
        load(tmp_path, files)
    assert any(said in problem.sentence for problem in caught.value.problems)


@pytest.mark.parametrize(
    ("kind", "example", "shown"),
    [
        ("quantity", "'30 m'", "30 m"),
        ("quantity", "", "1 m"),
        ("truth", "false", "false"),
        ("truth", "", "true"),
        ("number", "1.25", "1.25"),
        ("number", "", "1.0"),
        ("count", "12", "12"),
        ("count", "", "2"),
        ("date", "2027-01-05", "2027-01-05"),
        ("text", "'grey \u00b5'", "grey \u00b5"),
        ("text", "", ""),
        ("texts", "['a \"b\"', '\u00b5']", '["a \\"b\\"", "\u00b5"]'),
        ("texts", "[]", "[]"),
        ("texts", "", '["\u2026"]'),
    ],
)
def test_a_declared_fact_has_its_example_or_that_of_its_kind(
    tmp_path: Path, kind: str, example: str, shown: str
) -> None:
    facts = f"[colour]\nkind = '{kind}'\nquestion = 'Which?'\n"
    facts += "unit = 'm'\n" if kind == "quantity" else ""
    facts += f"example = {example}\n" if example else ""
    rulebook = load(tmp_path, {"snow/base.toml": RULE, "facts.toml": facts})
    assert rulebook.declared["colour"].fact.example == shown


def test_a_declared_choice_shows_the_one_that_is_usual(tmp_path: Path) -> None:
    facts = f"{FACTS}example = 'grey'\n"
    rulebook = load(tmp_path, {"snow/base.toml": RULE, "facts.toml": facts})
    assert rulebook.declared["colour"].fact.example == "grey"


@pytest.mark.parametrize(
    ("example", "said"),
    [
        ("'30 L'", "The example does not fit. '30 L' is not a quantity in m"),
        ("30", "30 has no unit; write a unit, such as '1 m'."),
        ("'30'", "The example does not fit."),
        ("true", "Write a quantity in m such as '1 m', not true."),
    ],
)
def test_an_example_that_does_not_fit_is_refused_at_its_place(
    tmp_path: Path, example: str, said: str
) -> None:
    facts = FACTS.replace("[colour]", f"example  = {example}\n\n[colour]")
    problem = only_problem(tmp_path, {"snow/base.toml": RULE, "facts.toml": facts})
    assert said in problem.sentence
    assert problem.file.endswith("facts.toml")
    assert problem.line == 1 + facts.splitlines().index(f"example  = {example}")


def test_two_packs_do_not_declare_one_fact(tmp_path: Path) -> None:
    files = {"snow/base.toml": RULE, "facts.toml": FACTS}
    files |= {"national/GB/facts.toml": FACTS, "national/GB/snow/base.toml": RULE}
    with pytest.raises(Refused, match="Another pack already declares a fact 'crane_reach'"):
        load(tmp_path, files)


def test_a_breach_over_a_declared_fact_has_its_remedies(tmp_path: Path) -> None:
    files = FILES | {
        "lift/reach.toml": REACH.replace("cite ", 'adjust = "more.crane_reach"\ncite ')
    }
    job, book = Job.from_data({"more.crane_reach": "5 m"}), load(tmp_path, files)
    found = assess(job, book, changes=True)
    assert found.of(Verdict.BREACHED)[0].rule == "lift/reach"


def test_a_declaration_that_is_no_table_is_told(tmp_path: Path) -> None:
    files = {"snow/base.toml": RULE, "facts.toml": "crane = 3\n"}
    assert only_problem(tmp_path, files).sentence == "'crane' is no table of a fact."
