"""Jobs on which verdicts are compared: the samples whole, thinned, and with facts changed."""

from __future__ import annotations

import random
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

from by_hand import BY_HAND, Verdict
from by_hand import Job as ByHand

from tundish import Job, Rulebook
from tundish.job.model.schema import Record
from tundish.job.schema import job_schema
from tundish.rulebook.evaluate.evaluator import Evaluator

SAMPLES = Path(__file__).parents[2] / "sample_jobs"
SHARES = (0.02, 0.2, 0.6)

Facts = dict[str, Any]
Seen = dict[str, set[str]]


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


def thinned(values: Mapping[str, Any], share: float, seed: int = 7, items: bool = False) -> Facts:
    """Return the facts with a share of them not known.

    Args:
        values: The facts by path.
        share: The share that is left out.
        seed: Of the choice.
        items: Whether facts of items in lists are left out as well.
    """
    return _thinned(values, share, random.Random(seed), "", items)


def _thinned(
    values: Mapping[str, Any], share: float, chance: random.Random, under: str, items: bool
) -> Facts:
    left: Facts = {}
    for path, value in values.items():
        group = isinstance(job_schema().find(under + path), Record)
        if not group and chance.random() < share:
            continue
        if items and isinstance(value, list):
            value = [_thinned(one, share, chance, f"{under}{path}.", items) for one in value]
        left[path] = value
    return left


def facts_of(job: Job) -> Facts:
    """Return a job's facts with all lists complete: the rules by hand know no others."""

    def complete(values: Mapping[str, Any]) -> Facts:
        return {
            path: list(map(complete, value)) if isinstance(value, list) else value
            for path, value in values.items()
        }

    return complete(Rulebook.built_in().facts(job).values)


def jobs(many: bool = True) -> Iterator[Facts]:
    """Yield the samples and the cases of each rule, whole, thinned, and one merged over the other.

    Args:
        many: Whether all are wanted, and not a few of each sort.
    """
    rulebook = Rulebook.built_in()
    samples = [facts_of(Job.from_file(path)) for path in sorted(SAMPLES.glob("*.toml"))]
    for sample in samples:
        yield sample
        for share in SHARES:
            for seed in range(20 if many else 2):
                yield thinned(sample, share, seed, items=seed % 2 == 1)
    for name in BY_HAND:
        for case in rulebook.rules[name].cases:
            facts = facts_of(Job.from_data(dict(case.given)))
            yield facts
            if not many:
                continue
            for seed in range(2):
                yield thinned(facts, 0.3, seed, items=True)
            for at, sample in enumerate(samples):
                yield thinned(_laid_over(sample, facts), 0.1 * (at % 2), at, items=True)


def _laid_over(sample: Facts, facts: Facts) -> Facts:
    """Return a job with the facts of a case on top, and nothing inside what the case rules out."""
    absent = tuple(f"{path}." for path, value in facts.items() if value is False)
    kept = {path: value for path, value in sample.items() if not path.startswith(absent)}
    return {**kept, **facts}


def asked_by_hand(job: ByHand) -> list[Verdict]:
    """Return the verdicts of the rules by hand."""
    return [rule(job) for rule in BY_HAND.values()]


def flat(verdict: object) -> list[str]:
    """Return a verdict, or those of the items of a list, as texts."""
    if isinstance(verdict, list | tuple):
        return [str(one) for one in verdict] or ["not applicable"]
    return [str(verdict)]


def compared(evaluator: Evaluator, given: Iterator[Facts]) -> tuple[Seen, int, list[str]]:
    """Compare verdicts by the rulebook and by hand on many jobs.

    Returns:
        What verdicts were seen of each rule, the number of jobs, and where the two differ.
    """
    seen: Seen = {name: set() for name in BY_HAND}
    differences: list[str] = []
    count = 0
    for values in given:
        count += 1
        theirs = asked_by_hand(nested(values))
        for name, one, other in zip(BY_HAND, evaluator.verdicts(values), theirs, strict=True):
            if flat(one) != flat(other):
                differences.append(f"{name}: {flat(one)} by the rulebook, {flat(other)} by hand")
            seen[name].update(flat(one))
    return seen, count, differences
