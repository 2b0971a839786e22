"""A quantity beyond what it can be is unknown with the reason, in every form of evaluation."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

from rulebook.packs import problems, proofs, write_pack
from tundish.findings.assess import assess
from tundish.job.job import Job
from tundish.language.evaluate.columns.column import Chunk, Uniform
from tundish.language.evaluate.columns.evaluate import ColumnEvaluator, Shared
from tundish.rulebook.evaluate.judge import Verdict, judge
from tundish.rulebook.rulebook import Rulebook

QUANTITIES = """\
[height_over_snow]
label    = "height above the snow"
about    = "How far the unit stands above the deepest snow."
formula  = "placement.height_below - site.snow_depth"
unit     = "mm"
at_most  = "2 m"
range_because = "no unit stands higher"
cite     = [{ source = "practice" }]
reviewed = 2026-11-25

[[height_over_snow.case]]
why   = "above"
given = { "placement.height_below" = "300 mm", "site.snow_depth" = "12 cm" }
value = "180 mm"

[[height_over_snow.case]]
why     = "below"
given   = { "placement.height_below" = "100 mm", "site.snow_depth" = "12 cm" }
unknown = []

[[height_over_snow.case]]
why     = "on a mast"
given   = { "placement.height_below" = "3 m", "site.snow_depth" = "12 cm" }
unknown = []
"""
RULE = """\
title    = "The base stands clear of snow"
requires = "height_over_snow >= 100 mm"
severity = "fault"
stage    = "design"
because  = "Snow blocks the fan."
remedy   = "Stand the unit higher."
cite     = [{ source = "practice" }]
reviewed = 2026-11-25

[[case]]
why     = "higher than the snow"
given   = { "placement.height_below" = "300 mm", "site.snow_depth" = "120 mm" }
outcome = "met"

[[case]]
why     = "hardly"
given   = { "placement.height_below" = "130 mm", "site.snow_depth" = "120 mm" }
outcome = "breached"

[[case]]
why     = "nothing known of snow"
given   = { "placement.height_below" = "100 mm" }
outcome = "undecided"
unknown = ["site.snow_depth"]
"""
FILES = {"snow/quantities.toml": QUANTITIES, "snow/clear.toml": RULE}
HEIGHTS = {"0 mm": "height above the snow comes to -120 mm, which cannot be: at least 0 mm"}
HEIGHTS["3 m"] = (
    "height above the snow comes to 2880 mm, which cannot be: at most 2000 mm, "
    "as no unit stands higher"
)


@pytest.fixture
def rulebook(tmp_path: Path) -> Rulebook:
    return Rulebook.load(write_pack(tmp_path, FILES), with_built_in=False)


@pytest.mark.parametrize("height", [*HEIGHTS, "120 mm", "2.12 m"])
def test_beyond_its_range_a_quantity_is_unknown_in_every_form(
    rulebook: Rulebook, height: str
) -> None:
    job = Job.from_data({"placement.height_below": height, "site.snow_depth": "120 mm"})
    facts, quantity = rulebook.facts(job), rulebook.quantities["", "height_over_snow"]
    session, root = rulebook.session(facts.values), quantity.formula.root
    compiled = quantity.calculate(facts.values, session)
    assert (compiled is None) == (height in HEIGHTS)
    step = rulebook.explainer(facts).explain(root)
    assert step.value == compiled
    assert step.obstacles == ({HEIGHTS[height]} if height in HEIGHTS else set())
    shared = Shared(facts.values, frozenset(), rulebook.formulas, rulebook.tables_for)
    assert ColumnEvaluator(shared).part(root) == Uniform(compiled)
    varying = frozenset({"placement.height_below"})
    part = ColumnEvaluator(
        Shared(facts.values, varying, rulebook.formulas, rulebook.tables_for)
    ).part(root)
    assert callable(part)
    column = np.array([facts.values["placement.height_below"]])
    (number,) = part(Chunk(1, {"placement.height_below": column}))
    assert (None if np.isnan(number) else number) == compiled
    rule = rulebook.rules["snow/clear"]
    (judged,) = judge(rule, facts, rulebook.session(facts.values))
    assert rulebook.evaluator.verdicts(facts.values) == [judged.verdict]
    assert (judged.verdict is Verdict.UNDECIDED) == (height in HEIGHTS)


def test_a_finding_says_why_a_quantity_cannot_be(rulebook: Rulebook) -> None:
    job = Job.from_data({"placement.height_below": "0 mm", "site.snow_depth": "120 mm"})
    (finding,) = assess(job, rulebook).findings
    assert HEIGHTS["0 mm"] in finding.statement
    assert not finding.open


def test_a_case_with_a_value_beyond_the_range_is_refused(tmp_path: Path) -> None:
    text = QUANTITIES.replace('why     = "below"', 'why = "below"\nvalue = "-20 mm"')
    text = text.replace("unknown = []\n\n", "\n", 1)
    (failure,) = proofs(tmp_path, {**FILES, "snow/quantities.toml": text})[
        "height_over_snow"
    ].failures
    assert failure.sentence.startswith("-20 mm cannot be: at least 0 mm")


@pytest.mark.parametrize(
    ("old", "new", "sentence"),
    [
        ('range_because = "no unit stands higher"\n', "", "says why in 'range_because'"),
        ('at_most  = "2 m"\n', "", "says why in 'range_because'"),
        ('"2 m"', '"2 kW"', "'2 kW' is not a quantity of length."),
        ('"2 m"', '"2 mx"', "'mx' is no known unit"),
        ('"2 m"', '"-2 m"', "Nothing lies below that, as the least is more."),
        (
            'unit     = "mm"',
            'gives = "truth"',
            "Only a quantity with a 'unit' has 'at_least' and 'at_most'.",
        ),
    ],
)
def test_a_range_that_cannot_be_meant_is_refused(
    tmp_path: Path, old: str, new: str, sentence: str
) -> None:
    text = QUANTITIES.replace(old, new)
    if "truth" in new:
        text = text.replace("- site.snow_depth", "> site.snow_depth")
    files = {**FILES, "snow/quantities.toml": text}
    assert any(sentence in problem.sentence for problem in problems(tmp_path, files))
