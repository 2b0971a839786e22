"""Assessments made by hand: invented findings of every sort."""

from __future__ import annotations

import datetime
from dataclasses import replace
from typing import Any

from tundish.findings.finding import Assessment, Finding, Input, Margin, Open, Working
from tundish.rulebook.evaluate.judge import Judgement, Verdict
from tundish.rulebook.model.source import Citation, Source

STANDARD = Citation(
    Source("invented-standard", "Invented standard 1", "standard", "2021"), "table 3", recall=True
)
PRACTICE = Citation(Source("common-practice", "Common practice of the trade", "common practice"))
SNOW = Open(
    "site.snow_depth",
    "snow depth",
    "What snow depth is expected at the unit?",
    "Ask the neighbours, or take the map of snow loads.",
    "surveyor",
)
SOIL = Open("site.soil", "soil", "What soil is below the base?", "Dig a trial hole.", "builder")


def thickness(run: int, name: str) -> Open:
    """Return the open fact of one pipe run."""
    return Open(
        f"water.run[{run}].insulation.thickness",
        f"thickness of the insulation ({name})",
        "How thick is the insulation of the run?",
        "Measure it.",
        "installer",
    )


def finding(**changes: Any) -> Finding:
    """Return a breached fault, with some fields changed."""
    fields: dict[str, Any] = {
        "rule": "defrost-water/free-volume",
        "item": "",
        "verdict": Verdict.BREACHED,
        "severity": "fault",
        "title": "Enough water stays in circulation for a defrost",
        "statement": "free water volume 16.2 L is less than minimum free volume 20 L: short by "
        "3.8 L",
        "because": "A defrost takes its heat from the water that is always free to circulate.",
        "remedy": "Add a volume vessel in series, or leave more emitters without control valves.",
        "margin": Margin("3.8 L", -0.19, "16.2 L", "20 L"),
        "due": True,
        "stage": "design",
        "inputs": (Input("unit.water.content", "water content", "3.2 L", "sheet.toml:12"),),
        "workings": (
            Working(
                "free_water_volume",
                "free water volume",
                "unit.water.content\n  + vessel_volume",
                "3.2 L + 13 L",
                "16.2 L",
                (STANDARD,),
            ),
        ),
        "open": (),
        "assumed": (),
        "sources": (PRACTICE,),
    }
    made = Finding(**{**fields, **changes})
    cited = [*made.sources, *(source for work in made.workings for source in work.sources)]
    return replace(made, from_memory=any(citation.recall for citation in cited))


def assessment(*findings: Finding, **changes: Any) -> Assessment:
    """Return an assessment of some findings."""
    fields: dict[str, Any] = {
        "job": "Bungalow at the end of an invented lane",
        "file": "bungalow.toml",
        "stage": "design",
        "region": "GB",
        "date": datetime.date(2026, 11, 2),
        "figures": (),
        "siting": None,
        "findings": findings,
        "job_digest": "0" * 64,
        "rulebook_digest": "1" * 64,
        "version": "0",
        "cautions": ("This is an aid to a competent person and no approval.",),
        "judgements": tuple(Judgement(one.rule, one.item, one.verdict) for one in findings),
        "unverified": frozenset(one.rule for one in findings if one.from_memory),
    }
    return Assessment(**{**fields, **changes})


def undecided(**changes: Any) -> Finding:
    """Return an undecided finding that waits for the snow depth."""
    fields: dict[str, Any] = {
        "verdict": Verdict.UNDECIDED,
        "rule": "placement/snow",
        "title": "The unit stands above the snow",
        "statement": "This cannot be decided without snow depth",
        "margin": None,
        "workings": (),
        "open": (SNOW,),
    }
    return finding(**{**fields, **changes})


def everything() -> Assessment:
    """Return an assessment that has a finding of every sort."""
    return assessment(
        finding(
            rule="relief/discharge",
            severity="danger",
            item="cylinder",
            title="The discharge of a relief valve ends where it can hurt nobody",
            statement="the discharge ends: over the path to the front door",
            margin=None,
            workings=(),
            assumed=("height of the discharge",),
            sources=(STANDARD, PRACTICE),
        ),
        finding(),
        finding(
            severity="caution",
            rule="flow/velocity",
            title="Water is not so fast that pipes are heard",
            item="flow, unit to cupboard",
            statement="velocity 1.9 m/s is more than 1.2 m/s: over by 0.7 m/s",
            margin=Margin("0.7 m/s", -0.583, "1.9 m/s", "1.2 m/s"),
            due=False,
            stage="installation",
        ),
        undecided(),
        undecided(
            rule="pipes/insulation",
            item="flow",
            title="Pipes outdoors are insulated",
            severity="caution",
            open=(thickness(1, "flow"),),
        ),
        undecided(
            rule="pipes/insulation",
            item="return",
            title="Pipes outdoors are insulated",
            severity="caution",
            open=(thickness(2, "return"), SNOW),
        ),
        undecided(
            rule="base/soil",
            title="The base does not sink",
            due=False,
            stage="order",
            open=(SOIL,),
        ),
        undecided(
            rule="tables/beyond",
            title="The cable carries the current",
            open=(),
            statement="The table ends at 40 A; this is beyond it",
        ),
        finding(
            verdict=Verdict.WAIVED,
            rule="clearances/top",
            title="Air can leave above the unit",
            statement="set aside by the designer of record until 2027-11-02: open to the sky",
        ),
        finding(
            verdict=Verdict.MET,
            rule="electricity/isolator",
            title="An isolator is beside the unit",
            statement="free water volume 24 L is at least 20 L: 4 L to spare",
            margin=Margin("4 L", 0.2, "24 L", "20 L"),
        ),
        finding(verdict=Verdict.NOT_APPLICABLE, rule="sound/neighbour", margin=None),
    )
