"""The guide for those who write rules says what is so: its examples are read, linked and proved."""

import re
import tomllib
from pathlib import Path
from typing import get_args

import pytest

from tundish import Rulebook
from tundish.language.operations.aggregates import AGGREGATES
from tundish.language.operations.functions import FUNCTIONS, INTERPOLATE, SPECIAL
from tundish.language.syntax.tokens import RESERVED
from tundish.rulebook.files.file_shapes import FactShape, ProvisionShape, RuleShape
from tundish.rulebook.model.choices import Severity, Stage
from tundish.rulebook.prove.prove import prove

TOP = Path(__file__).parents[2]
GUIDE = (TOP / "rules" / "README.md").read_text(encoding="utf-8")
BLOCKS = re.findall(r"```toml\n(.*?)```", GUIDE, re.S)
GRAMMAR = re.search(r"```ebnf\n(.*?)```", GUIDE, re.S)


def block(word: str) -> str:
    """Return the one example that holds a word."""
    (found,) = [text for text in BLOCKS if word in text]
    return found


def lay(folder: Path, files: dict[str, str]) -> Rulebook:
    """Lay a pack of examples on the built-in rules."""
    for path, text in files.items():
        (folder / path).parent.mkdir(parents=True, exist_ok=True)
        (folder / path).write_text(text, encoding="utf-8")
    return Rulebook.load(folder)


RULE = block("The unit stands clear of the ground")
READS_THE_TABLE = """
[freezing_in_guide]
label = "freezing point"
about = "As the guide's own table has it."
formula = "lookup('freezing-in-guide', 'propylene glycol', water.frost.glycol.fraction)"
unit = "degC"
cite = [{ source = "coolprop" }]
reviewed = 2026-11-25
[[freezing_in_guide.case]]
why = "half way between two rows"
given = { "water.frost.glycol" = { fraction = "5 %" } }
value = "-1.435 degC"
"""
CONTENT = block("[pipe_content]").replace("pipe_content", "content_of_pipe")
COVER = block("[sun-cover]").replace("[sun-cover", "[cover-in-guide")


@pytest.fixture(scope="module", name="book")
def book_with_the_examples(tmp_path_factory: pytest.TempPathFactory) -> Rulebook:
    files = {
        "my-topic/above-ground.toml": RULE,
        "a/quantities.toml": CONTENT,
        "b/quantities.toml": READS_THE_TABLE,
        "tables/freezing-in-guide.toml": block("Freezing point of glycol in water"),
        "a/provisions.toml": COVER.replace("[[sun-cover", "[[cover-in-guide"),
    }
    return lay(tmp_path_factory.mktemp("guide"), files)


@pytest.mark.parametrize(
    "name",
    ["my-topic/above-ground", "content_of_pipe", "freezing_in_guide", "cover in guide"],
    ids=["rule built from nothing", "quantity", "table", "part"],
)
def test_an_example_is_proved(book: Rulebook, name: str) -> None:
    (proof,) = prove(book, chosen={name})
    assert proof.cases > 0
    assert not proof.failures, proof.failures


def test_the_sizes_the_facts_and_the_pack_are_read(tmp_path: Path) -> None:
    files = {
        "sizes.toml": block("[volume-vessels]"),
        "facts.toml": block("[crane_reach]"),
        "pack.toml": "format = 1\n" + block("House rules of an invented firm"),
        "my-topic/above-ground.toml": RULE,
    }
    book = lay(tmp_path, files)
    assert "clearances/top" not in book.rules
    assert "crane_reach" in book.declared
    assert book.sizes["water.volume_vessel.volume"].values[0][0] == "15 L"


def test_every_example_is_toml() -> None:
    for text in BLOCKS:
        tomllib.loads(text)


@pytest.mark.parametrize("name", [*FUNCTIONS, *AGGREGATES, *SPECIAL, INTERPOLATE])
def test_every_function_stands_in_the_guide(name: str) -> None:
    assert f"`{name}(" in GUIDE


@pytest.mark.parametrize("key", [*RuleShape.model_fields, "why", "given", "outcome", "item"])
def test_every_key_of_a_rule_stands_in_the_guide(key: str) -> None:
    assert f"`{key}`" in GUIDE


@pytest.mark.parametrize("key", [*ProvisionShape.model_fields, *FactShape.model_fields])
def test_every_key_of_parts_and_facts_stands_in_the_guide(key: str) -> None:
    assert re.search(rf"\b{key}\b", GUIDE), key


def test_every_severity_and_stage_stands_in_the_guide() -> None:
    for word in (*get_args(Severity), *get_args(Stage)):
        assert f"`{word}`" in GUIDE


def test_the_grammar_names_every_reserved_word() -> None:
    assert GRAMMAR is not None
    quoted = set(re.findall(r'"([a-z]+)"', GRAMMAR[1]))
    assert set(RESERVED) - {*FUNCTIONS, *AGGREGATES, *SPECIAL, INTERPOLATE} <= quoted
    assert quoted <= set(RESERVED)


TRUTH = {"true": True, "false": False, "unknown": None}


def test_the_three_valued_table_is_what_the_language_does() -> None:
    from language.world import check, computed, world

    rows = re.findall(
        r"^\| (true|false|unknown) \| (\w+) \| (\w+) \| (\w+) \| (\w+) \|$", GUIDE, re.M
    )
    assert len(rows) == 3
    for left, right, both, either, opposite in rows:
        values = {"f": TRUTH[left], "g": TRUTH[right]}
        facts = world({name: value for name, value in values.items() if value is not None})
        found = [computed(check(text), facts) for text in ("f and g", "f or g", "not f")]
        assert found == [TRUTH[both], TRUTH[either], TRUTH[opposite]]
