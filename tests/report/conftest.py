"""Rulebooks with facts of a pack: alone on a small pack, and on top of the built-in one."""

from __future__ import annotations

import pytest

from rulebook.packs import write_pack
from rulebook.test_declared_facts import FACTS, FILES
from tundish.rulebook.rulebook import Rulebook


@pytest.fixture(name="book_with_facts", scope="session", params=["toy", "built-in"])
def rulebook_with_facts_of_a_pack(
    request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory
) -> Rulebook:
    """Return a rulebook in which a pack declares the reach of a crane and a colour."""
    example = FACTS.replace('how      = "From', 'example  = "30 m"\nhow      = "From')
    folder = write_pack(tmp_path_factory.mktemp("pack"), FILES | {"facts.toml": example})
    return Rulebook.load(folder, with_built_in=request.param == "built-in")
