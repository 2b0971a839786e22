"""Facts in plain words: what kind each is, what bounds it, how it is written in a job file."""

from __future__ import annotations

import math

from tundish.job.hints import example, is_pipe_size, measure_of_pipe, words_in_a_row
from tundish.job.model.kinds import FactKind, NumberKind, QuantityKind, WholeKind
from tundish.job.model.paths import outer_paths
from tundish.job.model.schema import Asked, Fact, Items, Record
from tundish.job.schema import job_schema
from tundish.report.tell.phrases import counted


def kind_words(asked: Asked, kind: FactKind | None) -> str:
    """Say what kind of thing is asked for, in words.

    Args:
        asked: A fact, a group or a list.
        kind: The kind of the fact, where it has one.

    Example:
        >>> from tundish.job.schema import job_schema
        >>> from tundish.job.job import Job
        >>> snow = job_schema().find("site.snow_depth")
        >>> kind_words(snow, Job.kind_at(snow.path))
        'a length with its unit, such as 250 mm, not below 0 mm'
    """
    match asked:
        case Items():
            keys = counted(len(asked.item.fields), "key")
            return f"a list of tables, [] for none; each has {keys}"
        case Record() if is_pipe_size(asked):
            return f"a size of pipe, such as {asked.example}"
        case Record():
            absent = ', or "none" where it is known to be absent' if asked.can_be_absent else ""
            return f"a table of {counted(len(asked.fields), 'key')}{absent}"
        case Fact() if measure_of_pipe(asked):
            return "a measure of the pipe size that is written as one text"
        case Fact():
            return _fact_words(asked, kind)
        case _:
            return ""


def _fact_words(fact: Fact, kind: FactKind | None) -> str:
    such_as = f", such as {fact.example}" if fact.example else ""
    match fact.kind:
        case "quantity":
            noun = kind.noun if isinstance(kind, QuantityKind) else "a quantity"
            return f"{noun} with its unit{such_as}{bounds(kind)}"
        case "number" if isinstance(kind, WholeKind) and kind.options:
            return " or ".join(str(option) for option in kind.options)
        case "number" if isinstance(kind, WholeKind):
            return f"a whole number{such_as}"
        case "number":
            return f"a number without a unit{such_as}{bounds(kind)}"
        case "truth":
            return "yes or no, written true or false"
        case "date":
            return f"a day{such_as}"
        case "texts":
            words = f" out of {words_in_a_row(fact.choices)}" if fact.choices else ""
            return f"a list{words}{such_as}; [] for none"
        case _ if fact.choices:
            return f"one of {words_in_a_row(fact.choices)}"
        case _:
            return f"a text{such_as}"


def bounds(kind: FactKind | None) -> str:
    """Say what bounds a kind: `", not below 0 mm"`; an empty text where nothing does."""
    least, most = "", ""
    if isinstance(kind, QuantityKind):
        least, most = kind.least, kind.most
    elif isinstance(kind, NumberKind):
        least = f"{kind.least:g}"
        most = "" if math.isinf(kind.most) else f"{kind.most:g}"
    parts = [f"not below {least}"] * bool(least) + [f"not above {most}"] * bool(most)
    return f", {' and '.join(parts)}" if parts else ""


def as_written(asked: Asked) -> str:
    """Return how a job file states it, under its whole path, with an example.

    Example:
        >>> from tundish.job.schema import job_schema
        >>> print(as_written(job_schema().find("site.snow_depth")))
        site.snow_depth = "250 mm"
    """
    whole = asked
    if measure_of_pipe(asked) and isinstance(asked, Fact):
        whole = job_schema().find(asked.path.rpartition(".")[0]) or asked
    if isinstance(whole, Items):
        return "\n".join((*_place(f"{whole.path}.x")[0], _first(whole.item, "")))
    heads, key = _place(whole.path)
    if isinstance(whole, Record) and not is_pipe_size(whole):
        lines = [_first(whole, f"{key}.")]
        lines += [f'# or, where there is none: {key} = "none"'] * whole.can_be_absent
        return "\n".join((*heads, *lines))
    assert isinstance(whole, Fact | Record)
    return "\n".join((*heads, f"{key} = {example(whole)}"))


def _place(path: str) -> tuple[list[str], str]:
    """Return the headers of the lists around a key, and the key from there on."""
    lists = [outer for outer in outer_paths(path) if isinstance(job_schema().find(outer), Items)]
    heads = [f"[[{outer}]]" for outer in lists]
    return heads, path.removeprefix(f"{lists[-1]}.") if lists else path


def _first(record: Record, prefix: str) -> str:
    """Return the line of the first fact of a table."""
    facts = [entry for entry in record.fields.values() if isinstance(entry, Fact)]
    if not facts:
        return ""
    return f"{prefix}{facts[0].path.rpartition('.')[2]} = {example(facts[0])}"
