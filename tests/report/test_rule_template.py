"""Templates of rules: whole rules that hold as they stand, whatever kind of fact they ask for."""

import datetime
import tomllib
from collections.abc import Iterator, Mapping
from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest

from tundish.job.hints import is_pipe_size
from tundish.job.model.schema import Entry, Items, Record
from tundish.job.named_file import FILES
from tundish.job.schema import job_schema
from tundish.report.forms.rule_template import rule_template
from tundish.rulebook.files.file_shapes import RuleShape
from tundish.rulebook.files.read_file import read_shape
from tundish.rulebook.link.expressions import Linker
from tundish.rulebook.link.rules import link_rule
from tundish.rulebook.model.rule import Rule
from tundish.rulebook.model.rule_file import RuleFile
from tundish.rulebook.prove.prove import Proof, prove
from tundish.rulebook.rulebook import Rulebook
from tundish.text.toml_file import toml_of

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
        source = RuleFile.of(toml_of(text.encode(), f"{name}.toml"))
        shape, problems = read_shape(RuleShape, source.file.data, source, (), "rule")
        assert shape is not None, [problem.sentence for problem in problems]
        rule = link_rule(linker, name, shape, source)
        assert rule is not None, (text, [problem.sentence for problem in linker.problems])
        rules[name] = rule
    assert not linker.problems, [problem.sentence for problem in linker.problems]
    return rules


def proofs(texts: Mapping[str, str], rulebook: Rulebook) -> list[Proof]:
    """Prove rules on top of a rulebook, and nothing else."""
    alone = replace(
        rulebook, rules=linked(texts, rulebook), quantities={}, provisions={}, constraints={}
    )
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


@pytest.mark.parametrize(
    ("path", "title", "condition"),
    [
        (
            "site.snow_depth",
            "The expected snow depth must be at least ",
            "site.snow_depth >= ",
        ),
        (
            "water.run.flexible",
            "For each run, the answer to 'Is it a flexible hose?' must be yes",
            "run.flexible",
        ),
        (
            "unit.electricity.phases",
            "The phases of the unit must be ",
            "unit.electricity.phases == ",
        ),
        ("water.treatment", "The treatment of the water must include ", "in water.treatment"),
        (
            "readings.day",
            "The day of the readings must not be later than the day of the description",
            "readings.day <= job.date",
        ),
        ("water.bypass", "There must be a bypass", "present(water.bypass)"),
        ("water.run", "There must be at least one run", "count(water.run) >= 1"),
        (
            "water.run.pipe",
            "For each run, the outside diameter of the pipe size must be at least 28 mm",
            "run.pipe.outside_diameter >= 28 mm",
        ),
        (
            "placement.hears.also_hears",
            "For each receiver, there must be at least one other source",
            "count(receiver.also_hears) >= 1",
        ),
        (
            "placement.hears.also_hears.same_home",
            "For each receiver and each other source, the answer to ",
            "all(other_source.same_home for other_source in receiver.also_hears)",
        ),
    ],
)
def test_title_and_condition_say_the_same_in_english_and_in_the_language(
    path: str, title: str, condition: str
) -> None:
    rule = read(path)
    assert str(rule["title"]).startswith(title)
    assert condition in str(rule["requires"])


def test_every_sentence_of_a_template_is_one() -> None:
    for path, text in templates().items():
        rule = tomllib.loads(text)
        for key in ("because", "remedy"):
            sentence = rule[key]
            assert sentence[0].isupper() and sentence.endswith("."), (path, sentence)
            assert "  " not in sentence and "{" not in sentence, (path, sentence)
        assert "{" not in rule["title"] and not rule["title"].endswith("."), (path, rule["title"])
        assert rule["cite"] == [{"source": "common-practice"}]


def test_a_fact_in_a_group_that_may_be_absent_is_not_asked_for_without_it() -> None:
    rule = read("water.relief.outlet.air_gap")
    assert rule["applies"] == "present(water.relief) and present(water.relief.outlet)"
    outcomes = [case["outcome"] for case in rule["case"]]
    assert outcomes == ["met", "breached", "undecided", "not applicable", "not applicable"]


def test_a_temperature_is_breached_one_degree_below_and_a_share_of_a_hundred_within_it() -> None:
    cases = read("site.design_air_temperature")["case"]
    assert cases[1]["given"]["site.design_air_temperature"].endswith(" degC")
    book = Rulebook.built_in()
    whole = replace(book.asked("water.frost.glycol.fraction"), example="100 %")
    none = replace(book.asked("site.snow_depth"), example="0 mm")
    texts = {
        "a/whole": rule_template(whole, book, TODAY),
        "a/none": rule_template(none, book, TODAY),
    }
    assert "site.snow_depth <= 0 mm" in texts["a/none"]
    assert '"99 %"' in texts["a/whole"]
    assert not any(proof.failures for proof in proofs(texts, book))


def test_a_count_of_which_the_example_is_none_is_asked_to_be_no_more() -> None:
    book = Rulebook.built_in()
    none = replace(book.asked("water.run.bends"), example="0")
    text = rule_template(none, book, TODAY)
    assert 'requires = "run.bends <= 0"' in text
    assert not proofs({"a/none": text}, book)[0].failures


def test_no_rule_can_ask_for_files_or_for_a_table_that_every_job_has() -> None:
    assert [path for path in (*FILES, "site", "unit.water") if written(path)] == []


def test_facts_of_packs_of_every_kind_have_templates_that_hold(tmp_path: Path) -> None:
    (tmp_path / "facts.toml").write_text(PACK_FACTS)
    book = Rulebook.load(tmp_path)
    texts = {f"a/{name.replace('_', '-')}": written(f"more.{name}", book) for name in book.declared}
    assert [name for name, text in texts.items() if not text] == ["a/only"]
    del texts["a/only"]
    assert [proof.failures for proof in proofs(texts, book)] == [()] * len(texts)


PACK_FACTS = """
crane_reach = { kind = "quantity", unit = "m", question = "How far does the crane reach?" }
hardness = { kind = "quantity", unit = "mg/L CaCO3", question = "How hard is the water?" }
share = { kind = "quantity", unit = "1", question = "What share is it?" }
cold = { kind = "quantity", unit = "°C", question = "How cold is it?" }
level = { kind = "quantity", unit = "dB(A)", question = "How loud is it?" }
only = { kind = "text", question = "Which one?", choices = ["only"] }
colour = { kind = "text", question = "Which colour?", choices = ["red", "blue"] }
note = { kind = "text", question = "What is noted?" }
seen = { kind = "date", question = "When was it seen?" }
many = { kind = "count", question = "How many?" }
ratio = { kind = "number", question = "What ratio?" }
things = { kind = "texts", question = "Which things?", choices = ["hook", "rope"] }
names = { kind = "texts", question = "Which names?" }
ready = { kind = "truth", question = "Is it ready?" }
"""
