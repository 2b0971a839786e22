"""How a fact is written in a job file: where, and in what form."""

from __future__ import annotations

from tundish.job.paths import without_positions
from tundish.job.schema import Fact, Items, Record, job_schema


def path_in_file(path: str) -> str:
    """Return the path as a file has it: the measures of a pipe stand in one text.

    Args:
        path: The path of a fact, with positions or without.

    Example:
        >>> path_in_file("water.run[1].pipe.wall")
        'water.run[1].pipe'
    """
    outer, _, _ = path.rpartition(".")
    part = job_schema().find(outer) if outer else None
    is_size = isinstance(part, Record) and set(part.fields) >= {"outside_diameter", "wall", "size"}
    return outer if is_size else path


def hint(path: str) -> str:
    """Say how an answer is written."""
    part = job_schema().find(without_positions(path))
    match part:
        case Fact(kind="truth"):
            return "true or false, without quotes"
        case Fact(kind="date"):
            return f"such as {part.example}, without quotes"
        case Fact(kind="number"):
            return f"a number such as {part.example}, without quotes"
        case Fact(kind="texts"):
            words = ", ".join(f'"{word}"' for word in part.choices) or '"…"'
            return f"a list out of [{words}]; [] for none; without quotes around it"
        case Fact() if part.choices:
            return f"one of {', '.join(part.choices)}"
        case Fact():
            return f"such as {part.example}" if part.example else "text"
        case Record() if part.can_be_absent:
            keys = ", ".join(part.fields)
            return f'"none", or a table {{ … }} in place of the quotes, with any of {keys}'
        case Items():
            keys = ", ".join(part.item.fields)
            return f"a list [{{ … }}] in place of the quotes, [] for none, with any of {keys}"
        case _:
            return 'a size such as "copper 28 x 0.9"'
