"""Rules that are begun from the template, proved, used, and broken by a slip of the pen."""

import re
import shlex

from journeys.walking import Printed, Walk

FIGURE = ("snow/above-ground", "placement.height_below")
IN_A_LIST = ("pipes/thick", "water.run.insulation.thickness")
JOB = """
job.stage = "design"
placement.height_below = "100 mm"

[[water.run]]
name = "flow"
insulation.thickness = "1 mm"

[[water.run]]
name = "return"
insulation.thickness = "2 mm"
"""


def begun(walk: Walk, name: str, fact: str) -> Printed:
    """Begin a rule."""
    return walk(f"tundish rule new {name} --fact {fact} --in our-rules")


def rules_in(new: Printed) -> str:
    """Return the option of the printed command that names the folder of rules."""
    words = shlex.split(new.next)
    return shlex.join(words[words.index("--rules") :])


def test_rules_begun_beside_a_job_are_proved_and_judge_it_as_printed(walk: Walk) -> None:
    job = walk("tundish new job.toml --stage design --region GB")
    rules = [begun(walk, *FIGURE), begun(walk, *IN_A_LIST)]
    for new in rules:
        assert walk(new.next).text.endswith("cases of one rule: all hold.")
    walk.save(job.written[0], JOB)
    checked = walk.check(f"{job.next} {rules_in(rules[0])} --show breached")
    named = checked.entries("rule")
    assert named.count("snow/above-ground") == 1
    assert named.count("pipes/thick") == 2


SLIPS = {
    "placement.height_belo >= 400 mm": "Did you mean 'placement.height_below'?",
    "placement.height_below >= 400": "400",
}
"""Conditions that are wrong, and what is said of them."""


def test_a_broken_rule_is_refused_where_it_is_broken(walk: Walk) -> None:
    walk("tundish new job.toml --stage design --region GB")
    new = begun(walk, *FIGURE)
    file = new.written[0]
    whole = walk.read(file)
    for slip, said in SLIPS.items():
        walk.save(file, whole)
        walk.change(file, 'requires = "placement.height_below >= 400 mm"', f'requires = "{slip}"')
        assert said in refused_in(walk, file, new.next)
    refused_in(walk, file, f"tundish check job.toml {rules_in(new)}")


def refused_in(walk: Walk, file: str, line: str) -> str:
    """Type a command that must meet a refusal of a condition, and return what it says."""
    refused = walk(line, ends=(2,))
    place = re.match(r"(\S+), line (\d+), column (\d+)", refused.err)
    assert place is not None and place[1] == file, refused.err
    assert walk.read(file).splitlines()[int(place[2]) - 1].startswith("requires"), refused.err
    return refused.text
