"""The order of rules, of keys, of items and of files says nothing, so it changes nothing."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from pathlib import Path
from random import Random
from typing import Any

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from laws.sample_data import WHOLE, sample_data
from laws.thinning import BOOK, SAMPLES, sample_facts, thinned
from rulebook.packs import PROVISIONS, QUANTITY, RULE, SOURCES, TABLE
from tundish import Job, Rulebook
from tundish.findings.assess import digest_of
from tundish.rulebook.evaluate.evaluator import Evaluator
from tundish.rulebook.evaluate.judge import judge
from verdicts import verdicts_by_rule


@settings(max_examples=8, deadline=None)
@given(st.integers(0, len(SAMPLES) - 1), st.integers(0), st.sampled_from((0.0, 0.2)))
def test_rules_in_another_order_come_to_the_same(at: int, seed: int, share: float) -> None:
    chance = Random(seed)
    facts = sample_facts(at)
    values = thinned(chance, facts.values, share)
    expected = verdicts_by_rule(values)
    names = chance.sample(list(BOOK.rules), len(BOOK.rules))
    other = Evaluator(replace(BOOK, rules={name: BOOK.rules[name] for name in names}))
    assert dict(zip(names, other.verdicts(values), strict=True)) == expected
    # One session for all of them: what one rule worked out must not tell on the next.
    session = BOOK.session(values)
    for name in names:
        judgements = judge(BOOK.rules[name], facts_of(values, at), session)
        verdicts = tuple(one.verdict for one in judgements)
        told = expected[name]
        assert verdicts == (told if isinstance(told, tuple) and told else verdicts), name


def facts_of(values: dict[str, Any], at: int) -> Any:
    whole = sample_facts(at)
    return type(whole)(values, whole.written, whole.names)


def shuffled_keys(chance: Random, data: Any) -> Any:
    if isinstance(data, dict):
        keys = chance.sample(list(data), len(data))
        return {key: shuffled_keys(chance, data[key]) for key in keys}
    return [shuffled_keys(chance, item) for item in data] if isinstance(data, list) else data


def shuffled_items(chance: Random, data: Any) -> Any:
    if isinstance(data, dict):
        return {key: shuffled_items(chance, value) for key, value in data.items()}
    if not isinstance(data, list):
        return data
    return [shuffled_items(chance, item) for item in chance.sample(data, len(data))]


@settings(max_examples=30, deadline=None)
@given(st.sampled_from(WHOLE), st.integers(0))
def test_keys_in_another_order_come_to_the_same(at: int, seed: int) -> None:
    data = sample_data(at)
    facts = BOOK.facts(Job.from_data(data))
    other = BOOK.facts(Job.from_data(shuffled_keys(Random(seed), data)))
    assert digest_of(other) == digest_of(facts)
    assert verdicts_by_rule(other.values) == verdicts_by_rule(facts.values)


@settings(max_examples=30, deadline=None)
@given(st.sampled_from(WHOLE), st.integers(0))
def test_items_in_another_order_get_the_same_verdicts(at: int, seed: int) -> None:
    data = sample_data(at)
    values = BOOK.facts(Job.from_data(data)).values
    others = BOOK.facts(Job.from_data(shuffled_items(Random(seed), data))).values
    again = verdicts_by_rule(others)
    for name, verdict in verdicts_by_rule(values).items():
        told, later = (v if isinstance(v, tuple) else [v] for v in (verdict, again[name]))
        assert Counter(told) == Counter(later), name


FILES = {
    "sources.toml": SOURCES,
    "snow/base.toml": RULE,
    "snow/quantities/height.toml": QUANTITY,
    "snow/quantities/more.toml": QUANTITY.replace("spare_height", "other_height").replace(
        'formula  = "placement.height_below - site.snow_depth"', 'formula  = "spare_height * 1"'
    ),
    "tables/ratings.toml": TABLE,
    "order/provisions.toml": PROVISIONS,
    "wind/base.toml": RULE,
}


@settings(
    max_examples=25, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
@given(st.permutations(sorted(FILES)))
def test_files_written_in_another_order_are_the_same_pack(
    tmp_path_factory: Any, names: list[str]
) -> None:
    folder: Path = tmp_path_factory.mktemp("pack")
    for name in names:
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(FILES[name])
    book = Rulebook.load(folder, with_built_in=False)
    assert list(book.rules) == ["snow/base", "wind/base"]
    assert book.digest == _digest(tmp_path_factory)


_DIGESTS: list[str] = []


def _digest(tmp_path_factory: Any) -> str:
    if not _DIGESTS:
        folder = tmp_path_factory.mktemp("plain")
        for name, text in FILES.items():
            (folder / name).parent.mkdir(parents=True, exist_ok=True)
            (folder / name).write_text(text)
        _DIGESTS.append(Rulebook.load(folder, with_built_in=False).digest)
    return _DIGESTS[0]


def test_files_of_quantities_may_be_called_the_other_way_round(tmp_path: Path) -> None:
    # Then the one that uses the other is read before it.
    swapped = {
        **FILES,
        "snow/quantities/height.toml": FILES["snow/quantities/more.toml"],
        "snow/quantities/more.toml": FILES["snow/quantities/height.toml"],
    }
    for name, text in swapped.items():
        (tmp_path / name).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / name).write_text(text)
    book = Rulebook.load(tmp_path, with_built_in=False)
    facts = book.facts(Job.from_data({"placement.height_below": "3 m", "site.snow_depth": "1 m"}))
    assert book.session(facts.values).derive("", "other_height") == 2.0
