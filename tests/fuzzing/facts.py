"""Facts by chance for the small world of `language.world`: whole, bare, absent, at limits."""

from __future__ import annotations

from random import Random
from typing import Any

from language.world import FACTS, World

SIZES = (0.0, 0.2, 1.0, 1.0 + 5e-10, 1.0 + 2e-9, 2.0, 3.0, 5.0, -1.0, 0.02, 1e-300, 1e200, 1e308)
WARMTHS = (273.15, 268.15, 293.15, 293.15 + 1e-7, 283.15, 373.15, 0.0, 5.0, 1e308)
LEVELS = (0.0, 45.0, 45.0 + 1e-8, 60.0, 200.0, 4000.0)
_ITEMS = {path: meaning for path, meaning in FACTS.items() if meaning.kind.name == "items"}
_WHOLE = [path for path in FACTS if not any(path.startswith(f"{items}.") for items in _ITEMS)]
_INNER = {
    items: [
        path
        for path in FACTS
        if path.startswith(f"{items}.")
        and not any(path.startswith(f"{deeper}.") for deeper in _ITEMS if len(deeper) > len(items))
    ]
    for items in _ITEMS
}


def some_facts(chance: Random) -> dict[str, Any]:
    """Return the facts of a job, each known or not."""
    share = chance.choice((0.3, 0.6, 0.8, 0.9, 1.0))
    found = {path: _fact(chance, path, share) for path in _WHOLE if chance.random() < share}
    return without_the_absent(found)


def more_facts(chance: Random, facts: dict[str, Any]) -> dict[str, Any]:
    """Return facts with some more of them known; none that was known is changed."""
    share = chance.choice((0.2, 0.5, 1.0))
    found = dict(facts)
    for path in _WHOLE:
        if path not in found:
            if chance.random() < share:
                found[path] = _fact(chance, path, share)
        elif isinstance(found[path], list):
            found[path] = [_more_of(chance, path, item, share) for item in found[path]]
    # What is now known to be absent may have been partly known.
    for group in ("water", "water.vessel"):
        if found.get(group) is False and any(path.startswith(f"{group}.") for path in facts):
            found[group] = True
    return without_the_absent(found)


def _more_of(chance: Random, items: str, item: dict[str, Any], share: float) -> dict[str, Any]:
    found = dict(item)
    for path in _INNER[items]:
        name = path.removeprefix(f"{items}.")
        if name not in found:
            if chance.random() < share:
                found[name] = _fact(chance, path, share)
        elif isinstance(found[name], list):
            found[name] = [_more_of(chance, path, one, share) for one in found[name]]
    return found


def without_the_absent(facts: dict[str, Any]) -> dict[str, Any]:
    """Return facts without those of groups that are known to be absent."""
    absent = tuple(
        f"{path}."
        for path, value in facts.items()
        if value is False and (path in ("water", "water.vessel"))
    )
    return {path: value for path, value in facts.items() if not path.startswith(absent or ("\0",))}


def as_world(facts: dict[str, Any]) -> World:
    """Return facts as an evaluation sees them."""
    names: dict[str, str] = {}
    for path in ("water.run", "rod"):
        for at, item in enumerate(facts.get(path, ()), start=1):
            names[f"{path}[{at}]"] = f"{path} {at}"
            for inner in range(1, len(item.get("part", ())) + 1):
                names[f"{path}[{at}].part[{inner}]"] = f"part {inner}"
    return World(facts, names=names)


def _fact(chance: Random, path: str, share: float) -> Any:
    kind = FACTS[path].kind
    match kind.name:
        case "items":
            return [
                {
                    inner.removeprefix(f"{path}."): _fact(chance, inner, share)
                    for inner in _INNER[path]
                    if chance.random() < share
                }
                for _ in range(chance.choice((0, 1, 1, 2, 3)))
            ]
        case "quantity":
            return _size(chance, kind.dimension.name, kind.point)
        case "truth" | "record":
            return chance.random() < (0.9 if kind.name == "record" else 0.5)
        case "text":
            return chance.choice(kind.choices or ("x", "thin", "thick", "red", "biocide"))
        case "texts":
            return tuple(word for word in kind.choices if chance.random() < 0.5)
        case _:
            return float(chance.choice((739580, 739581, 1)))


def _size(chance: Random, dimension: str, point: bool) -> float:
    if chance.random() < 0.3:
        return round(chance.uniform(-10, 10), 3)
    if point:
        return chance.choice(WARMTHS if dimension == "temperature" else LEVELS)
    return chance.choice(SIZES)
