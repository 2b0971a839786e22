"""No module, and no inner room, imports itself by way of others."""

from __future__ import annotations

import ast
from collections.abc import Iterator, Mapping
from functools import cache
from graphlib import CycleError, TopologicalSorter
from pathlib import Path

ENGINE = Path(__file__).parents[2] / "engine" / "tundish"
MODULES = {
    ".".join(path.relative_to(ENGINE.parent).with_suffix("").parts): path
    for path in sorted(ENGINE.rglob("*.py"))
    if path.name != "__init__.py"
}
ONE_ROOM = frozenset(("tundish.text", "tundish.text.toml_edit", "tundish.text.toml_mistakes"))
"""Reading a TOML file asks what is wrong with a broken one, told with places of text."""


def imports(path: Path) -> Iterator[str]:
    """Give the modules of the program that a module imports, wherever in it."""
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.ImportFrom) and node.module:
            if node.module in MODULES:
                yield node.module
            yield from (
                name for alias in node.names if (name := f"{node.module}.{alias.name}") in MODULES
            )


def room_of(module: str) -> str:
    room = module.rpartition(".")[0]
    return "tundish.text" if room in ONE_ROOM else room


def circle(graph: Mapping[str, set[str]]) -> list[str]:
    """Return a circle of a graph, or nothing."""
    try:
        TopologicalSorter(graph).prepare()
    except CycleError as error:
        return list(error.args[1])
    return []


@cache
def uses() -> dict[str, set[str]]:
    """Return the modules that each module imports."""
    return {module: set(imports(path)) - {module} for module, path in MODULES.items()}


def test_no_modules_import_each_other_in_a_circle() -> None:
    assert sum(map(len, uses().values())) > 1_000
    assert circle(uses()) == []


def test_no_rooms_import_each_other_in_a_circle() -> None:
    rooms: dict[str, set[str]] = {}
    for module, used in uses().items():
        room = room_of(module)
        rooms.setdefault(room, set()).update({room_of(other) for other in used} - {room})
    assert circle(rooms) == []


def test_a_circle_is_found() -> None:
    assert set(circle({"a": {"b"}, "b": {"c"}, "c": {"a"}})) == {"a", "b", "c"}
    assert circle({"a": {"b"}, "b": {"c"}}) == []
