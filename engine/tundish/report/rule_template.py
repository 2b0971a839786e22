"""The template of a rule: a whole small rule about one fact, a comment on each of its lines."""

from __future__ import annotations

import datetime

from tundish.job.schema import Asked, Fact
from tundish.measure.quantity import parse_quantity
from tundish.measure.showing import show_number
from tundish.report.form import quoted


def rule_template(asked: Asked, today: datetime.date) -> str:
    """Write the template of a rule that asks a fact to be at least what its example says.

    Args:
        asked: The fact; it must be a figure outside a list.
        today: The day of its first review.

    Returns:
        TOML text that can be proved as it stands; empty where the fact is no such figure.
    """
    if not isinstance(asked, Fact) or asked.kind != "quantity" or _in_list(asked.path):
        return ""
    example = parse_quantity(asked.example)
    # Nothing may be below 0 where it is the least that can be, and a case has to be.
    limit = float(example.magnitude) or 1.0
    less = show_number(limit - abs(limit) / 100)
    unit = example.unit.symbol
    bare = show_number(limit)
    return f"""\
# The requirement, as one sentence.
title    = "The {asked.label} is at least {bare} {unit}"
# When it is asked at all; leave the line out if always. Ask nothing of jobs it cannot concern.
# applies = "placement.on == 'ground'"
# The condition that must hold. Names are facts of a job and quantities; a unit follows its number.
requires = "{asked.path} >= {bare} {unit}"
# danger: people may be hurt; fault: it will not work, be damaged or be refused; caution; note.
severity = "caution"
# From when on it must be decided: enquiry, survey, design, order, installation, commissioning.
stage    = "design"
# Why, in a sentence that a tired installer understands.
because  = "Say here what happens otherwise."
# What mends a breach; something that can be done.
remedy   = "Say here what to do."
# The facts that mending may change; the least change is then worked out.
adjust   = {quoted(asked.path)}
# On whose authority: a source of sources.toml, with its place; recall = true if from memory.
cite     = [{{ source = "common-practice" }}]
reviewed = {today.isoformat()}

# What proves it: at least one case that is met, one breached, one undecided, and both sides of
# every limit.
[[case]]
why     = "exactly at the limit"
given   = {{ {quoted(asked.path)} = "{bare} {unit}" }}
outcome = "met"

[[case]]
why     = "a hair less"
given   = {{ {quoted(asked.path)} = "{less} {unit}" }}
outcome = "breached"

[[case]]
why     = "nobody knows yet"
given   = {{}}
outcome = "undecided"
unknown = [{quoted(asked.path)}]
"""


def _in_list(path: str) -> bool:
    from tundish.job.schema import Items, job_schema

    steps = path.split(".")
    groups = [".".join(steps[:depth]) for depth in range(1, len(steps))]
    return any(isinstance(job_schema().find(group), Items) for group in groups)
