"""Lines put together by what belongs to what."""

from report.made import everything
from tundish.report.page.blocks import chapters_of, groups_of
from tundish.report.page.line import GAP, Line, entries
from tundish.report.tell.assessment import assessment_lines


def test_a_part_for_each_heading() -> None:
    lines = [Line("heading", "a"), Line("under", "b"), Line("heading", "c")]
    assert [(chapter.heading, chapter.under) for chapter in chapters_of(lines)] == [
        ("a", "b"),
        ("c", ""),
    ]


def test_what_stands_before_a_heading_is_a_part_without_one() -> None:
    (chapter,) = chapters_of([GAP, Line("section", "s"), Line("item", "i")])
    assert (chapter.heading, chapter.sections[0].name) == ("", "s")


def test_what_follows_a_finding_belongs_to_it_up_to_a_gap() -> None:
    lines = [Line("finding", "f"), Line("entry", "e", "l"), GAP, Line("entry", "x", "y")]
    (chapter,) = chapters_of(lines)
    first, second = chapter.sections[0].blocks
    assert first.head is not None and [line.text for line in first.body] == ["e"]
    assert second.head is None and [line.text for line in second.body] == ["x"]


def test_words_and_plans_stand_alone() -> None:
    (chapter,) = chapters_of([Line("item", "i"), Line("words", "w"), Line("entry", "e", "l")])
    heads = [block.head.text if block.head else None for block in chapter.sections[0].blocks]
    assert heads == ["i", "w", None]


def test_texts_without_a_label_join_those_before() -> None:
    body = [*entries("a", ["1", "2"]), Line("source", "3"), *entries("b", ["4"])]
    assert [(group.label, len(group.lines)) for group in groups_of(body)] == [("a", 3), ("b", 1)]


def test_a_label_said_again_begins_a_group_anew() -> None:
    body = [Line("entry", "1", "a"), Line("entry", "2", "a")]
    assert [group.label for group in groups_of(body)] == ["a", "a"]


def test_findings_under_a_label_are_one_list() -> None:
    body = [Line("entry", "two:", "decides"), *[Line("finding", "f", "decides")] * 2]
    assert [len(group.lines) for group in groups_of(body)] == [3]


def test_a_bar_is_a_group_of_its_own() -> None:
    body = [Line("entry", "1", "a"), Line("bar"), Line("entry", "2")]
    assert [len(group.lines) for group in groups_of(body)] == [1, 1, 1]


def test_no_line_is_lost() -> None:
    lines = list(assessment_lines(everything(), "all", workings=True))
    blocks = [
        b for chapter in chapters_of(lines) for section in chapter.sections for b in section.blocks
    ]
    kept = sum((block.head is not None) + len(block.body) for block in blocks)
    kept_in_groups = sum(len(g.lines) for block in blocks for g in groups_of(block.body))
    other = ("gap", "section", "heading", "under")
    assert kept == sum(line.role not in other for line in lines)
    assert kept_in_groups == sum(len(block.body) for block in blocks)
