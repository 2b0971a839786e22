"""A pack on top changes what it names, and nothing else."""

from __future__ import annotations

from pathlib import Path

import pytest

from laws.thinning import BOOK, SAMPLES, sample_facts
from rulebook.packs import RULE
from tundish import Rulebook
from tundish.text.bundled_folders import bundled_folder
from verdicts import verdicts_by_rule

REPLACED = "clearances/above-snow"
RETIRED = "clearances/level-base"
NEW = "house/base"


@pytest.fixture(name="above", scope="module")
def pack_on_top(tmp_path_factory: pytest.TempPathFactory) -> Rulebook:
    folder = tmp_path_factory.mktemp("house")
    own = RULE.replace('source = "practice"', f'source = "{next(iter(BOOK.sources))}"')
    replacing = f'replaces = "We stand our units higher."\n{own}'
    files = {
        f"{NEW}.toml": own,
        f"{REPLACED}.toml": replacing.replace(">= site.snow_depth", ">= site.snow_depth + 9 m"),
        "pack.toml": 'title = "House rules"\nformat = 1\n'
        f'retire = [{{ rule = "{RETIRED}", because = "We level them all." }}]\n',
    }
    for name, text in files.items():
        path = Path(folder, name)
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text)
    return Rulebook.load(folder)


def test_only_what_it_names_is_there_or_gone(above: Rulebook) -> None:
    assert above.rules.keys() ^ BOOK.rules.keys() == {NEW, RETIRED}
    assert above.quantities.keys() == BOOK.quantities.keys()
    assert above.tables.keys() == BOOK.tables.keys()
    assert above.sources == BOOK.sources
    assert above.digest != BOOK.digest


@pytest.mark.parametrize("at", range(len(SAMPLES)), ids=[path.stem for path in SAMPLES])
def test_all_other_rules_come_to_the_same(above: Rulebook, at: int) -> None:
    facts = sample_facts(at)
    before, after = verdicts_by_rule(facts.values), verdicts_by_rule(facts.values, above)
    assert {name for name in before if after.get(name) != before[name]} <= {REPLACED, RETIRED}


def test_the_built_in_rules_lie_as_they_did(above: Rulebook) -> None:
    again = Rulebook.load(bundled_folder("rules"), with_built_in=False)
    assert again.digest == BOOK.digest != above.digest
    assert Rulebook.built_in() is BOOK
