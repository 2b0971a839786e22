"""`tundish ask`: an interview about one job, whose answers go into its file."""

from __future__ import annotations

import argparse
import os
import sys
from typing import TYPE_CHECKING

from tundish.command.exit_codes import CANNOT_READ
from tundish.command.output import put_out
from tundish.command.parser import (
    Subcommands,
    add_command,
    add_region,
    add_rules,
    add_stage,
)

if TYPE_CHECKING:
    from tundish.interview.interview import Interview
    from tundish.interview.order import Order


def add(subcommands: Subcommands) -> None:
    """Add the subcommand."""
    parser = add_command(
        subcommands,
        "ask",
        "Ask one by one what is not known of a job, and write each answer into its file.",
        "This changes the file of the job itself: each answer is written at once, whole or not "
        "at all, and all else in the file stays as it is. A line that stands there as a comment, "
        "as in what `tundish new` writes, gives up its place. What the maker's data sheet says "
        "goes into the unit sheet that the job names.\n\n"
        "What decides the most is asked first. To a question, nothing says that it is not known, "
        "'none' that there is none; 'back' asks the question before again and takes its answer "
        "out of the file; '?' tells what it decides; 'stop', 'q' or the end of the input is "
        "enough for today. Answers may come from a pipe, one a line.",
        """
        tundish ask job.toml
        tundish ask job.toml --in-order
        tundish ask job.toml --stage survey --region GB
        """,
    )
    parser.add_argument("job", metavar="JOB", help="the job file that answers are written into")
    add_stage(parser, "ask what is due at this stage")
    add_region(parser, "ask for this region")
    parser.add_argument(
        "--in-order", action="store_true", help="ask in the order one goes through a house"
    )
    add_rules(parser)
    parser.set_defaults(run=run)


def run(arguments: argparse.Namespace) -> int:
    """Hold the interview; return what the command ends with."""
    from tundish.interview.interview import Interview
    from tundish.rulebook.rulebook import Rulebook

    if arguments.job == "-":
        arguments.parser.error("Answers are written into the file of the job; name it, not '-'.")
    if not os.path.exists(arguments.job):
        return _not_there(arguments.job)
    rulebook = Rulebook.load(*arguments.rules)
    interview = Interview(
        arguments.job,
        rulebook,
        stage=arguments.stage,
        region=arguments.region,
        order=_walk_order() if arguments.in_order else None,
    )
    try:
        _hold(interview, arguments)
    except KeyboardInterrupt:
        from tundish.report.tell.interview import interrupted_text

        sys.stderr.write(f"\n{interrupted_text(interview.summary().answered, arguments.job)}")
        raise
    return 0


def _hold(interview: Interview, arguments: argparse.Namespace) -> None:
    """Ask and take answers until there is nothing more to ask, or nobody answers."""
    from tundish.command.answers import Answers
    from tundish.report.tell.command_text import typed
    from tundish.report.tell.interview import (
        completions,
        opening_lines,
        question_lines,
        reply_lines,
        summary_lines,
    )

    answers, file, rules = Answers(), arguments.job, arguments.rules
    put_out(opening_lines(interview.status, file))
    asked_anew = True
    while (question := interview.question) is not None:
        if asked_anew:
            more = len(interview.status.waiting) - 1
            put_out(question_lines(question, interview.number, max(more, 0)))
        text = answers.next(completions(question))
        reply = interview.stop() if text is None else interview.answer(text)
        put_out(reply_lines(reply, question, rules))
        asked_anew = reply.outcome not in ("misread", "more")
    check = typed("check", file, rules=rules, stage=arguments.stage, region=arguments.region)
    put_out(summary_lines(interview.summary(), check))


def _walk_order() -> Order:
    """Return the order in which one goes through a house."""
    from tundish.rulebook.forms.walk import Walk

    return Walk.built_in().order


def _not_there(path: str) -> int:
    from tundish.text.quoted import escaped

    name = escaped(path)
    sys.stderr.write(f"There is no file {name}. This writes one: tundish new {name}\n")
    return CANNOT_READ
