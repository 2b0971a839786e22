"""Markdown: it says what the console says, and no text of a job becomes markup."""

import html
import re
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st
from markdown_it import MarkdownIt

from report.hostile import HOSTILE, hostile_checked
from report.made import assessment, everything, finding
from report.test_siting import place
from report.told import one, said_by_lines, words
from tundish.report.formats.checked import Checked
from tundish.report.formats.markdown import as_markdown
from tundish.report.formats.markdown_escape import in_markdown

READER = MarkdownIt("commonmark").enable(["table", "strikethrough"])
OURS = {"h1", "h2", "h3", "h4", "p", "ul", "li", "strong", "code", "pre"}


def rendered(text: str) -> str:
    return READER.render(text)


def text_of(page: str) -> str:
    return words(html.unescape(re.sub(r"<[^>]*>", " ", page)))


def tags(page: str) -> set[str]:
    return set(re.findall(r"</?([a-z0-9]+)", page))


def test_it_says_all_that_the_lines_say() -> None:
    page = text_of(rendered(as_markdown(one())))
    assert [text for text in said_by_lines(one()) if text not in page] == []


def test_headings_go_down_one_level_at_a_time() -> None:
    levels = [int(level) for level in re.findall(r"<h([1-6])>", rendered(as_markdown(one())))]
    assert levels[0] == 1
    assert all(below - above <= 1 for above, below in pairwise(levels))


def test_a_bar_has_its_numbers_beside_it() -> None:
    assert re.search(r"16\.2 L `━+┄+┃` limit 20 L, 19 % below", as_markdown(one()))


def test_a_plan_keeps_its_rows() -> None:
    checked = Checked((assessment(siting=place()),), sections=("siting",))
    (plan,) = re.findall(
        r"<pre><code[^>]*>(.*?)</code></pre>", rendered(as_markdown(checked)), re.S
    )
    assert "┌" in plan and "[1]" in plan


def test_rows_of_the_source_never_stand_twice_empty() -> None:
    text = as_markdown(one())
    assert "\n\n\n" not in text
    assert text.endswith("\n") and not text.endswith("\n\n")


@pytest.mark.parametrize("text", HOSTILE)
def test_no_text_becomes_markup(text: str) -> None:
    page = rendered(as_markdown(hostile_checked(text)))
    assert tags(page) <= OURS
    assert words(text) in text_of(page)


@pytest.mark.parametrize("text", HOSTILE)
def test_what_readers_make_links_of_stands_in_code(text: str) -> None:
    page = rendered(as_markdown(hostile_checked(text)))
    outside = text_of(re.sub(r"<code.*?</code>", "", page, flags=re.S))
    assert not re.search(r"://|www\.|@|#[0-9]|:fire:", outside)


@pytest.mark.parametrize("text", HOSTILE)
def test_a_hostile_text_makes_no_heading_or_item_of_its_own(text: str) -> None:
    tame = re.findall("<(?:h[1-6]|li)>", rendered(as_markdown(hostile_checked("tame"))))
    assert re.findall("<(?:h[1-6]|li)>", rendered(as_markdown(hostile_checked(text)))) == tame


@given(st.text(max_size=40))
def test_any_text_is_read_back_as_it_was(text: str) -> None:
    page = rendered(f"- **a:** {in_markdown(text)}")
    assert text_of(page) == words(f"a: {text}")
    assert tags(page) <= {"ul", "li", "strong", "code", "p"}


@given(st.text("-+*_=#>.)12 ab`~|\\<[]()!&:", max_size=20))
def test_any_marks_are_read_back_as_they_were(text: str) -> None:
    page = rendered(in_markdown(text))
    assert text_of(page) == words(text)
    assert tags(page) <= {"p", "code"}


def test_several_jobs_begin_with_how_all_stand_and_end_with_the_cautions() -> None:
    two = Checked((everything(), assessment(finding(), job="Other")), several=True)
    text = as_markdown(two)
    headings = re.findall(r"^##? (.*)$", text, re.M)
    assert headings[0] == "Two jobs checked"
    assert headings[1] == "All jobs"
    assert headings[-1] == "Before you act on this"
    assert headings.count("Before you act on this") == 1
    assert "Other" in headings


def test_words_within_a_name_are_left_as_they_are() -> None:
    assert in_markdown("free_water_volume _x_ 8.5 L -3 degC") == (
        "free_water_volume \\_x\\_ 8.5 L -3 degC"
    )
