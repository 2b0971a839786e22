"""A country is one folder: one that is invented here overrides rules and adds one of its own."""

from __future__ import annotations

from pathlib import Path

import pytest

from tundish import Job, Rulebook, Verdict, assess
from tundish.job.table_columns import read_table_columns
from tundish.portfolio.by_columns import ColumnPortfolio
from tundish.report.tell.named import name_lines
from tundish.rulebook.evaluate.columns import CODES
from tundish.rulebook.prove.prove import prove
from tundish.rulebook.prove.run_mutants import run_mutants
from tundish.text.columns import RowsByColumn

COUNTRY = {
    "sources.toml": """\
[xa-building-law]
title = "Building law of an invented country"
basis = "regulation"
""",
    "tables/xa-clearances.toml": """\
title    = "Clearances above units, by the law of an invented country"
keys     = [{ name = "place" }]
gives    = [{ name = "clearance", unit = "mm" }]
cite     = [{ source = "xa-building-law" }]
reviewed = 2026-11-25
rows     = [["ground", 600], ["flat roof", 800]]
""",
    "clearances/quantities.toml": """\
[xa_clearance]
label    = "clearance above a unit by law"
about    = "By where it stands."
formula  = "lookup('xa-clearances', placement.on)"
unit     = "mm"
cite     = [{ source = "xa-building-law" }]
reviewed = 2026-11-25

[[xa_clearance.case]]
why   = "on the ground"
given = { "placement.on" = "ground" }
value = "600 mm"
""",
    "clearances/top-by-law.toml": """\
title    = "The space above the unit is what the law asks for"
requires = "placement.clearance.top >= xa_clearance"
severity = "fault"
stage    = "design"
because  = "The law asks for it."
remedy   = "Lower the unit."
adjust   = "placement.clearance.top"
cite     = [{ source = "xa-building-law" }]
reviewed = 2026-11-25
overrides = "clearances/top"
overrides_because = "The law of XA names a figure, whatever the unit asks for."

[[case]]
why     = "exactly at the limit"
given   = { "job.region" = "XA", "placement.on" = "ground", "placement.clearance.top" = "600 mm" }
outcome = "met"

[[case]]
why     = "a millimetre short"
given   = { "job.region" = "XA", "placement.on" = "ground", "placement.clearance.top" = "599 mm" }
outcome = "breached"

[[case]]
why     = "nobody measured it"
given   = { "job.region" = "XA", "placement.on" = "ground" }
outcome = "undecided"
unknown = ["placement.clearance.top"]
""",
    "consent/permitted.toml": """\
title    = "There is a planning permission"
requires = "present(documents.planning_permission)"
severity = "fault"
stage    = "order"
because  = "The law asks for one."
remedy   = "Ask for it."
cite     = [{ source = "xa-building-law" }]
reviewed = 2026-11-25

[[case]]
why     = "there is one"
given   = { "job.region" = "XA", "documents.planning_permission.reference" = "7" }
outcome = "met"

[[case]]
why     = "there is none"
given   = { "job.region" = "XA", "documents.planning_permission" = "none" }
outcome = "breached"

[[case]]
why     = "nobody has asked"
given   = { "job.region" = "XA" }
outcome = "undecided"
unknown = ["documents.planning_permission"]
""",
}
JOB = {
    "placement": {"on": "ground", "clearance": {"top": "500 mm", "open_above": False}},
    "unit.clearance.top": "400 mm",
    "documents.planning_permission": "none",
}
NAMES = ("clearances/top", "clearances/top-by-law", "consent/permitted")
HERE = (Verdict.NOT_APPLICABLE, Verdict.BREACHED, Verdict.BREACHED)
ELSEWHERE = (Verdict.MET, Verdict.NOT_APPLICABLE, Verdict.NOT_APPLICABLE)
NOWHERE = (Verdict.UNDECIDED,) * 3


@pytest.fixture(name="folder", scope="module")
def written(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("ours")
    for name, text in COUNTRY.items():
        path = folder / "national" / "XA" / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text)
    return folder


@pytest.fixture(name="rulebook", scope="module")
def loaded(folder: Path) -> Rulebook:
    return Rulebook.load(folder)


@pytest.mark.parametrize(("region", "expected"), [("XA", HERE), ("XB", ELSEWHERE), (None, NOWHERE)])
def test_it_is_judged_by_its_own_rules_there_alone(
    rulebook: Rulebook, region: str | None, expected: tuple[Verdict, ...]
) -> None:
    findings = assess(Job.from_data(JOB), rulebook, region=region).findings
    verdicts = {finding.rule: finding.verdict for finding in findings}
    assert tuple(verdicts[name] for name in NAMES) == expected


def test_a_table_of_jobs_in_several_countries_is_judged_alike(rulebook: Rulebook) -> None:
    base = rulebook.facts(Job.from_data(JOB))
    portfolio = ColumnPortfolio(base, read_table_columns(["job.region"]), rulebook)
    found = portfolio.judged(RowsByColumn(1, 3, {"job.region": ["XA", "XB", ""]}))
    words = {code: verdict for verdict, code in CODES.items()}
    open_at = {portfolio.rules[at]: row for row, at in enumerate(found.open)}
    judged = [[words[code] for code in found.verdicts[open_at[name]].tolist()] for name in NAMES]
    assert [tuple(column) for column in zip(*judged, strict=True)] == [HERE, ELSEWHERE, NOWHERE]


def test_a_tolerance_is_held_against_the_limit_of_the_country(rulebook: Rulebook) -> None:
    tolerance = [{"of": "placement.clearance.top", "amount": "150 mm"}]
    doubtful = {
        region: {
            finding.rule
            for finding in assess(
                Job.from_data(JOB | {"tolerance": tolerance}), rulebook, region=region
            ).findings
            if finding.doubtful
        }
        for region in ("XA", "XB")
    }
    assert "clearances/top-by-law" in doubtful["XA"]
    assert "clearances/top" not in doubtful["XA"]
    assert "clearances/top" in doubtful["XB"]


def test_it_is_proved_and_so_is_what_it_overrides(rulebook: Rulebook) -> None:
    names = {*NAMES, "xa_clearance"}
    told = [proof for proof in prove(rulebook, chosen=names) if proof.failures]
    assert told == []
    for name in NAMES:
        run = run_mutants(rulebook.rules[name], rulebook)
        assert run.mutants
        assert not run.unexcused


def explained(name: str, rulebook: Rulebook) -> list[tuple[str, str]]:
    return [(line.label, line.text) for line in name_lines(name, rulebook)]


def test_explain_tells_what_overrides_what_where_and_why(rulebook: Rulebook) -> None:
    why = "The law of XA names a figure, whatever the unit asks for."
    below = explained("clearances/top", rulebook)
    assert ("where", "in all countries but XA") in below
    assert ("in XA", f"clearances/top-by-law: {why}") in below
    own = explained("clearances/top-by-law", rulebook)
    assert ("instead of", f"clearances/top, in XA: {why}") in own


def test_a_rule_of_a_country_is_found_by_the_name_it_had(rulebook: Rulebook) -> None:
    lines = explained("cable-sizing/british-voltage-drop", rulebook)
    assert ("", "rule cable-sizing/voltage-drop-by-tables") in lines
    assert ("formerly", "cable-sizing/british-voltage-drop") in lines


def test_the_built_in_countries_stand_in_their_folders_alone() -> None:
    rules = Rulebook.built_in().rules.values()
    assert not [rule.name for rule in rules if "job.region" in str(rule.written)]
