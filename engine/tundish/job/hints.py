"""How a fact is written in a job file: where, and in what form."""

from __future__ import annotations

from collections.abc import Sequence

from tundish.job.model.schema import Asked, Entry, Fact, Items, Record
from tundish.job.schema import job_schema
from tundish.text.inline_toml import toml_string

_MEASURES = {"outside_diameter", "wall", "size"}


def is_pipe_size(entry: object) -> bool:
    """Say whether an entry is the size of a pipe, whose measures a file has in one text."""
    return isinstance(entry, Record) and entry.fields.keys() >= _MEASURES


def written_path(path: str) -> str:
    """Return the path of a fact as a file has it: the measures of a pipe stand in one text.

    What else is written under another key, such as the open sky above a unit, is there too.

    Args:
        path: A dotted path, with list positions or without.

    Example:
        >>> written_path("water.run[2].pipe.wall")
        'water.run[2].pipe'
    """
    outer, _, name = path.rpartition(".")
    entry = job_schema().find(outer) if outer else None
    if is_pipe_size(entry):
        return outer
    record = entry.item if isinstance(entry, Items) else entry
    if isinstance(record, Record) and name in record.written_as:
        return f"{outer}.{record.written_as[name]}"
    return path


def measure_of_pipe(asked: Asked) -> Fact | None:
    """Return the measure that stands for a pipe size or is one of its measures; else None.

    Args:
        asked: A whole pipe size, of which it is the outside diameter, or one of its measures.
    """
    if isinstance(asked, Record):
        outside = asked.fields["outside_diameter"] if is_pipe_size(asked) else None
        return outside if isinstance(outside, Fact) else None
    outer = job_schema().find(asked.path.rpartition(".")[0])
    return asked if isinstance(asked, Fact) and is_pipe_size(outer) else None


def example(entry: Entry) -> str:
    """Return the example of a fact as TOML writes it.

    Args:
        entry: The fact; of a list an item is shown with all its facts, of a group all of them.

    Example:
        >>> from tundish.job.schema import job_schema
        >>> example(job_schema().find("unit.made"))
        '2026-03-12'
    """
    match entry:
        case Fact(kind="truth" | "number" | "date" | "texts"):
            return entry.example
        case Fact():
            return toml_string(entry.example or "…")
        case Items(item=item):
            return f"[{example(item)}]"
        case Record() if entry.example:
            return toml_string(entry.example)
        case Record(fields=fields):
            inner = ", ".join(f"{name} = {example(member)}" for name, member in fields.items())
            return f"{{ {inner} }}"


def words_in_a_row(words: Sequence[str]) -> str:
    """Return words to choose from in one row, by semicolons where one of them has a comma in it.

    Example:
        >>> words_in_a_row(["in series, flow", "in parallel"])
        'in series, flow; in parallel'
    """
    return ("; " if any(", " in word for word in words) else ", ").join(words)


def hint(part: Entry | None) -> str:
    """Say how an answer is written, in one row, as it stands behind the mark of a comment.

    Args:
        part: What is asked for; None where it is not known.
    """
    return " ".join(_hint(part).split())


def _hint(part: Entry | None) -> str:
    match part:
        case Fact(kind="truth"):
            return "true or false, without quotes"
        case Fact(kind="date"):
            return f"such as {part.example}, without quotes"
        case Fact(kind="number"):
            return f"a number such as {part.example}, without quotes"
        case Fact(kind="texts") if not part.choices:
            return f"a list such as {part.example}; [] for none; without quotes around it"
        case Fact(kind="texts"):
            words = ", ".join(f'"{word}"' for word in part.choices)
            return f"a list out of [{words}]; [] for none; without quotes around it"
        case Fact() if part.choices:
            return f"one of {words_in_a_row(part.choices)}"
        case Fact():
            return f"such as {part.example}" if part.example else "text"
        case Record() if part.can_be_absent:
            keys = ", ".join(part.fields)
            return f'"none", or a table {{ … }} in place of the quotes, with any of {keys}'
        case Items():
            keys = ", ".join(part.item.fields)
            return f"a list [{{ … }}] in place of the quotes, [] for none, with any of {keys}"
        case Record() if part.example:
            return f'a size such as "{part.example}"'
        case Record():
            keys = ", ".join(part.fields)
            return f"a table {{ … }} in place of the quotes, with any of {keys}"
        case _:
            return "text"
