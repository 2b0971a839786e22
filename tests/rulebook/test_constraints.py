"""Constraints of packs: read, refused where they are none, proved, and asked for as bounds."""

from __future__ import annotations

from pathlib import Path

import pytest

from rulebook.packs import RULE, load, problems, proofs
from tundish.job.job import Job
from tundish.rulebook.evaluate.contradictions import Contradicted
from tundish.rulebook.model.constraint import Bound
from tundish.rulebook.rulebook import Rulebook
from tundish.text.bounds import MOST_PROBLEMS

CONSTRAINTS = """\
[feet-below-the-unit]
requires = "placement.feet.height <= placement.height_below"
because  = "Feet stand under the unit."
cite     = [{ source = "practice" }]
reviewed = 2026-11-25

[[feet-below-the-unit.case]]
why     = "feet alone"
given   = { "placement.feet" = { height = "100 mm" }, "placement.height_below" = "100 mm" }
outcome = "possible"

[[feet-below-the-unit.case]]
why     = "longer"
given   = { "placement.feet" = { height = "101 mm" }, "placement.height_below" = "100 mm" }
outcome = "impossible"

[[feet-below-the-unit.case]]
why     = "nobody looked"
given   = { "placement.height_below" = "100 mm" }
outcome = "undecided"
unknown = ["placement.feet.height"]

[bends-within-a-run]
of       = "water.run as run"
applies  = "run.place == 'outdoors'"
requires = "run.bends * 10 mm <= run.length"
because  = "Each bend takes up a centimetre."
cite     = [{ source = "practice" }]
reviewed = 2026-11-25

[[bends-within-a-run.case]]
why     = "all bends"
given   = { "water.run" = [{ place = "outdoors", bends = 3, length = "30 mm" }] }
outcome = "possible"

[[bends-within-a-run.case]]
why     = "one more"
given   = { "water.run" = [{ place = "outdoors", bends = 4, length = "30 mm" }] }
outcome = "impossible"

[[bends-within-a-run.case]]
why     = "indoors nobody minds"
given   = { "water.run" = [{ place = "heated room", bends = 4, length = "30 mm" }] }
outcome = "possible"

[[bends-within-a-run.case]]
why     = "not counted"
given   = { "water.run" = [{ place = "outdoors", length = "30 mm" }] }
outcome = "undecided"
unknown = ["water.run[1].bends"]
"""
FILES = {"snow/base.toml": RULE, "snow/constraints.toml": CONSTRAINTS}


@pytest.fixture(name="rulebook")
def a_rulebook(tmp_path: Path) -> Rulebook:
    return load(tmp_path, FILES)


def test_constraints_are_proved_by_their_cases(tmp_path: Path) -> None:
    found = proofs(tmp_path, FILES)
    assert not any(proof.failures for proof in found.values())
    assert found["snow/bends-within-a-run"].kind == "constraint"


def test_a_case_that_comes_out_otherwise_is_told(tmp_path: Path) -> None:
    wrong = CONSTRAINTS.replace('height = "101 mm"', 'height = "99 mm"')
    (failure,) = proofs(tmp_path, {**FILES, "snow/constraints.toml": wrong})[
        "snow/feet-below-the-unit"
    ].failures
    assert failure.sentence.startswith("It comes out possible, not impossible")


def test_a_rule_is_not_proved_on_a_job_that_cannot_be(tmp_path: Path) -> None:
    rule = RULE.replace(
        'given   = { "placement.height_below" = "300 mm"',
        'given   = { "placement.feet" = { height = "1 m" }, "placement.height_below" = "300 mm"',
    )
    (failure,) = proofs(tmp_path, {**FILES, "snow/base.toml": rule})["snow/base"].failures
    assert "placement.feet.height: 1 m cannot be beside" in failure.sentence


