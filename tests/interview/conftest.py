"""Interviews about a small job, by the invented rules of `report.packs` and a few more."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from report.packs import write_pack
from tundish.interview.interview import Interview
from tundish.rulebook.rulebook import Rulebook

JOB = """\
# An invented cottage.
[job]
title = "Cottage"
region = "GB"
stage = "design"
"""
VESSEL = """\
title    = "The vessel holds enough"
requires = "water.volume_vessel.volume >= 20 L"
severity = "note"
stage    = "design"
because  = "Too little of it cools too far."
remedy   = "Fit a larger one."
cite     = [{ source = "practice" }]
reviewed = 2026-11-25

[[case]]
why     = "just enough"
given   = { "water.volume_vessel.volume" = "20 L" }
outcome = "met"

[[case]]
why     = "too little"
given   = { "water.volume_vessel.volume" = "19 L" }
outcome = "breached"

[[case]]
why     = "whether there is one"
given   = {}
outcome = "undecided"
unknown = ["water.volume_vessel"]
"""
REACH = """\
title    = "The crane reaches the place"
requires = "more.crane_reach >= 6 m and unit.mass <= 200 kg"
severity = "note"
stage    = "design"
because  = "What it does not reach it cannot set down."
remedy   = "Hire a longer one."
cite     = [{ source = "practice" }]
reviewed = 2026-11-25

[[case]]
why     = "exactly"
given   = { "more.crane_reach" = "600 cm", "unit.mass" = "200 kg" }
outcome = "met"

[[case]]
why     = "short"
given   = { "more.crane_reach" = "5.9 m" }
outcome = "breached"

[[case]]
why     = "not known"
given   = {}
outcome = "undecided"
unknown = ["more.crane_reach", "unit.mass"]
"""
FACTS = """\
[crane_reach]
kind     = "quantity"
unit     = "m"
question = "How far does the crane reach?"
"""

Ask = Callable[..., Interview]


@pytest.fixture(name="job")
def job_file(tmp_path: Path) -> Path:
    path = tmp_path / "job.toml"
    path.write_text(JOB)
    return path


@pytest.fixture(name="rulebook", scope="session")
def invented(tmp_path_factory: pytest.TempPathFactory) -> Rulebook:
    folder = write_pack(tmp_path_factory.mktemp("pack") / "rules")
    for name, text in {"vessels/volume": VESSEL, "lift/reach": REACH, "facts": FACTS}.items():
        path = folder / f"{name}.toml"
        path.parent.mkdir(exist_ok=True)
        path.write_text(text)
    return Rulebook.load(folder, with_built_in=False)


@pytest.fixture(name="ask")
def started(job: Path, rulebook: Rulebook) -> Ask:
    """Return a function that starts an interview about a text and gives it some answers."""

    def start(*answers: str, text: str = JOB, **options: object) -> Interview:
        job.write_bytes(text.encode())
        interview = Interview(job, rulebook, **options)
        for answer in answers:
            interview.answer(answer)
        return interview

    return start
