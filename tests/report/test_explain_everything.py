"""Whatever the built-in rulebook names is explained, on a page of any width it is asked for."""

from __future__ import annotations

from collections.abc import Iterable

import pytest

from tundish.job.model.schema import Fact, Items, Record
from tundish.report.page.console import print_lines
from tundish.report.page.line import Line
from tundish.report.page.plain_text import as_plain
from tundish.report.tell.explain_fact import fact_lines
from tundish.report.tell.named import name_lines
from tundish.rulebook.rulebook import Rulebook
from tundish.rulebook.search.facts import every_fact
from tundish.rulebook.search.readers import Readers

BOOK = Rulebook.built_in()


def fits(name: str, lines: Iterable[Line], capsys: pytest.CaptureFixture[str]) -> None:
    """Assert that lines say something, on a page of 72 columns and in a pipe of 80."""
    told = list(lines)
    print_lines(told)
    for page, width in ((as_plain(told), 72), (capsys.readouterr().out, 80)):
        rows = page.splitlines()
        assert len(rows) > 3, name
        assert [row for row in rows if len(row) > width] == [], name
        assert "None" not in rows[0] and rows[0].strip(), name


@pytest.mark.parametrize(
    ("kind", "names"),
    [
        ("rules", list(BOOK.rules)),
        ("quantities", list(dict.fromkeys(name for _, name in BOOK.quantities))),
        ("tables", list(BOOK.tables)),
        ("parts", list(BOOK.provisions)),
        ("sources", list(BOOK.sources)),
    ],
)
def test_everything_of_a_kind_is_explained_within_its_page(
    kind: str,
    names: list[str],
    capsys: pytest.CaptureFixture[str],
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setenv("COLUMNS", "80")
    assert len(names) > 20, kind
    for name in names:
        fits(name, name_lines(name, BOOK), capsys)


def test_every_fact_group_and_list_is_explained_within_its_page(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("COLUMNS", "80")
    readers = Readers.of(BOOK)
    asked = every_fact(BOOK)
    assert {Fact, Items, Record} <= {type(one) for one in asked}
    for one in asked:
        fits(one.path, fact_lines(one, BOOK, readers), capsys)
