"""The facts of a case, as those of a real job."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from tundish.job.facts import Facts
from tundish.job.job import Job
from tundish.language.check.scope import Meaning
from tundish.rulebook.model.definition import Case
from tundish.rulebook.rulebook import Rulebook
from tundish.text.problem import Problem, Refused


def facts_of(case: Case, rulebook: Rulebook) -> Facts | Refused:
    """Return a case's facts, or why they are no possible job."""
    try:
        return rulebook.facts(Job.from_data(dict(case.given)))
    except Refused as refused:
        lists = list(_lists_as_tables(case.given, rulebook.scope.facts))
        return Refused(lists) if lists else refused


def rulebook_for(facts: Facts, rulebook: Rulebook) -> Rulebook:
    """Return the rules by which a case is judged: those of its country, where it names one.

    One that names none shows what is international, whichever countries have rules of their own.
    """
    return rulebook if "job.region" in facts.values else rulebook.as_written


def steps_in(given: Mapping[str, Any], path: str) -> tuple[str, ...]:
    """Return the keys under which a case states a fact.

    Args:
        given: What the case states: by whole paths, by tables inside one another, or both.
        path: The fact, with dots.

    Example:
        >>> steps_in({"site.snow_depth": "1 m"}, "site.snow_depth")
        ('site.snow_depth',)
    """
    names = path.split(".")
    for length in range(len(names), 0, -1):
        key = ".".join(names[:length])
        if key in given:
            inner, rest = given[key], ".".join(names[length:])
            return (key, *steps_in(inner, rest)) if isinstance(inner, dict) and rest else (key,)
    return ()


def _lists_as_tables(
    given: Mapping[str, Any], facts: Mapping[str, Meaning], above: str = ""
) -> Iterator[Problem]:
    """Give the lists that are stated as one table, as dots without quotes make one."""
    for key, value in given.items():
        path = above + key
        if not isinstance(value, dict):
            continue
        meaning = facts.get(path)
        if meaning is None or meaning.kind.name != "items":
            yield from _lists_as_tables(value, facts, path + ".")
            continue
        inner = next(iter(value), "")
        sentence = f'{path} is a list: write "{path}" = [{{ {inner} = ... }}], with its quotes.'
        yield Problem("", None, None, sentence, path)
