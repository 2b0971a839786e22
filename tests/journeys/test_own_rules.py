"""Rules and facts of one's own, from the pack's files to the form that asks for them."""

import datetime
import re
import shlex
import tomllib

import pytest

from journeys.filling import blanks, filled_in, marks_off
from journeys.walking import Printed, Walk

PACK = "our rules"
FACTS = """\
[crane_reach]
kind     = "quantity"
unit     = "m"
question = "How far does the crane reach?"
how      = "From the hire firm."
who      = "installer"
example  = "30 m"

[crane_agreed]
kind     = "truth"
question = "Is the crane agreed with the neighbours?"
how      = "Ask the customer."
who      = "customer"

[crane_kind]
kind     = "text"
choices  = ["mobile", "tower, climbing"]
question = "What kind of crane is it?"
how      = "From the hire firm."
who      = "installer"

[crane_firm]
kind     = "text"
question = "Which firm lends it?"
how      = "From the plan of the work."
who      = "installer"

[crane_signs]
kind     = "texts"
question = "What signs stand around it?"
how      = "From the plan of the work."
who      = "installer"
example  = ["no entry", "load above"]

[crane_day]
kind     = "date"
question = "On which day was the crane last tested?"
how      = "From its papers."
who      = "installer"

[crane_people]
kind     = "count"
question = "How many people guide the load?"
how      = "From the plan of the work."
who      = "installer"
example  = 2

[crane_factor]
kind     = "number"
question = "By what factor is it stronger than its load?"
how      = "From its papers."
who      = "installer"
example  = 1.5
"""
REACH = """\
title    = "The crane reaches 20 m, and is agreed"
requires = "more.crane_reach >= 20 m and more.crane_agreed"
severity = "fault"
stage    = "survey"
because  = "A crane that reaches less sets the unit down in the street."
remedy   = "Hire a larger crane, and ask the neighbours."
adjust   = "more.crane_reach"
cite     = [{ source = "common-practice" }]
reviewed = 2026-11-25

[[case]]
why     = "just far enough"
given   = { "more.crane_reach" = "20 m", "more.crane_agreed" = true }
outcome = "met"

[[case]]
why     = "a little short"
given   = { "more.crane_reach" = "19.9 m", "more.crane_agreed" = true }
outcome = "breached"

[[case]]
why     = "agreed, and nobody has asked the firm"
given   = { "more.crane_agreed" = true }
outcome = "undecided"
unknown = ["more.crane_reach"]
"""
PAPERS = """\
title    = "The crane has its papers, signs and people"
requires = '''
more.crane_day <= job.date and more.crane_kind == 'mobile' and more.crane_firm != 'none'
and 'no entry' in more.crane_signs and more.crane_people >= 2 and more.crane_factor >= 1.2
'''
severity = "caution"
stage    = "survey"
because  = "Loads fall."
remedy   = "Hire one that is tested, and put signs around it."
cite     = [{ source = "common-practice" }]
reviewed = 2026-11-25
"""
STARTER = {
    "crane_agreed": True,
    "crane_day": datetime.date(2026, 11, 2),
    "crane_factor": 1.5,
    "crane_firm": "…",
    "crane_kind": "mobile",
    "crane_people": 2,
    "crane_reach": "30 m",
    "crane_signs": ["no entry", "load above"],
}
"""What a starter with its marks off says of each fact."""

ANSWERS = {
    "crane_agreed": "yes or no, written true or false",
    "crane_day": "a day, such as 2026-11-02",
    "crane_factor": "a number without a unit, such as 1.5, not below 0",
    "crane_firm": "a text",
    "crane_kind": "one of mobile; tower, climbing",
    "crane_people": "a whole number, such as 2",
    "crane_reach": "a quantity in m with its unit, such as 30 m",
    "crane_signs": 'a list, such as ["no entry", "load above"]; [] for none',
}
"""How a survey says that each fact is answered."""


