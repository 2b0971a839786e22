"""Small packs of rules, written to a folder file by file."""

from __future__ import annotations

from pathlib import Path

import pytest

from tundish.rulebook.prove.prove import Proof, prove
from tundish.rulebook.rulebook import Rulebook
from tundish.text.problem import Problem, Refused

SOURCES = """\
[practice]
title = "Common practice of an invented trade"
basis = "common practice"

[code]
title = "Invented code"
basis = "standard"
edition = "2020"
"""

RULE = """\
title    = "The base stands clear of snow"
requires = "placement.height_below >= site.snow_depth"
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
why     = "in the snow"
given   = { "placement.height_below" = "100 mm", "site.snow_depth" = "120 mm" }
outcome = "breached"

[[case]]
why     = "nothing known of snow"
given   = { "placement.height_below" = "100 mm" }
outcome = "undecided"
unknown = ["site.snow_depth"]
"""

QUANTITY = """\
[spare_height]
label    = "height above the snow"
about    = "How far the unit stands above the deepest snow."
formula  = "placement.height_below - site.snow_depth"
unit     = "mm"
cite     = [{ source = "practice" }]
reviewed = 2026-11-25
at_least = "none"
range_because = "in the snow it is less than nothing"

[[spare_height.case]]
why   = "above"
given = { "placement.height_below" = "300 mm", "site.snow_depth" = "12 cm" }
value = "180 mm"
"""

TABLE = """\
title    = "Invented ratings"
keys     = [{ name = "current", unit = "A", read = "next up" }]
gives    = [{ name = "rating", unit = "A" }]
cite     = [{ source = "code", at = "table 1", recall = true }]
reviewed = 2026-11-25
rows = [
  [10, 16],
  [6, 10.5],
]
"""


PROVISIONS = """\
[frame]
part         = "frame of invented steel, 300 mm high"
needed       = "site.snow_depth > 200 mm"
with_unit    = "present(placement.feet)"
number       = "2"
supplier     = "heating supplier"
because      = "The unit stands above the snow."
also_called  = ["Stand"]
cite         = [{ source = "code", at = "table 2", recall = true }]
reviewed     = 2026-11-25

[[frame.case]]
why     = "deep snow"
given   = { "site.snow_depth" = "30 cm", "placement.feet" = "none" }
outcome = "needed"
number  = "2"

[[frame.case]]
why     = "deep snow, high feet in the box"
given   = { "site.snow_depth" = "300 mm", "placement.feet" = { count = 4 } }
outcome = "with the unit"

[[frame.case]]
why     = "exactly at the limit"
given   = { "site.snow_depth" = "200 mm" }
outcome = "not needed"

[[frame.case]]
why     = "nobody knows the snow"
given   = {}
outcome = "undecided"
unknown = ["site.snow_depth"]

[[frame.case]]
why     = "nobody looked into the box"
given   = { "site.snow_depth" = "300 mm" }
outcome = "undecided"
unknown = ["placement.feet"]

[sun-cover]
part     = "cover against the sun"
needed   = "true"
number   = "sum(run.length for run in water.run if run.place == 'outdoors')"
unit     = "m"
supplier = "heating supplier"
because  = "Sun eats foam."
cite     = [{ source = "practice" }]
reviewed = 2026-11-25

[[sun-cover.case]]
why     = "two runs, one outdoors"
given   = { "water.run" = [{ place = "outdoors", length = "2.5 m" }, { place = "heated room" }] }
outcome = "needed"
number  = "250 cm"

[[sun-cover.case]]
why     = "all indoors"
given   = { "water.run" = [{ place = "heated room" }] }
outcome = "not needed"

[[sun-cover.case]]
why     = "runs not drawn"
given   = {}
outcome = "undecided"
unknown = ["water.run"]
"""


def write_pack(folder: Path, files: dict[str, str]) -> Path:
    """Write a pack with a bibliography of its own, if it does not bring one."""
    for name, text in {"sources.toml": SOURCES, **files}.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text)
    return folder


def load(folder: Path, files: dict[str, str]) -> Rulebook:
    """Write a pack and load it alone."""
    return Rulebook.load(write_pack(folder, files), with_built_in=False)


def problems(folder: Path, files: dict[str, str]) -> tuple[Problem, ...]:
    """Write a pack that must be refused, and return its problems, their file names in short."""
    with pytest.raises(Refused) as caught:
        load(folder, files)
    return tuple(
        Problem(
            Path(each.file).relative_to(folder).as_posix(),
            each.line,
            each.column,
            each.sentence,
            each.key,
        )
        for each in caught.value.problems
    )


def only_problem(folder: Path, files: dict[str, str]) -> Problem:
    """Return the one problem of a pack."""
    (problem,) = problems(folder, files)
    return problem


def told(tmp_path: Path, files: dict[str, str]) -> dict[tuple[int | None, int | None], str]:
    """Return the one sentence of a refused pack by its place: one thing wrong is told once."""
    found = problems(tmp_path, files)
    assert len(found) == 1, [str(each) for each in found]
    return {(each.line, each.column): each.sentence for each in found}


def proofs(folder: Path, files: dict[str, str]) -> dict[str, Proof]:
    """Run all cases of a pack, and return its proofs by name."""
    return {proof.name: proof for proof in prove(load(folder, files))}
