"""The evaluator gives the verdicts of findings, on whole jobs, on bare ones, and on each case."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from rulebook.packs import QUANTITY, RULE, load
from tundish import Job, Rulebook
from tundish.job.facts import Facts
from tundish.rulebook.evaluate.evaluator import Evaluator
from tundish.rulebook.evaluate.judge import judge
from tundish.text.bundled_folders import bundled_folder
from verdicts import verdicts_by_rule

BOOK = Rulebook.built_in()
SAMPLES = sorted(bundled_folder("sample_jobs").glob("*.toml"))


def slowly(facts: Facts, book: Rulebook = BOOK) -> dict[str, Any]:
    found: dict[str, Any] = {}
    session = book.session(facts.values)
    for rule in book.rules.values():
        verdicts = tuple(one.verdict for one in judge(rule, facts, session))
        of_items = rule.each is not None and isinstance(facts.values.get(rule.each.path), list)
        if of_items and not facts.values[rule.each.path]:  # type: ignore[union-attr]
            verdicts = ()
        found[rule.name] = verdicts if of_items else verdicts[0]
    return found


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_a_sample_job_is_judged_alike(path: Path) -> None:
    facts = BOOK.facts(Job.from_file(path))
    assert verdicts_by_rule(facts.values) == slowly(facts)


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_a_job_is_judged_alike_whatever_is_left_out_of_it(path: Path) -> None:
    facts = BOOK.facts(Job.from_file(path))
    for left_out in list(facts.values)[::23]:
        values = {key: value for key, value in facts.values.items() if key != left_out}
        fewer = Facts(values, facts.written, facts.names)
        assert verdicts_by_rule(values) == slowly(fewer)


def test_an_empty_job_is_judged_alike() -> None:
    facts = BOOK.facts(Job.from_data({}))
    assert verdicts_by_rule(facts.values) == slowly(facts)


def test_every_case_of_every_rule_is_judged_alike() -> None:
    for rule in BOOK.rules.values():
        for case in rule.cases[:3]:
            facts = BOOK.facts(Job.from_data(dict(case.given)))
            verdict = verdicts_by_rule(facts.values)[rule.name]
            session = BOOK.session(facts.values)
            told = tuple(one.verdict for one in judge(rule, facts, session))
            assert verdict in (told, told[0], ()), (rule.name, case.why)


def test_very_many_rules_are_asked_by_several_functions_and_told_in_order(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr("tundish.rulebook.evaluate.compile_rules.PARTS_AT_ONCE", 300)
    several = Evaluator(BOOK)
    assert several.names == tuple(BOOK.rules)
    for path in SAMPLES:
        values = BOOK.facts(Job.from_file(path)).values
        told = dict(zip(several.names, several.verdicts(values), strict=True))
        assert told == verdicts_by_rule(values)


def test_no_rules_come_to_no_verdicts() -> None:
    assert Evaluator(replace(BOOK, rules={})).verdicts({}) == []


def test_rounds_that_run_out_leave_the_same_undecided(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    text = RULE.replace(
        "placement.height_below >= site.snow_depth",
        "all(all(b.length > 0 m for b in water.run) for a in water.run)",
    )
    files = {"snow/base.toml": text, "snow/other.toml": RULE, "snow/quantities.toml": QUANTITY}
    book = load(tmp_path, files)
    monkeypatch.setattr("tundish.rulebook.evaluate.budget.MOST_STEPS", 50)
    facts = book.facts(Job.from_data({"water.run": [{"length": "1 m"}] * 9}))
    assert verdicts_by_rule(facts.values, book) == slowly(facts, book)
