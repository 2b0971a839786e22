"""The guides for those who change the program name files that are there, and stay short."""

import re
from pathlib import Path

import pytest

TOP = Path(__file__).parents[2]
GUIDES = ("README.md", "DEVELOPERS.md", "engine/README.md", "engine/LIMITS.md")
BELOW = (TOP, TOP / "engine", TOP / "engine" / "tundish")
"""Folders that a guide writes paths from."""


def paths_in(text: str) -> list[str]:
    """Return what looks like a path of this tree: in backticks, with a slash."""
    words = re.findall(r"`([\w./*-]+)`", text)
    return [word for word in words if re.search(r"/.*\.(py|toml|md)$|^[\w./-]+/$", word)]


@pytest.mark.parametrize("name", GUIDES)
def test_a_guide_names_files_that_are_there(name: str) -> None:
    text = (TOP / name).read_text(encoding="utf-8")
    links = re.findall(r"\]\(([^)#]+)\)", text)
    assert not [link for link in links if not (TOP / name).parent.joinpath(link).exists()]
    assert not [
        path for path in paths_in(text) if not any(list(folder.glob(path)) for folder in BELOW)
    ]


def test_paths_are_found() -> None:
    assert paths_in("`job/parts/` and `rules/a.toml`, not `x` or `a/b`") == [
        "job/parts/",
        "rules/a.toml",
    ]


def test_the_guide_for_contributors_is_read_in_one_go() -> None:
    assert len((TOP / "DEVELOPERS.md").read_text(encoding="utf-8")) <= 12_000
