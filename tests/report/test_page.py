"""The page in HTML: whole, without anything from outside, and saying what the console says."""

import re
from html.parser import HTMLParser
from itertools import pairwise

import pytest

from report.hostile import HOSTILE, hostile_checked
from report.made import assessment, everything, finding
from report.test_siting import place
from report.told import one, said_by_lines, words
from tundish.findings.finding import Margin
from tundish.report.formats.checked import Checked
from tundish.report.formats.html import as_html
from tundish.report.formats.html_style import STYLE

VOID = {"meta", "rect"}
ATTRIBUTES = {"charset", "content", "http-equiv", "lang", "name"} | {
    *("class", "href", "id", "role", "aria-hidden", "aria-label"),
    *("height", "preserveaspectratio", "viewbox", "width", "x", "y"),
}


class Page(HTMLParser):
    """Reads a page as strictly as it was written: what is opened is closed, in order."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.tags: list[str] = []
        self.attributes: list[tuple[str, str]] = []
        self.text = ""
        self._open: list[str] = []
        self.feed(text)
        self.close()
        assert self._open == []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append(tag)
        self.attributes += [(name, value or "") for name, value in attrs]
        if tag not in VOID:
            self._open.append(tag)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.handle_starttag(tag, attrs)

    def handle_endtag(self, tag: str) -> None:
        assert self._open.pop() == tag

    def handle_data(self, data: str) -> None:
        self.text += data if "style" not in self._open else ""


def test_it_says_all_that_the_lines_say() -> None:
    page = words(Page(as_html(one())).text.replace("\n", " "))
    assert [text for text in said_by_lines(one()) if text not in page] == []


def test_it_is_a_whole_document_with_language_and_title() -> None:
    text = as_html(one())
    assert text.startswith('<!doctype html>\n<html lang="en">')
    assert "<title>Bungalow at the end of an invented lane</title>" in text
    assert text.endswith("</html>\n")
    assert text.isascii()


def test_it_needs_nothing_from_outside() -> None:
    for checked in (one(), hostile_checked(HOSTILE[2])):
        page = Page(as_html(checked))
        assert not {"script", "link", "img", "iframe", "object", "base", "form"} & set(page.tags)
        links = [value for name, value in page.attributes if name in ("href", "src")]
        assert all(re.fullmatch("#part-[0-9]+", link) for link in links)
    assert "url(" not in STYLE and "@import" not in STYLE


@pytest.mark.parametrize("text", HOSTILE)
def test_no_text_becomes_markup(text: str) -> None:
    page, tame = Page(as_html(hostile_checked(text))), Page(as_html(hostile_checked("tame")))
    assert page.tags == tame.tags
    assert {name for name, _ in page.attributes} <= ATTRIBUTES
    assert words(text) in words(page.text.replace("\n", " "))
    assert page.text.replace("\n", "").isprintable()


def test_a_severity_is_told_by_gauge_and_word() -> None:
    page = Page(as_html(one())).text
    for told in ("■■■■ DANGER", "■■■□ FAULT", "■■□□ CAUTION"):
        assert told in page


@pytest.mark.parametrize(
    ("value", "limit", "filled", "limit_at"),
    [("10 L", "20 L", 100, 200), ("20 L", "20 L", 200, 200), ("40 L", "20 L", 200, 100)],
)
def test_a_bar_is_drawn_to_scale(value: str, limit: str, filled: int, limit_at: int) -> None:
    text = as_html(one(assessment(finding(margin=Margin("1 L", -0.1, value, limit)))))
    assert f'class="filled" y="2" width="{filled}"' in text
    assert f'class="limit" x="{limit_at}"' in text


def test_a_bar_that_would_mean_nothing_is_left_out() -> None:
    text = as_html(one(assessment(finding(margin=Margin("1 K", None, "2 degC", "3 degC")))))
    assert "<svg" not in text


def test_a_plan_keeps_its_rows() -> None:
    checked = Checked((assessment(siting=place()),), sections=("siting",))
    text = Page(as_html(checked)).text
    assert re.search(r"┌─+┐.*\n.*│.*│", text)


def test_headings_go_down_one_level_at_a_time() -> None:
    for checked in (one(), Checked((everything(),) * 2, several=True)):
        levels = [int(tag[1]) for tag in Page(as_html(checked)).tags if re.fullmatch("h[1-6]", tag)]
        assert levels.count(1) == 1
        assert all(below - above <= 1 for above, below in pairwise(levels))


def test_several_jobs_stand_one_after_the_other_with_links_to_them() -> None:
    two = Checked((everything(), assessment(finding(), job="Other")), several=True)
    text = as_html(two)
    parts = re.findall(r'<section class="job" id="(part-[0-9]+)">', text)
    assert [f'href="#{part}"' in text for part in parts] == [True, True]
    assert text.count("Before you act on this") == 1
    assert text.index("All jobs") < text.index(f'id="{parts[0]}"')
