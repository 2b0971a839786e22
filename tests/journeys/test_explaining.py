"""Names and files that are printed lead on: to facts, rules, and the schemas of what is written."""

import json
import tomllib
from pathlib import Path

import pytest
from jsonschema import Draft202012Validator

from journeys.filling import marks_off
from journeys.test_samples import copied
from journeys.walking import Walk


def test_a_fact_that_is_found_by_a_word_is_explained(walk: Walk) -> None:
    found = walk("tundish facts snow")
    path = found.out.split()[0]
    assert path == "site.snow_depth"
    explained = walk(f"tundish explain {path}")
    assert found.entries("asked as")[0] in explained.text
    named = found.entries("read by")[0].split(": ")[-1].split(", ")[0].split(" and ")[0]
    assert f"rule {named}" in walk(f"tundish explain {named}").out


def test_the_rule_that_a_finding_names_is_explained(quick_walk: Walk) -> None:
    sample = copied(quick_walk, quick_walk("tundish samples"), "shore-bungalow.toml")
    rules = quick_walk.check(f"tundish check {sample} --show breached").entries("rule")
    assert len(rules) >= 4
    for rule in dict.fromkeys(rules[:4]):
        assert f"rule {rule}" in quick_walk(f"tundish explain {rule}").out


@pytest.mark.parametrize("more", ["", " --all"])
def test_what_is_begun_keeps_to_the_schema_that_its_first_line_names(
    quick_walk: Walk, more: str
) -> None:
    walk = quick_walk
    new = walk(f"tundish new job.toml --stage commissioning --region GB{more}")
    for name in new.written[:2]:
        text = walk.read(name)
        first = text.splitlines()[0]
        assert first.startswith("#:schema ")
        beside = Path(name).parent / first.removeprefix("#:schema ")
        assert str(beside) in new.written
        validator = Draft202012Validator(json.loads(walk.read(str(beside))))
        for each in (text, marks_off(text)):
            # A day is a text to whatever reads a schema.
            data = json.loads(json.dumps(tomllib.loads(each), default=str))
            assert list(validator.iter_errors(data)) == []
        assert list(validator.iter_errors({"no such key": 1})) != []
