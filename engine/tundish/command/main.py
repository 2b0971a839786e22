"""The command: what was asked, done, with a sentence for whatever goes wrong."""

from __future__ import annotations

import contextlib
import os
import sys
from collections.abc import Sequence
from importlib import import_module

from tundish.command.exit_codes import CANNOT_READ, INTERRUPTED, READER_GONE
from tundish.command.output import complain
from tundish.command.parser import Parser
from tundish.text.bundled_folders import installed_version
from tundish.text.problem import Refused

_SUBCOMMANDS = (
    "new",
    "check",
    "survey",
    "ask",
    "mend",
    "compare",
    "verify",
    "order",
    "sheet",
    "join",
    "facts",
    "explain",
    "rules",
    "rule",
    "prove",
    "impact",
    "portfolio",
    "schema",
    "samples",
    "completion",
)
"""Their names, which are those of their modules too."""

_NEEDS_ALL = "completion"
"""The one that has something to say of all others."""


def main(argv: Sequence[str] | None = None) -> int:
    """Run the command.

    Args:
        argv: Its arguments; those of the process if left out.

    Returns:
        0 if all is well, 1 if something is breached or not proved, 2 if something could not be
        read or done.
    """
    _never_fail_on_a_character()
    try:
        code = _run(argv)
        sys.stdout.flush()
        return code
    except Refused as refused:
        complain(refused.problems)
        return CANNOT_READ
    except KeyboardInterrupt:
        sys.stderr.write("\nStopped.\n")
        return INTERRUPTED
    except BrokenPipeError:
        _let_go_of_output()
        return READER_GONE
    except OSError as error:
        _let_go_of_output()
        return _failed(error)
    except Exception as error:
        return _unexpected(error)


def _run(argv: Sequence[str] | None) -> int:
    words = sys.argv[1:] if argv is None else argv
    parser = _parser(words[0] if words else "")
    try:
        arguments, unknown = parser.parse_known_args(words)
        if unknown:
            (arguments.parser or parser).refuse(unknown[0])
    except SystemExit as end:  # help and version end so, as do wrong options
        return end.code if isinstance(end.code, int) else 0
    if arguments.version:
        sys.stdout.write(f"tundish {installed_version() or 'of a work tree'}\n")
        return 0
    if arguments.run is None:
        parser.print_help(sys.stderr)
        return CANNOT_READ
    try:
        code: int = arguments.run(arguments)
    except SystemExit as end:  # arguments that do not go together are told as wrong options are
        return end.code if isinstance(end.code, int) else 0
    return code


def _parser(first: str) -> Parser:
    """Return the parser; where the first word is a subcommand, the others are not even loaded."""
    parser = Parser(
        prog="tundish",
        description="Checks the description of an air-to-water heat pump installation and says "
        "what is wrong, how serious, why, by how much, what mends it, and what is still unknown.",
        epilog="Examples:\n  tundish samples\n  tundish check job.toml\n"
        "  tundish explain defrost-water/free-volume\n\n"
        "An aid to a competent person: codes, product data and licensed trades prevail.",
    )
    parser.set_defaults(run=None, parser=None)
    parser.add_argument("--version", action="store_true", help="say which version this is")
    # The name is given, as finding it out would load the formatter of the help.
    subcommands = parser.add_subparsers(
        title="what to do", metavar="COMMAND", prog="tundish", parser_class=Parser
    )
    alone = first in _SUBCOMMANDS and first != _NEEDS_ALL
    for name in (first,) if alone else _SUBCOMMANDS:
        import_module(f"tundish.command.{name}").add(subcommands)
    return parser


def _never_fail_on_a_character() -> None:
    """Write what the terminal's encoding does not have as an escape."""
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="backslashreplace")


def _let_go_of_output() -> None:
    """Send the rest nowhere, or Python would complain on its way out."""
    # Output that is no file has nothing to complain about.
    with contextlib.suppress(OSError, ValueError):
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())


def _failed(error: OSError) -> int:
    """Say what the system declined to do, such as to write on a disk that is full."""
    from tundish.text.escape import escape

    target = error.filename if isinstance(error.filename, str) else "What is put out"
    sys.stderr.write(f"{escape(target)} cannot be written: {error.strerror or error}.\n")
    return CANNOT_READ


def _unexpected(error: Exception) -> int:
    from tundish.text.escape import escape

    if os.environ.get("TUNDISH_TRACE") == "1":
        import traceback

        traceback.print_exc()
    kind, text = type(error).__name__, escape(str(error))
    sys.stderr.write(
        f"Something went wrong inside tundish ({kind}: {text}). This is no fault of your job; "
        "please report it with what you ran. TUNDISH_TRACE=1 shows where it happened.\n"
    )
    return CANNOT_READ
