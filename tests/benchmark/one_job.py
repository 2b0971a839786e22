"""One job, rules ready: verdicts and findings against the same rules written by hand."""

from __future__ import annotations

import random
from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace
from pathlib import Path
from typing import Any

from by_hand import BY_HAND, Verdict
from by_hand import Job as ByHand
from measuring import medians, told

from tundish import Job, Rulebook, assess
from tundish.job.schema import Record, job_schema
from tundish.rulebook.swift import Swift

SAMPLES = Path(__file__).parents[2] / "sample_jobs"
BARN = SAMPLES / "three-phase-barn.toml"


def nested(values: Mapping[str, Any], under: str = "") -> ByHand:
    """Return facts by path as nested dicts, the way the rules by hand want them."""
    job: ByHand = {}
    for path, value in sorted(values.items()):
        *groups, last = path.split(".")
        at = job
        for group in groups:
            at = at.setdefault(group, {})
        entry = job_schema().find(f"{under}{path}")
        if isinstance(entry, Record):
            at[last] = {} if value else "none"
        elif isinstance(value, list):
            at[last] = [nested(item, f"{under}{path}.") for item in value]
        else:
            at[last] = value
    return job


def thinned(values: Mapping[str, Any], share: float, seed: int = 7) -> dict[str, Any]:
    """Return the facts with a share of those outside lists not known."""
    chance = random.Random(seed)
    groups = {path for path in values if isinstance(job_schema().find(path), Record)}
    return {
        path: value for path, value in values.items() if path in groups or chance.random() >= share
    }


def asked_by_hand(job: ByHand) -> list[Verdict]:
    """Return the verdicts of the rules by hand."""
    return [rule(job) for rule in BY_HAND.values()]


def same_rules() -> Rulebook:
    """Return the rulebook with only the rules that were written by hand as well."""
    whole = Rulebook.built_in()
    return replace(whole, rules={name: whole.rules[name] for name in BY_HAND})


def checked(swift: Swift, values: Mapping[str, Any]) -> None:
    """Refuse to measure what does not come to the same."""
    ours, theirs = swift.verdicts(values), asked_by_hand(nested(values))
    for name, one, other in zip(BY_HAND, ours, theirs, strict=True):
        if _flat(one) != _flat(other):
            raise SystemExit(f"{name}: {one} by the rulebook, {other} by hand")


def _flat(verdict: object) -> list[str]:
    return [str(one) for one in verdict] if isinstance(verdict, list) else [str(verdict)]


def measure() -> None:
    """Measure one job against rules by hand, with and without unknowns, and with findings."""
    some, whole = same_rules(), Rulebook.built_in()
    swift, every = Swift(some), Swift(whole)
    job = Job.from_file(BARN)
    values = whole.facts(job).values
    for share in (0, 0.02, 0.2, 0.6):
        for seed in range(20):
            checked(swift, thinned(values, share, seed))
    by_hand = nested(values)
    title = f"{len(BY_HAND)} rules, one job: verdicts (the same by both, on 80 jobs)"
    tasks: dict[str, Callable[[], object]] = {
        "by hand": lambda: asked_by_hand(by_hand),
        "rulebook": lambda: swift.verdicts(values),
        "rulebook, from a Job": lambda: swift.verdicts(some.facts(job).values),
        "rulebook, with findings": lambda: assess(job, some),
    }
    told(title, medians(tasks), "by hand", {"rulebook": 0.45, "rulebook, with findings": 1.5})
    title = f"{len(whole.rules)} rules, one job: how much of it is not known"
    wanted = {"2 % not known": 1.2, "20 % not known": 2.5}
    told(title, medians(dict(_by_share(every, values))), "all known", wanted)


def _by_share(
    swift: Swift, values: Mapping[str, Any]
) -> Iterator[tuple[str, Callable[[], object]]]:
    for share in (0, 0.02, 0.2):
        some = thinned(values, share)
        name = f"{share:.0%} not known".replace("%", " %") if share else "all known"
        yield name, lambda some=some: swift.verdicts(some)
