"""The catalogue of rules."""

from pathlib import Path

from report.packs import write_pack
from tundish.report.page.plain_text import as_plain
from tundish.report.tell.catalogue import catalogue_lines
from tundish.rulebook.rulebook import Rulebook


def test_rules_stand_under_their_topic_with_severity_and_name(tmp_path: Path) -> None:
    rulebook = Rulebook.load(write_pack(tmp_path), with_built_in=False)
    text = as_plain(catalogue_lines(rulebook))
    assert text.index("PIPES") < text.index("pipes/insulation") < text.index("PLACEMENT")
    assert "DANGER   The unit stands above the snow" in text
    assert "two rules in two topics: 1 danger, 0 fault, 1 caution" in text.lower()


def test_what_is_from_memory_says_so(tmp_path: Path) -> None:
    rulebook = Rulebook.load(write_pack(tmp_path), with_built_in=False)
    text = as_plain(catalogue_lines(rulebook))
    assert "placement/snow [from memory]" in text
    assert "pipes/insulation [from memory]" not in text


def test_one_topic_alone_is_listed_alone(tmp_path: Path) -> None:
    rulebook = Rulebook.load(write_pack(tmp_path), with_built_in=False)
    text = as_plain(catalogue_lines(rulebook, "pipes"))
    assert "insulation" in text
    assert "snow" not in text


def test_where_a_rule_holds_is_told_unless_it_is_everywhere(tmp_path: Path) -> None:
    rulebook = Rulebook.load(write_pack(tmp_path), with_built_in=False)
    text = as_plain(catalogue_lines(rulebook))
    assert text.count("[in GB and IE alone]") == 1
