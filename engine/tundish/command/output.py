"""Output of the command: lines on standard output, problems and new files on standard error."""

from __future__ import annotations

import sys
from collections.abc import Iterable
from pathlib import Path
from typing import TYPE_CHECKING, Any

from tundish.command.exit_codes import CANNOT_READ
from tundish.text.quoted import escaped

if TYPE_CHECKING:
    from tundish.report.page.line import Line
    from tundish.text.problem import Problem


def put_out(lines: Iterable[Line], plain: bool = False) -> None:
    """Write lines to standard output, as plain text or as the console shows them."""
    if plain:
        from tundish.report.page.plain_text import as_plain

        sys.stdout.write(as_plain(lines))
        return
    from tundish.report.page.console import print_lines

    print_lines(lines)


def put_out_data(data: Any) -> None:
    """Write data to standard output as JSON."""
    from tundish.results.as_data import as_json

    sys.stdout.write(as_json(data))


def complain(problems: Iterable[Problem]) -> None:
    """Write problems to standard error, below anything that was put out before."""
    from tundish.report.page.piped import terminal_width
    from tundish.report.page.problem_text import problems_text

    sys.stdout.flush()  # or a page and its complaints would come out of order on one terminal
    sys.stderr.write(problems_text(problems, min(terminal_width(), 100)))


def put_in_file(path: Path, text: str, then: str = "") -> int:
    """Write a new file and say so on standard error.

    Args:
        path: Where.
        text: What.
        then: What to do next, said after its name.

    Returns:
        The exit code: 0, or that of a file that cannot be written.
    """
    from tundish.text.new_file import AlreadyThereError, write_new

    try:
        write_new(path, text)
    except (AlreadyThereError, OSError, ValueError) as error:
        return say_not_written(path, error)
    say_written(path, then)
    return 0


def say_written(path: Path, then: str = "") -> None:
    """Say that a file was written, and what to do next."""
    sys.stderr.write(f"Written: {escaped(str(path))}.{escaped(then)}\n")


def say_not_written(path: Path, error: Exception) -> int:
    """Say why a file cannot be written; return the exit code for that."""
    from tundish.text.new_file import AlreadyThereError

    name = escaped(str(path))
    if isinstance(error, AlreadyThereError):
        sys.stderr.write(f"{name} is there already and is not written over; name another file.\n")
    else:
        reason = getattr(error, "strerror", None) or error
        sys.stderr.write(f"{name} cannot be written: {reason}.\n")
    return CANNOT_READ


def put_schema_beside(name: str, folder: Path) -> None:
    """Write a schema beside the files that name it, if none is there yet.

    A schema only helps an editor, so nothing fails where it cannot be written.

    Args:
        name: "job", "unit" or "rule".
        folder: The folder in whose `schemas` it is to lie.
    """
    from tundish.report.schemas.schema_files import schema_named, schema_path
    from tundish.results.as_data import as_json
    from tundish.text.new_file import AlreadyThereError, write_new

    path = schema_path(name, folder)
    try:
        path.parent.mkdir(exist_ok=True)
        write_new(path, as_json(schema_named(name)))
    except AlreadyThereError:
        return
    except OSError as error:
        say_not_written(path, error)
    else:
        sys.stderr.write(f"Written: {escaped(str(path))}, by which an editor knows the keys.\n")
