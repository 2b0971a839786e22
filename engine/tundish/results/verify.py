"""Verifying: whether a job and a rulebook still come to the findings that a file states."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from dataclasses import asdict
from typing import Any, cast

from tundish.findings.assess import assess
from tundish.findings.finding import Assessment
from tundish.groundwork.dataclass import dataclass
from tundish.job.job import Job
from tundish.results.as_data import HEAD, as_data
from tundish.results.stated_result import Stated
from tundish.rulebook.model.choices import Stage
from tundish.rulebook.rulebook import Rulebook

_APART = ("form", "program", "file", "findings", "job_digest", "rulebook_digest", "version")
"""What is compared by itself, or says only where a file lay."""

_NOT_THERE = "not there"
_MISSING = object()


@dataclass(frozen=True, slots=True)
class Difference:
    """Something that a result states and that comes out otherwise.

    Attributes:
        rule: The rule whose finding it is, or "" where it is of the assessment as a whole.
        item: The item the rule was asked of, or "".
        what: The name of what differs, such as "verdict" or "statement".
        then: What the result states; "not there" where it states nothing.
        now: What comes out now.
    """

    rule: str
    item: str
    what: str
    then: str
    now: str


@dataclass(frozen=True, slots=True)
class Verification:
    """A stated result held against what comes out now.

    Attributes:
        stated: What the result states.
        now: The assessment made anew.
        differences: What comes out otherwise, in the order of the result.
    """

    stated: Stated
    now: Assessment
    differences: tuple[Difference, ...]

    @property
    def same_job(self) -> bool:
        """Say whether the job holds the same facts."""
        return self.stated.text("job_digest") == self.now.job_digest

    @property
    def same_rulebook(self) -> bool:
        """Say whether the rulebook is the same, file by file."""
        return self.stated.text("rulebook_digest") == self.now.rulebook_digest

    @property
    def same_version(self) -> bool:
        """Say whether the same version of the program made the result."""
        return self.stated.text("version") == self.now.version

    @property
    def holds(self) -> bool:
        """Say whether job, rulebook, version and every finding are the same."""
        same = self.same_job and self.same_rulebook and self.same_version
        return same and not self.differences


def verify(stated: Stated, job: Job, rulebook: Rulebook | None = None) -> Verification:
    """Judge a job anew, at the stage and for the region that a result states, and compare.

    Args:
        stated: The result, as `read_result` gives it.
        job: The job that it is said to be of.
        rulebook: The rules; the built-in ones where none is given.

    Raises:
        Refused: If the job cannot be judged, or the stated region is no ISO 3166 code.

    Example:
        >>> stated = read_result("findings.json")  # doctest: +SKIP
        >>> verify(stated, Job.from_file("job.toml")).holds  # doctest: +SKIP
        True
    """
    rules = rulebook or Rulebook.built_in()
    stage = cast("Stage | None", stated.text("stage") or None)
    region = stated.text("region") or None
    now = assess(job, rules, stage=stage, region=region, changes=True)
    differences = _differences(stated.data, _as_read(as_data(now)), rules)
    return Verification(stated, now, tuple(differences))


def verification_as_data(verification: Verification) -> dict[str, Any]:
    """Return a verification as dictionaries, lists and texts, in a stable order."""
    return {
        **HEAD,
        "result": verification.stated.name,
        "file": verification.now.file,
        "holds": verification.holds,
        "same_job": verification.same_job,
        "same_rulebook": verification.same_rulebook,
        "same_version": verification.same_version,
        "differences": [asdict(difference) for difference in verification.differences],
    }


def _as_read(data: Mapping[str, Any]) -> Any:
    """Return data as written and read again, so that both sides have the same types."""
    return json.loads(json.dumps(data))


def _differences(
    then: Mapping[str, Any], now: Mapping[str, Any], rulebook: Rulebook
) -> Iterator[Difference]:
    """Give what differs; a rule that was renamed is held against itself.

    Args:
        then: What the result states.
        now: What comes out now.
        rulebook: Knows what rules are called today.
    """
    whole = {key: then.get(key) for key in then if key not in _APART}
    yield from _fields("", "", whole, {key: now[key] for key in now if key not in _APART})
    before, after = (_by_name(data["findings"], rulebook) for data in (then, now))
    for key in dict.fromkeys([*before, *after]):
        rule, item, _ = key
        was, comes = before.get(key), after.get(key)
        if was is None or comes is None:
            verdicts = [
                _NOT_THERE if finding is None else _shown(finding["verdict"])
                for finding in (was, comes)
            ]
            yield Difference(rule, item, "finding", *verdicts)
        else:
            yield from _fields(rule, item, _placeless(was), _placeless(comes))


def _by_name(
    findings: list[dict[str, Any]], rulebook: Rulebook
) -> dict[tuple[str, str, int], dict[str, Any]]:
    """Return findings by rule as it is called today, item, and number among those of one name."""
    by_name: dict[tuple[str, str, int], dict[str, Any]] = {}
    counts: dict[tuple[str, str], int] = {}
    for finding in findings:
        name = rulebook.name_today(finding["rule"], finding["item"])
        counts[name] = counts.get(name, 0) + 1
        by_name[*name, counts[name]] = finding
    return by_name


def _placeless(finding: Mapping[str, Any]) -> dict[str, Any]:
    """Return a finding without the files and lines of its facts, which say nothing of the job."""
    inputs = finding.get("inputs")
    if not isinstance(inputs, list):
        return dict(finding)
    bare = [
        {key: value for key, value in entry.items() if key != "place"}
        if isinstance(entry, dict)
        else entry
        for entry in inputs
    ]
    return {**finding, "inputs": bare}


def _fields(
    rule: str, item: str, then: Mapping[str, Any], now: Mapping[str, Any]
) -> Iterator[Difference]:
    for place, was, comes in _leaves("", then, now):
        yield Difference(rule, item, place, was, comes)


def _leaves(place: str, then: Any, now: Any) -> Iterator[tuple[str, str, str]]:
    """Give the smallest parts that differ; both sides are gone into as far as both are alike."""
    if isinstance(then, dict) and isinstance(now, dict):
        for key in dict.fromkeys([*then, *now]):
            sides = (then.get(key, _MISSING), now.get(key, _MISSING))
            yield from _leaves(f"{place}.{key}".removeprefix("."), *sides)
    elif isinstance(then, list) and isinstance(now, list) and len(then) == len(now):
        for at, sides in enumerate(zip(then, now, strict=True), start=1):
            yield from _leaves(f"{place}[{at}]", *sides)
    elif type(then) is not type(now) or then != now:
        yield place, _shown(then), _shown(now)


def _shown(value: Any) -> str:
    if value is _MISSING:
        return _NOT_THERE
    return value if isinstance(value, str) else json.dumps(value, sort_keys=True)
