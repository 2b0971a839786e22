"""Rules that are begun from the template, proved, used, and broken by a slip of the pen."""

import re
import shlex

import pytest

from journeys.walking import Printed, Walk


def written_and_proved(walk: Walk, name: str, fact: str) -> tuple[str, Printed]:
    """Write a rule beside a job that was begun, prove it as printed; return its file as well."""
    walk("tundish new job.toml --stage design --region GB")
    new = walk(f"tundish rule new {name} --fact {fact} --in our-rules")
    proof = walk(new.next)
    assert proof.text.endswith("cases of one rule: all hold.")
    return new.written[0], new


def rules_in(new: Printed) -> str:
    """Return the option of the printed command that names the folder of rules."""
    words = shlex.split(new.next)
    return shlex.join(words[words.index("--rules") :])


def test_a_rule_of_a_fact_is_proved_and_judges_the_job(walk: Walk) -> None:
    _, new = written_and_proved(walk, "snow/above-ground", "placement.height_below")
    walk.save("low.toml", 'job.stage = "design"\nplacement.height_below = "100 mm"\n')
    checked = walk.check(f"tundish check low.toml {rules_in(new)} --show all")
    assert "snow/above-ground" in checked.entries("rule")
    assert "100 mm" in checked.out.split("snow/above-ground")[0]


def test_a_rule_of_a_fact_inside_a_list_is_proved_and_judges_each_item(walk: Walk) -> None:
    fact = "water.run.insulation.thickness"
    _, new = written_and_proved(walk, "pipes/thick", fact)
    walk.save(
        "thin.toml",
        'job.stage = "design"\n'
        '[[water.run]]\nname = "flow"\ninsulation.thickness = "1 mm"\n'
        '[[water.run]]\nname = "return"\ninsulation.thickness = "2 mm"\n',
    )
    checked = walk.check(f"tundish check thin.toml {rules_in(new)} --show breached")
    assert checked.entries("rule").count("pipes/thick") == 2


@pytest.mark.parametrize(
    ("slip", "said"),
    [
        ("placement.height_belo >= 400 mm", "Did you mean 'placement.height_below'?"),
        ("placement.height_below >= 400 kg", "length cannot be compared with a quantity of mass"),
        ("placement.height_below >= 400", "400"),
    ],
)
def test_a_broken_rule_is_refused_where_it_is_broken(walk: Walk, slip: str, said: str) -> None:
    file, new = written_and_proved(walk, "snow/above-ground", "placement.height_below")
    walk.change(file, 'requires = "placement.height_below >= 400 mm"', f'requires = "{slip}"')
    rows = walk.read(file).splitlines()
    for command in (new.next, f"tundish check job.toml {rules_in(new)}"):
        refused = walk(command, ends=(2,))
        place = re.match(r"(\S+), line (\d+), column (\d+)", refused.err)
        assert place is not None and place[1] == file, refused.err
        assert rows[int(place[2]) - 1].startswith("requires"), refused.err
        assert said in " ".join(refused.err.split()), refused.err
