"""Templates of rules: whole rules that hold as they stand, whatever kind of fact they ask for."""

import datetime
import tomllib
from collections.abc import Iterator, Mapping
from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest

from tundish.job.job import FILES
from tundish.job.schema import Asked, Entry, Fact, Items, Record, job_schema
from tundish.reading.toml_file import toml_of
from tundish.report.pipe_measure import is_pipe_size
from tundish.report.rule_template import rule_template
from tundish.rulebook.file_shapes import RuleShape
from tundish.rulebook.linking import Linker
from tundish.rulebook.proving import Proof, prove
from tundish.rulebook.reading import read_shape
from tundish.rulebook.rule import Rule
from tundish.rulebook.rule_source import RuleSource
from tundish.rulebook.rulebook import Rulebook

TODAY = datetime.date(2026, 11, 25)


def entries(entry: Entry) -> Iterator[Entry]:
    """Give all that stands in a job: facts, groups and lists."""
    record = entry.item if isinstance(entry, Items) else entry
    for inner in record.fields.values() if isinstance(record, Record) else ():
        yield inner
        yield from entries(inner)


def can_be_asked_for(entry: Entry) -> bool:
    """Say whether a rule can ask anything of it: a group that is always there has no value."""
    if isinstance(entry, Record):
        return entry.can_be_absent or is_pipe_size(entry)
    return entry.path not in FILES


def linked(texts: Mapping[str, str], rulebook: Rulebook) -> dict[str, Rule]:
    """Link rules as if they stood in files."""
    linker = Linker(rulebook.scope, rulebook.sources)
    rules = {}
    for name, text in texts.items():
        source = RuleSource.of(toml_of(text.encode(), f"{name}.toml"))
        shape, problems = read_shape(RuleShape, source.file.data, source, (), "rule")
        assert shape is not None, [problem.sentence for problem in problems]
        rule = linker.rule(name, shape, source)
        assert rule is not None, (text, [problem.sentence for problem in linker.problems])
        rules[name] = rule
    assert not linker.problems, [problem.sentence for problem in linker.problems]
    return rules


def proofs(texts: Mapping[str, str], rulebook: Rulebook) -> list[Proof]:
    """Prove rules on top of a rulebook, and nothing else."""
    alone = replace(rulebook, rules=linked(texts, rulebook), quantities={}, provisions={})
    return list(prove(alone))


def written(path: str, rulebook: Rulebook | None = None) -> str:
    book = rulebook or Rulebook.built_in()
    asked = book.asked(path)
    assert asked is not None
    return rule_template(asked, book, TODAY)


def read(path: str) -> dict[str, object]:
    return tomllib.loads(written(path))


@cache
def templates() -> Mapping[str, str]:
    """Return the template for every fact, group and list, by path; empty texts too."""
    every = [entry for entry in entries(job_schema()) if can_be_asked_for(entry)]
    return {entry.path: written(entry.path) for entry in every}


def test_every_fact_group_and_list_of_a_job_has_a_template() -> None:
    assert len(templates()) > 1000
    assert [path for path, text in templates().items() if not text] == []


def test_every_template_is_proved_as_it_stands() -> None:
    texts = {f"a-topic/{path.replace('.', '-')}": text for path, text in templates().items()}
    found = proofs(texts, Rulebook.built_in())
    assert len(found) == len(texts)
    failures = {
        proof.name: [(one.why, one.sentence) for one in proof.failures]
        for proof in found
        if proof.failures
    }
    assert failures == {}
