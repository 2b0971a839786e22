"""Measures which facts decide most, and writes rules/forms/starters.toml.

    python tests/tables/starter_facts.py [ORDERS] [SEED]

Each sample job is taken apart and put together again, fact by fact, in many random orders: so it is
thinned to every degree. What a fact decides at the moment it is put in (rules that come out met or
breached and did not before, each item of a list a share of its rule) is credited to it. This is
what a fact decides on the average over all that may be known beside it (the value that Shapley gave
to the players of a game, 1953; from memory).
"""

from __future__ import annotations

import sys
from collections import defaultdict
from collections.abc import Iterator, Mapping
from pathlib import Path
from random import Random
from typing import Any

from tundish import Job, Rulebook
from tundish.job.hints import written_path
from tundish.job.model.schema import Fact, Items
from tundish.job.schema import job_schema
from tundish.rulebook.evaluate.judge import Verdict
from tundish.rulebook.forms.walk import Walk
from tundish.rulebook.model.choices import STAGES
from tundish.text.bundled_folders import bundled_folder

BOOK = Rulebook.built_in()
STARTERS = bundled_folder("rules") / "forms" / "starters.toml"
GIVEN = ("job.region", "job.stage", "job.title", "job.date", "unit_sheet")
"""What every job states from the beginning."""

MOST = {"enquiry": 40, "survey": 40}
MOST_LATER = 80
MOST_OF_A_UNIT = 44
NOT_IN_STARTERS = ("job", "unit", "readings", "order", "tolerance", "waiver")
DECIDED = (Verdict.MET, Verdict.BREACHED)

Credits = dict[str, dict[str, float]]
"""By rule and fact: how often the fact decided the rule, on the average."""


def sample_jobs() -> list[dict[str, Any]]:
    """Return the facts of all sample jobs."""
    paths = sorted(bundled_folder("sample_jobs").glob("*.toml"))
    return [dict(BOOK.facts(Job.from_file(path)).values) for path in paths]


def pieces(values: Mapping[str, Any], outer: str = "") -> Iterator[tuple[str, list[Any], Any]]:
    """Give every fact with its path in the schema, the way to it, and its value."""
    for key, value in values.items():
        path = f"{outer}{key}"
        if isinstance(value, list) and value:
            for position, item in enumerate(value):
                for inner, way, fact in pieces(item, f"{path}."):
                    yield inner, [key, position, *way], fact
        elif value is not True or isinstance(job_schema().find(path), Fact):
            yield written_path(path), [key], value


def put(values: dict[str, Any], way: list[Any], value: Any, whole: Mapping[str, Any]) -> None:
    """Put a fact in, and say that the groups and the items around it are there."""
    key = way[0]
    steps = key.split(".")
    for depth in range(1, len(steps)):
        values.setdefault(".".join(steps[:depth]), True)
    if len(way) == 1:
        values[key] = value
        return
    items = values.setdefault(key, [{} for _ in whole[key]])
    put(items[way[1]], way[2:], value, whole[key][way[1]])


def decided(values: Mapping[str, Any]) -> list[float]:
    """Return how much of each rule is decided, from 0 to 1."""
    return [_share(verdict) for verdict in BOOK.evaluator.verdicts(values)]


def _share(verdict: Verdict | tuple[Verdict, ...]) -> float:
    if not isinstance(verdict, tuple):
        return float(verdict in DECIDED)
    return sum(each in DECIDED for each in verdict) / len(verdict) if verdict else 0.0


def measured(orders: int, seed: int) -> Credits:
    """Return what each fact decides, summed over the sample jobs.

    Args:
        orders: How many random orders each job is put together in.
        seed: Seed of the orders.
    """
    chance = Random(seed)
    shares: Credits = defaultdict(lambda: defaultdict(float))
    for whole in sample_jobs():
        ways: dict[str, list[tuple[list[Any], Any]]] = defaultdict(list)
        for path, way, value in pieces(whole):
            ways[path].append((way, value))
        for _ in range(orders):
            paths = sorted(ways.keys() - set(GIVEN))
            chance.shuffle(paths)
            _credit(paths, ways, whole, shares)
    return {
        rule: {path: credit / orders for path, credit in by_fact.items()}
        for rule, by_fact in shares.items()
    }


