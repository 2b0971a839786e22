"""Samples that are copied as they are listed, changed and compared; house types to begin from."""

import re
from collections.abc import Iterator
from pathlib import Path

from journeys.walking import Printed, Walk


def copied(walk: Walk, printed: Printed, name: str) -> str:
    """Copy a listed job with the sheet below it, so that they lie as they do there.

    Returns:
        The name of the copy.
    """
    rows = [row.strip() for row in printed.out.splitlines()]
    at = next(at for at, row in enumerate(rows) if row.endswith(f"/{name}"))
    top = next(Path(row).parent for row in rows if row.endswith(".toml"))
    for row in filter(None, rows[at : at + 2]):
        walk.save(str(Path(row).relative_to(top)), Path(row).read_text(encoding="utf-8"))
    return str(Path(rows[at]).relative_to(top))


def facts_that_differ(printed: Printed) -> Iterator[str]:
    """Give the facts of which a comparison says that they differ."""
    section = printed.out.split("FACTS THAT DIFFER")[1].split("\n\n")[0]
    yield from re.findall(r"\(([a-z_.]+)\)", section)


def test_a_sample_is_copied_changed_and_compared(walk: Walk) -> None:
    sample = copied(walk, walk("tundish samples"), "shore-bungalow.toml")
    before = walk.check(f"tundish check {sample}")
    assert before.code == 1
    walk.save("changed.toml", walk.read(sample))
    rule = before.entries("rule")[0]
    fact = re.search(r"^distance_to_coast *= *(\"\S+ k?m\")", walk.read(sample), re.MULTILINE)
    assert fact is not None and "/" in rule
    walk.change("changed.toml", fact[0], 'distance_to_coast = "40 km"')
    walk.check("tundish check changed.toml")
    compared = walk(f"tundish compare {sample} changed.toml")
    assert list(facts_that_differ(compared)) == ["site.distance_to_coast"]


def test_a_job_is_begun_from_a_copied_house_type(walk: Walk) -> None:
    printed = walk("tundish samples")
    house_type = copied(walk, printed, "thirties-semi.toml")
    new = walk(f"tundish new semi.toml --based-on {house_type} --stage survey --region GB")
    walk.check(new.next)
    survey = walk(f"tundish survey {new.written[0]} --form visit.toml")
    walk.check(survey.next)


def test_each_sample_can_be_copied_as_it_is_listed(quick_walk: Walk) -> None:
    printed = quick_walk("tundish samples")
    names = re.findall(r"/([a-z-]+\.toml)\n", printed.out)
    jobs = [name for name in dict.fromkeys(names) if not name.startswith("invented-")]
    assert len(jobs) == 8
    for name in jobs:
        quick_walk.check(f"tundish check {copied(quick_walk, printed, name)}")
