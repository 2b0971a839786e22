import re
import tomllib
from collections.abc import Iterator
from typing import Any

import pytest
import tomli_w
from hypothesis import given
from hypothesis import strategies as st

from tundish.text.place import Path, Places

TEXT = """\
title = "ü" # [not.a.table]
"b c".d = { x = [1, {y = 'q'}], "z w".w = 3 }
long = \"\"\"
[fake]
k = 1
\"\"\"
[t . u]
k = [
  "ä", "b", # c = 2
  [1, 2],
]
[[t.v]]
n = 1
[t.v.w]
m = 2
[[t.v.x]]
o = 3
[[t.v]]
n = 2
when = 2026-11-02
"""


@pytest.mark.parametrize(
    ("path", "place"),
    [
        (("title",), (1, 1)),
        (("b c",), (2, 1)),
        (("b c", "d"), (2, 7)),
        (("b c", "d", "x"), (2, 13)),
        (("b c", "d", "x", 0), (2, 18)),
        (("b c", "d", "x", 1), (2, 21)),
        (("b c", "d", "x", 1, "y"), (2, 22)),
        (("b c", "d", "z w", "w"), (2, 39)),
        (("t",), (7, 2)),
        (("t", "u"), (7, 6)),
        (("t", "u", "k", 1), (9, 8)),
        (("t", "u", "k", 2, 1), (10, 7)),
        (("t", "v"), (12, 5)),
        (("t", "v", 0), (12, 3)),
        (("t", "v", 0, "n"), (13, 1)),
        (("t", "v", 0, "w"), (14, 6)),
        (("t", "v", 0, "w", "m"), (15, 1)),
        (("t", "v", 0, "x", 0, "o"), (17, 1)),
        (("t", "v", 1), (18, 3)),
        (("t", "v", 1, "when"), (20, 1)),
    ],
)
def test_every_key_and_item_has_its_place(path: Path, place: tuple[int, int]) -> None:
    assert Places(TEXT).of(path) == place


def test_what_is_not_there_gets_the_place_of_what_is_around_it() -> None:
    places = Places(TEXT)
    assert places.of(("t", "v", 1, "no", "such")) == (18, 3)
    assert places.of(("fake", "k")) == (1, 1)
    assert places.value_of(("t", "u", "no")) == (7, 6)


def test_has_is_true_of_exactly_what_is_written() -> None:
    places = Places(TEXT)
    assert places.has(("t", "v", 0, "n"))
    assert not places.has(("t", "v", 2))
    assert not places.has(("fake",))


def test_the_value_of_a_text_begins_inside_its_quotes() -> None:
    places = Places(TEXT)
    assert places.value_of(("title",)) == (1, 10)
    assert places.value_of(("long",)) == (4, 1)
    assert places.value_of(("t", "u", "k", 0)) == (9, 4)
    assert places.value_of(("t", "v", 1, "when")) == (20, 8)


def test_windows_line_ends_do_not_shift_places() -> None:
    places = Places("a = '''\r\nx'''\r\nb = 1\r\n")
    assert places.value_of(("a",)) == (2, 1)
    assert places.of(("b",)) == (3, 1)


def test_escaped_keys_are_found_by_what_they_mean() -> None:
    assert Places('[s]\n"a\\u0062" = 1\n').of(("s", "ab")) == (2, 1)


_KEYS = st.text("ab.ü \"'\\\n", min_size=1, max_size=4)
_VALUES = st.recursive(
    st.integers(0, 9) | st.booleans() | st.text("ab'\"\\\n\tü]#=", max_size=6),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(_KEYS, inner, max_size=3),
    max_leaves=12,
)


def _paths(data: Any, path: Path = ()) -> Iterator[tuple[Path, Any]]:
    if path:
        yield path, data
    if isinstance(data, dict | list):
        inner = data.items() if isinstance(data, dict) else enumerate(data)
        for step, value in inner:
            yield from _paths(value, (*path, step))


@given(st.dictionaries(_KEYS, _VALUES, max_size=4), st.booleans())
def test_every_path_of_any_file_is_placed_at_its_own_name(
    data: dict[str, Any], multiline: bool
) -> None:
    text = tomli_w.dumps(data, multiline_strings=multiline)
    places, lines = Places(text), text.split("\n")
    for path, value in _paths(tomllib.loads(text)):
        assert places.has(path)
        line, column = places.of(path)
        rest = lines[line - 1][column - 1 :]
        if isinstance(path[-1], str):
            key = re.match(r'[A-Za-z0-9_-]+|"(?:\\.|[^"\\])*"|\'[^\']*\'', rest)
            assert key is not None
            assert next(iter(tomllib.loads(f"{key[0]} = 0"))) == path[-1]
        elif isinstance(value, bool | int):
            assert rest.startswith(str(value).lower())


def test_a_group_of_keys_with_dots_stands_where_it_is_first_named() -> None:
    for above in ("", "[t]\n", "[[t]]\n"):
        places = Places(above + "a.b = 1\na.c = 2\nd = { e.f = 1, e.g = 2 }\n")
        at = {"": (), "[t]\n": ("t",), "[[t]]\n": ("t", 0)}[above]
        first = above.count("\n") + 1
        assert places.of((*at, "a")) == (first, 1)
        assert places.of((*at, "d", "e")) == (first + 2, 7)