def _credit(
    paths: list[str],
    ways: Mapping[str, list[tuple[list[Any], Any]]],
    whole: Mapping[str, Any],
    shares: Credits,
) -> None:
    values = {path: whole[path] for path in (*GIVEN, "job") if path in whole}
    before = decided(values)
    for path in paths:
        for way, value in ways[path]:
            put(values, way, value, whole)
        after = decided(values)
        for rule, was, now in zip(BOOK.evaluator.names, before, after, strict=True):
            if was != now:
                shares[rule][path] += now - was
        before = after


def ranked(shares: Credits, stage: str) -> list[str]:
    """Return all facts, those first that decide most of what is due up to a stage.

    Dangers and faults count first; where they are even, all rules count.
    """
    serious: dict[str, float] = defaultdict(float)
    of_all: dict[str, float] = defaultdict(float)
    for rule, by_fact in shares.items():
        if STAGES.index(BOOK.rules[rule].stage) > STAGES.index(stage):
            continue
        for path, credit in by_fact.items():
            of_all[path] += credit
            if BOOK.rules[rule].severity in ("danger", "fault"):
                serious[path] += credit
    paths = [path for path in of_all if of_all[path] > 0]
    paths.sort(key=lambda path: (-max(serious[path], 0), -of_all[path], path))
    return list(dict.fromkeys(_inside(path, paths) for path in paths))


def _inside(path: str, paths: list[str]) -> str:
    """Return the fact by which a group is asked for: of those inside, what decides most."""
    entry = job_schema().find(path)
    if isinstance(entry, Fact) or entry is None or written_path(f"{path}.wall") == path:
        return path
    inner = [each for each in paths if each.startswith(f"{path}.")]
    record = entry.item if isinstance(entry, Items) else entry
    return inner[0] if inner else next(record.facts()).path


def chosen(shares: Credits, stage: str) -> list[str]:
    """Return the facts of a job that a starter asks for at a stage, in the order of the walk."""
    walk = Walk.built_in()
    early = stage in MOST
    paths = [
        path
        for path in ranked(shares, "commissioning" if early else stage)
        if path.split(".")[0] not in NOT_IN_STARTERS
        and (not early or walk.is_asked_at(stage, path, ""))
    ]
    most = MOST.get(stage, MOST_LATER)
    wanted = dict.fromkeys(walk.always_asked(stage))
    for path in paths:
        names = [name for name in _names(path) if name not in wanted]
        if len(wanted) + len(names) + (path not in wanted) > most:
            break
        wanted.update(dict.fromkeys([*names, path]))
    return sorted(wanted, key=walk.order)


def _names(path: str) -> Iterator[str]:
    """Give the paths of the names of the items that a fact stands in."""
    steps = path.split(".")
    for depth in range(1, len(steps)):
        outer = ".".join(steps[:depth])
        entry = job_schema().find(outer)
        if isinstance(entry, Items) and "name" in entry.item.fields:
            yield f"{outer}.name"


def written(shares: Credits) -> str:
    """Return the file."""
    lists = {stage: chosen(shares, stage) for stage in STAGES}
    unit = [path for path in ranked(shares, "commissioning") if path.startswith("unit.")]
    walk = Walk.built_in()
    wanted = list(dict.fromkeys([*walk.always_asked_of_unit, *unit]))[:MOST_OF_A_UNIT]
    lists["unit"] = sorted(wanted, key=walk.order)
    head = [
        "# What a first job file asks for at each stage, and a first unit sheet: the facts that",
        "# decide most, in the order of walk.toml. Measured over the sample jobs by",
        "# tests/tables/starter_facts.py; change that, not this.",
    ]
    tables = [
        f"{name} = [\n" + "".join(f'  "{path}",\n' for path in paths) + "]"
        for name, paths in lists.items()
    ]
    return "\n".join(head) + "\n\n" + "\n\n".join(tables) + "\n"


def main() -> None:
    """Measure and write."""
    orders = int(sys.argv[1]) if len(sys.argv) > 1 else 30
    seed = int(sys.argv[2]) if len(sys.argv) > 2 else 1
    Path(STARTERS).write_text(written(measured(orders, seed)), encoding="utf-8")


if __name__ == "__main__":
    main()
