"""A character of a text is found in its file, whatever escapes stand before it."""

import tomllib

import pytest

from tundish.text.place import Places
from tundish.text.text_place import place_within


@pytest.mark.parametrize(
    ("toml", "sought", "place"),
    [
        ("a = 'x and y'", "y", (1, 12)),
        ('a = "x and y"', "y", (1, 12)),
        (r'a = "\"red\" y"', "y", (1, 14)),
        (r'a = "\u2265\U00002265 y"', "y", (1, 23)),
        (r"a = '\\ y'", "y", (1, 9)),
        ('a = """\nx\n  y"""', "y", (3, 3)),
        ("a = '''\nx\n  y'''", "y", (3, 3)),
        ('a = """x\r\n  y"""', "y", (2, 3)),
        ('a = """\\\n   x \\\n\n   y"""', "y", (4, 4)),
        ('a = """\\\n   x"""', "x", (2, 4)),
        ('b = 1\na = "ééé y"', "y", (2, 10)),
    ],
)
def test_a_character_is_found_where_it_is_written(
    toml: str, sought: str, place: tuple[int, int]
) -> None:
    text = tomllib.loads(toml.replace("\r\n", "\n"))["a"]
    assert place_within(toml, Places(toml).value_of(("a",)), text.index(sought)) == place
    line, column = place
    assert toml.split("\n")[line - 1][column - 1] == sought


def test_the_end_of_a_text_is_its_closing_quote() -> None:
    toml = r'a = "x \"y\""'
    end = len(tomllib.loads(toml)["a"])
    assert place_within(toml, Places(toml).value_of(("a",)), end) == (1, 13)
