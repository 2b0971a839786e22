"""`tundish facts`: the facts that a job can state, found by word, path or topic."""

from __future__ import annotations

import argparse
import sys
from typing import TYPE_CHECKING

from tundish.command.exit_codes import CANNOT_READ
from tundish.command.output import put_out, put_out_data
from tundish.command.parser import Subcommands, add_command, add_data_or_plain, add_rules

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tundish.job.model.schema import Asked
    from tundish.rulebook.rulebook import Rulebook
    from tundish.rulebook.search.readers import Readers


def add(subcommands: Subcommands) -> None:
    """Add the subcommand."""
    parser = add_command(
        subcommands,
        "facts",
        "Find the facts that a job can state, by a word, a path or a topic of rules.",
        "Each is told with how it is found out and written, and the rules that read it. Of "
        "several words all must fit. Without a word it tells the tables and lists of a job.",
        """
        tundish facts
        tundish facts snow
        tundish facts main fuse
        tundish facts water.run
        tundish facts defrost-water --all
        """,
    )
    parser.add_argument(
        "words", metavar="WORD", nargs="*", help="a word, a path such as site, or a topic"
    )
    parser.add_argument("--all", action="store_true", help="tell all that is found in full")
    add_rules(parser)
    add_data_or_plain(parser)
    parser.set_defaults(run=run)


def run(arguments: argparse.Namespace) -> int:
    """Tell the facts; return what the command ends with."""
    from tundish.report.tell.facts import nothing_found
    from tundish.rulebook.rulebook import Rulebook
    from tundish.rulebook.search.facts import every_fact, find_facts
    from tundish.rulebook.search.readers import Readers

    rulebook = Rulebook.load(*arguments.rules)
    words = [part for word in arguments.words for part in word.split()]
    if not words and not arguments.all:
        _overview(rulebook, arguments)
        return 0
    readers = Readers.of(rulebook)
    if not words:
        _tell(every_fact(rulebook), rulebook, readers, arguments)
        return 0
    result = find_facts(words, rulebook, readers)
    if not result.facts:
        sys.stderr.write(f"{nothing_found(result)}\n")
        return CANNOT_READ
    _tell(result.facts, rulebook, readers, arguments)
    return 0


def _overview(rulebook: Rulebook, arguments: argparse.Namespace) -> None:
    if arguments.json:
        from tundish.report.formats.facts_as_data import overview_as_data

        put_out_data(overview_as_data(rulebook))
        return
    from tundish.report.tell.facts import overview_lines

    put_out(overview_lines(rulebook), arguments.plain)


def _tell(
    facts: Sequence[Asked], rulebook: Rulebook, readers: Readers, arguments: argparse.Namespace
) -> None:
    if arguments.json:
        from tundish.report.formats.facts_as_data import facts_as_data

        put_out_data(facts_as_data(facts, rulebook, readers))
        return
    from tundish.report.tell.facts import MOST_TOLD, facts_lines

    most = None if arguments.all else MOST_TOLD
    put_out(facts_lines(facts, rulebook, readers, most, arguments.rules), arguments.plain)
