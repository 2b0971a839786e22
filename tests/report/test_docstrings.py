"""Docstrings read as data."""

from tundish.findings.finding import Affected, Margin
from tundish.report.schemas.docstrings import about, attributes
from tundish.rulebook.model.rule import Rule


class Documented:
    """What it is,
    on two rows.

    And more: of it.

    Attributes:
        first: One thing:
            on two rows.
        second (str): Another.

    Example:
        >>> third: 3
    """


def test_what_a_class_is_ends_before_its_sections() -> None:
    assert about(Documented) == "What it is, on two rows. And more: of it."


def test_attributes_go_over_several_rows_and_end_with_their_section() -> None:
    assert attributes(Documented) == {
        "first": "One thing: on two rows.",
        "second": "Another.",
    }


def test_a_class_without_attributes_has_none() -> None:
    assert attributes(Affected) == {}
    assert about(Affected).startswith("A requirement that a change")


def test_real_ones_are_read_whole() -> None:
    assert attributes(Margin)["share"].endswith("or a point on a scale.")
    assert set(attributes(Rule)) >= {"title", "requires", "adjust", "is_met"}