def test_facts_of_an_item_are_told_with_its_position(rulebook: Rulebook) -> None:
    runs = [{"place": "outdoors", "bends": bends, "length": "1 m"} for bends in (3, 101, 2)]
    with pytest.raises(Contradicted) as caught:
        rulebook.facts(Job.from_data({"water.run": runs}))
    (problem,) = caught.value.problems
    assert problem.sentence == (
        "water.run[2].bends: 101 cannot be beside water.run[2].length: 1 m. Each bend takes up a "
        "centimetre. As they stand, run.bends * 10 mm comes to 1.01 m. Possible is "
        "run.bends * 10 mm at most 1 m, or water.run[2].length at least 1.01 m."
    )
    assert caught.value.paths == {"water.run[2].bends", "water.run[2].length"}


def test_of_very_many_contradictions_the_first_are_told_and_all_are_left_aside(
    rulebook: Rulebook,
) -> None:
    runs = [{"place": "outdoors", "bends": 101, "length": "1 m"} for _ in range(MOST_PROBLEMS + 5)]
    with pytest.raises(Contradicted) as caught:
        rulebook.facts(Job.from_data({"water.run": runs}))
    first, *others = caught.value.problems
    assert first.sentence == "Not listed one by one: 5 more."
    assert len(others) == MOST_PROBLEMS
    assert len(caught.value.paths) == 2 * len(runs)


def test_what_is_not_known_contradicts_nothing(rulebook: Rulebook) -> None:
    rulebook.facts(Job.from_data({"water.run": [{"bends": 101}], "placement.feet.height": "9 m"}))


def test_a_fact_is_bounded_by_the_facts_beside_it(rulebook: Rulebook) -> None:
    assert rulebook.bounds_on("placement.feet.height") == (
        Bound("<=", "placement.height_below", "", ""),
    )
    assert rulebook.bounds_on("placement.height_below")[0].sign == ">="
    # What holds under a condition, or of an expression, bounds no single fact.
    assert not rulebook.bounds_on("water.run.length")
    assert [each.name for each in rulebook.contradictions.constraints_on("water.run.length")] == [
        "snow/bends-within-a-run"
    ]


def test_facts_of_an_item_are_bounded_by_those_of_the_same() -> None:
    found = Rulebook.built_in()
    ratings = "unit.rating"
    assert Bound("<=", f"{ratings}.output", ratings, ratings) in found.bounds_on(f"{ratings}.input")
    assert Bound(">=", f"{ratings}.flow", "", ratings) in found.bounds_on(
        "unit.highest_flow_temperature"
    )


@pytest.mark.parametrize(
    ("old", "new", "sentence"),
    [
        ("<= placement.height_below", "== placement.height_below", "one comparison by '<'"),
        (
            "<= placement.height_below",
            "<= placement.height_below and placement.feet.height > 0 mm",
            "one comparison by '<'",
        ),
        ("<= placement.height_below", "<= 5 kW", "cannot"),
        ('because  = "Feet stand under the unit."\n', "", "has no 'because'"),
        ("water.run as run", "water.runs as run", "'water.runs' is no list of a job."),
        ("[bends-within-a-run]", "[bends-within-a-run]\nwhat = 1", "has no key 'what'"),
        ('unknown = ["placement.feet.height"]\n', "", "lists the 'unknown'"),
        ('outcome = "impossible"', 'outcome = "breached"', "'outcome' is one of"),
    ],
)
def test_what_is_no_constraint_is_refused(
    tmp_path: Path, old: str, new: str, sentence: str
) -> None:
    assert old in CONSTRAINTS
    files = {**FILES, "snow/constraints.toml": CONSTRAINTS.replace(old, new)}
    assert any(sentence in problem.sentence for problem in problems(tmp_path, files))


def test_one_name_stands_for_one_constraint(tmp_path: Path) -> None:
    files = {**FILES, "snow/constraints/again.toml": CONSTRAINTS.partition("[bends")[0]}
    assert [problem.sentence for problem in problems(tmp_path, files)] == [
        "A constraint 'snow/feet-below-the-unit' stands elsewhere."
    ]


def test_a_file_of_constraints_in_the_wrong_place_is_told(tmp_path: Path) -> None:
    files = {"snow/base.toml": RULE, "snow/facts.toml": CONSTRAINTS}
    assert "move it to 'snow/constraints.toml'" in problems(tmp_path, files)[0].sentence