@pytest.fixture
def begun(walk: Walk) -> tuple[Walk, Printed]:
    """A person who has begun a job with a pack of rules, and what was printed."""
    walk.save(f"{PACK}/facts.toml", FACTS)
    walk.save(f"{PACK}/street-crane/reach.toml", REACH)
    walk.save(f"{PACK}/street-crane/papers.toml", PAPERS)
    new = walk(f"tundish new job.toml --stage survey --region GB --rules '{PACK}'")
    return walk, new


def rules_in(line: str) -> str:
    """Return the option of a printed command that names its folder of rules."""
    words = shlex.split(line)
    return shlex.join(words[words.index("--rules") :])


def test_a_starter_offers_each_fact_by_its_kind(begun: tuple[Walk, Printed]) -> None:
    walk, new = begun
    walk.check(new.next)
    starter = marks_off(walk.read(new.written[0]))
    assert tomllib.loads(starter)["more"] == STARTER
    walk.save(new.written[0], starter)
    walk.save(new.written[1], marks_off(walk.read(new.written[1])))
    assert "street-crane/reach" not in walk.check(new.next).out


def test_a_survey_asks_for_each_fact_by_its_kind(begun: tuple[Walk, Printed]) -> None:
    walk, new = begun
    survey = walk(f"tundish survey {new.written[0]} {rules_in(new.next)}")
    pairs = zip(survey.entries("write in"), survey.entries("answer in"), strict=True)
    answers = {path: answer for path, answer in pairs if path.startswith("more.")}
    assert answers == {f"more.{name}": answer for name, answer in ANSWERS.items()}


def test_a_form_and_a_sheet_are_filled_in_and_checked_as_printed(
    begun: tuple[Walk, Printed],
) -> None:
    walk, new = begun
    rules = rules_in(new.next)
    survey = walk(f"tundish survey {new.written[0]} --form visit.toml {rules}")
    form = survey.written[0]
    assert {f"more.{name}" for name in ANSWERS} <= set(blanks(walk.read(form)))
    walk.save(form, filled_in(walk.read(form)))
    assert "street-crane/reach" not in walk.check(survey.next).out
    walk.change(form, 'crane_reach = "30 m"', 'crane_reach = "19 m"')
    assert "street-crane/reach" in walk.check(survey.next).out
    joined = walk(f"tundish join {form} --to after.toml").written[0]
    sheet = walk(f"tundish sheet {joined} --to sheet.toml {rules}")
    walk.save(sheet.written[0], filled_in(walk.read(sheet.written[0])))
    assert "street-crane/reach" in walk.check(sheet.next).out


def test_an_interview_goes_on_with_the_same_rules(begun: tuple[Walk, Printed]) -> None:
    walk, new = begun
    walk.change(new.written[0], "# more.crane_agreed", "more.crane_agreed")
    asked = walk(f"tundish ask {new.written[0]} {rules_in(new.next)}")
    walk.check(asked.next)
    assert rules_in(asked.next) == rules_in(new.next)


def test_facts_and_rules_of_the_pack_are_found_and_explained(begun: tuple[Walk, Printed]) -> None:
    walk, new = begun
    rules = rules_in(new.next)
    found = walk(f"tundish facts crane reach {rules}")
    path, read_by = found.out.split()[0], found.entries("read by")[0]
    assert (path, read_by) == ("more.crane_reach", "one rule: street-crane/reach")
    assert "How far does the crane reach?" in walk(f"tundish explain {path} {rules}").out
    named = read_by.removeprefix("one rule: ")
    assert "The crane reaches 20 m" in walk(f"tundish explain {named} {rules}").out
    topic = walk(f"tundish explain street-crane {rules}", ends=(2,))
    for command in re.findall(r"'(tundish .+? --rules '.+?')'", topic.text):
        assert "crane" in walk(command).out
    assert topic.text.count("--rules") == 2


def test_a_fact_of_a_pack_is_refused_without_it(begun: tuple[Walk, Printed]) -> None:
    walk, new = begun
    walk.change(new.written[0], "# more.crane_people", "more.crane_people")
    refused = walk(f"tundish check {new.written[0]}", ends=(2,))
    assert "No pack of rules declares a fact 'crane_people'." in refused.err
    walk.check(new.next)
