"""The parser of the command line: own sentences for what is wrong, help in colour."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Callable
from typing import Any, NoReturn, TypeAlias

from tundish.command.option_values import STAGES
from tundish.report.page.piped import may_have_colour, terminal_width
from tundish.text.nearest import did_you_mean
from tundish.text.quoted import quoted

_WIDEST = 100  # columns past which help is hard to read

Subcommands: TypeAlias = "argparse._SubParsersAction[Parser]"


class Parser(argparse.ArgumentParser):
    """An argument parser that says what is wrong in a sentence."""

    def __init__(self, **options: Any) -> None:
        super().__init__(formatter_class=_formatter, allow_abbrev=False, **options)

    def error(self, message: str) -> NoReturn:
        """Say what is wrong and where to read more, and end with 2."""
        sentence = message[:1].upper() + message[1:]
        end = "" if sentence.endswith((".", "?")) else "."
        sys.stderr.write(f"{sentence}{end}\nSee: {self.prog} --help\n")
        raise SystemExit(2)

    def format_help(self) -> str:
        """Return the help, with the paragraphs of its description broken to the terminal."""
        self.description = paragraphs(self.description or "")
        return super().format_help()

    def refuse(self, argument: str) -> NoReturn:
        """Say that an argument has no place here, and which option is nearest."""
        options = [name for action in self._actions for name in action.option_strings]
        hint = did_you_mean(argument.partition("=")[0], options)
        self.error(f"{quoted(argument)} has no place in '{self.prog}'.{hint}")

    def _print_message(self, message: str, file: Any = None) -> None:
        """Write help, and let it be known where that fails: argparse passes over it."""
        (file or sys.stderr).write(message)

    def _check_value(self, action: argparse.Action, value: Any) -> None:
        """Refuse a command that is not there, and name the nearest."""
        if action.choices is not None and value not in action.choices:
            names = [str(choice) for choice in action.choices]
            sentence = f"{quoted(value)} is none of {', '.join(names)}."
            raise argparse.ArgumentError(action, sentence + did_you_mean(str(value), names))


def one_of(words: tuple[str, ...]) -> Callable[[str], str]:
    """Return a reader of an option that takes one of some words, and knows the nearest."""

    def read(text: str) -> str:
        word = text.strip().lower()
        if word in words:
            return word
        raise argparse.ArgumentTypeError(
            f"{quoted(text)} is none of {', '.join(words)}.{did_you_mean(word, words)}"
        )

    return read


def region(text: str) -> str:
    """Read a region code, in capitals or not.

    Raises:
        argparse.ArgumentTypeError: If it is the code of no country.
    """
    # Loaded here, as only a region that is given pays for it.
    from tundish.job.model.regions import REGIONS, read_region

    if text.upper() in REGIONS:
        return text.upper()
    try:
        return read_region(text)
    except ValueError as error:
        raise argparse.ArgumentTypeError(str(error)) from None


def add_command(
    subcommands: Subcommands, name: str, about: str, more: str, examples: str
) -> Parser:
    """Add a subcommand.

    Args:
        subcommands: What it is added to.
        name: Its name.
        about: What it does, in a sentence.
        more: What else a reader should know before using it.
        examples: Command lines, one a row.
    """
    rows = "".join(f"\n  {row.strip()}" for row in examples.strip().splitlines())
    parser = subcommands.add_parser(
        name,
        help=about,
        description=f"{about}\n\n{more}".rstrip(),
        epilog=f"Examples:{rows}",
    )
    parser.set_defaults(parser=parser)
    return parser


def paragraphs(text: str) -> str:
    """Return text whose paragraphs are broken to the width of the terminal.

    The formatter leaves line breaks alone, so that examples keep theirs.
    """
    # Loaded here, as only help pays for it.
    from textwrap import fill

    width = max(20, min(terminal_width(), _WIDEST) - 2)
    return "\n\n".join(fill(paragraph, width) for paragraph in text.split("\n\n"))


def add_rules(parser: argparse._ActionsContainer) -> None:
    """Add the option for rules of one's own."""
    parser.add_argument(
        "--rules",
        metavar="FOLDER",
        action="append",
        default=[],
        help="a folder of further rules, put on top of the built-in ones; may be given again",
    )


def add_stage(parser: argparse._ActionsContainer, does: str) -> None:
    """Add the option for a stage.

    Args:
        parser: What it is added to.
        does: What a stage given here does, in the words of its help.
    """
    stages = ", ".join(STAGES)
    parser.add_argument("--stage", type=one_of(STAGES), metavar="STAGE", help=f"{does}: {stages}")


def add_region(parser: argparse._ActionsContainer, does: str) -> None:
    """Add the option for a region.

    Args:
        parser: What it is added to.
        does: What a region given here does, in the words of its help.
    """
    code = "by its two-letter ISO 3166-1 code"
    parser.add_argument("--region", type=region, metavar="CC", help=f"{does}, {code}")


def add_plain(parser: argparse._ActionsContainer) -> None:
    """Add the option for plain text."""
    parser.add_argument(
        "--plain",
        action="store_true",
        help="plain text of 72 columns without colour, to be sent on or printed",
    )


def add_data_or_plain(parser: argparse.ArgumentParser) -> argparse._ActionsContainer:
    """Add the options for data and for plain text, of which one may be given.

    Returns:
        Their group, for another form that excludes them.
    """
    form = parser.add_mutually_exclusive_group()
    form.add_argument("--json", action="store_true", help="data for other programs, as JSON")
    add_plain(form)
    return form


def _formatter(prog: str) -> argparse.HelpFormatter:
    width = min(terminal_width(), _WIDEST) - 2
    if not may_have_colour(sys.stdout):
        return argparse.RawDescriptionHelpFormatter(prog, max_help_position=26, width=width)
    # Loaded here, as only help on a terminal pays for it.
    from rich_argparse import RawDescriptionRichHelpFormatter

    class Formatter(RawDescriptionRichHelpFormatter):
        """Takes brackets in help as brackets, and gives groups the names they have."""

        text_markup = False
        help_markup = False
        group_name_formatter = str

    return Formatter(prog, max_help_position=26, width=width)
