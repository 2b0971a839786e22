"""One invented job under one small rule: what its finding says."""

from __future__ import annotations

import datetime
from pathlib import Path
from typing import Any

from rulebook.packs import QUANTITY, RULE, load
from tundish.findings.assess import assess
from tundish.findings.finding import Finding
from tundish.job.job import Job
from tundish.rulebook.rulebook import Rulebook

CONDITION = '"placement.height_below >= site.snow_depth"'
HEAD = RULE.partition("[[case]]")[0]

FACTS: dict[str, Any] = {
    "placement.height_below": "100 mm",
    "site.snow_depth": "120 mm",
    "site.exposure": "open shore",
    "site.design_air_temperature": "-3 degC",
    "site.coldest_air_temperature": "-12 degC",
    "unit.water.minimum_free_volume": "2e1 L",
    "unit.sound_power": {"day": "60 dB", "night": "54 dB"},
    "water.volume_vessel": {"volume": "20.0 L"},
    "water.bypass": "none",
    "water.run": [
        {"name": "flow", "length": "3 m", "pipe": "copper 28 x 0.9"},
        {"length": "7 m", "pipe": "copper 28 x 0.9"},
    ],
    "water.treatment": ["inhibitor"],
    "job.date": datetime.date(2026, 11, 2),
}


def rule(requires: str, **keys: str) -> str:
    """Write a rule with one condition, and other keys put over its own."""
    text = HEAD.replace(CONDITION, f'"""{requires}"""')
    lines = [line for line in text.splitlines() if line.partition(" ")[0] not in keys]
    return "\n".join([*(f"{key} = {value}" for key, value in keys.items()), *lines]) + "\n"


def book(folder: Path, requires: str, **keys: str) -> Rulebook:
    """Load a rulebook of one rule and one quantity."""
    return load(
        folder, {"snow/base.toml": rule(requires, **keys), "snow/quantities.toml": QUANTITY}
    )


def findings(
    folder: Path, requires: str, facts: dict[str, Any] | None = None, **keys: str
) -> tuple[Finding, ...]:
    """Judge the job, or other facts, by one condition."""
    job = Job.from_data(FACTS if facts is None else facts)
    return assess(job, book(folder, requires, **keys)).findings


def finding(
    folder: Path, requires: str, facts: dict[str, Any] | None = None, **keys: str
) -> Finding:
    """Return the one finding of a condition."""
    (found,) = findings(folder, requires, facts, **keys)
    return found
