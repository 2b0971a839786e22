"""Finding facts by words, paths and topics."""

from functools import cache

import pytest

from tundish.rulebook.link.facts_read import facts_read
from tundish.rulebook.rulebook import Rulebook
from tundish.rulebook.search.facts import SearchResult, every_fact, find_facts, stem
from tundish.rulebook.search.readers import Readers

BOOK = Rulebook.built_in()


@cache
def readers() -> Readers:
    return Readers.of(BOOK)


def find(*words: str) -> SearchResult:
    return find_facts(words, BOOK, readers())


def paths(*words: str) -> list[str]:
    return [asked.path for asked in find(*words).facts]


@pytest.mark.parametrize("word", ["snow", "Snow", "SNOWS", "snows"])
def test_case_and_form_of_a_word_make_no_difference(word: str) -> None:
    assert paths(word) == paths("snow")
    assert paths(word)[0] == "site.snow_depth"


def test_a_word_of_the_question_finds_a_fact() -> None:
    assert paths("main", "fuse") == ["electricity.service_fuse"]
    assert paths("fuse", "main") == paths("main", "fuse")


def test_all_words_must_fit() -> None:
    both = paths("snow", "hood")
    assert both
    assert set(both) < set(paths("snow"))


def test_words_of_paths_and_labels_come_before_words_of_questions_and_rules() -> None:
    found = paths("coast")
    assert found[0] == "site.distance_to_coast"
    assert found.index("site.distance_to_coast") < found.index("site.exposure")


def test_a_path_finds_itself_and_what_is_in_it_with_or_without_positions() -> None:
    assert paths("site.snow_depth") == ["site.snow_depth"]
    assert paths("electricity.circuit[2].cable.length") == ["electricity.circuit.cable.length"]
    found = paths("water.run")
    assert found[0] == "water.run"
    assert all(path.startswith("water.run") for path in found)


def test_the_name_of_a_table_gives_its_facts_first() -> None:
    found = paths("site")
    inside = [path for path in found if path.startswith("site")]
    assert found[: len(inside)] == inside


def test_a_topic_finds_what_its_rules_read_and_no_more() -> None:
    rules = [rule for rule in BOOK.rules.values() if rule.topic == "defrost-water"]
    expected = {path for rule in rules for path in facts_read(rule, BOOK.quantities)}
    assert set(paths("defrost-water")) == expected
    assert paths("defrost", "water") == paths("defrost-water")


def test_measures_of_pipes_are_found_by_their_own_names_alone() -> None:
    assert "water.run.pipe.wall" not in paths("pipe")
    assert "water.run.pipe.wall" in paths("wall", "pipe")


def test_nothing_found_tells_words_that_are_near() -> None:
    assert find("snwo").facts == ()
    assert find("snwo").near[0] == "snow"
    assert dict(find("snow", "fuse").counts)["snow"] == len(paths("snow"))


@pytest.mark.parametrize("words", [(".",), ("_",), ("…",), ("",)])
def test_a_word_without_letters_finds_nothing(words: tuple[str, ...]) -> None:
    assert find(*words) == SearchResult(())


def test_a_very_long_word_is_not_compared_with_every_other() -> None:
    assert find("x" * 100_000).near == ()


def test_each_fact_is_found_by_its_path() -> None:
    for asked in every_fact(BOOK):
        assert paths(asked.path)[0] == asked.path


@pytest.mark.parametrize(
    ("one", "other"),
    [("pipe", "pipes"), ("heat", "heated"), ("valve", "valves"), ("battery", "batteries")],
)
def test_forms_of_a_word_have_one_stem(one: str, other: str) -> None:
    assert stem(one) == stem(other)
    assert len(stem("gas")) == 3
