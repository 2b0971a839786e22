"""`tundish check`: jobs judged by the rulebook."""

from __future__ import annotations

import argparse
import sys
from typing import TYPE_CHECKING

from tundish.command.page import CANNOT_READ, complain, put_out
from tundish.command.parser import Subcommands, add_command, add_plain, add_rules, one_of, region
from tundish.command.words import FAIL_ON, SECTIONS, SEVERITIES, SHOW, STAGES

if TYPE_CHECKING:
    from tundish.assessment.finding import Assessment
    from tundish.command.job_files import JobFile
    from tundish.reading.problem import Problem
    from tundish.report.assessment_lines import Show
    from tundish.rulebook.rulebook import Rulebook


def add(subcommands: Subcommands) -> None:
    """Add the subcommand."""
    parser = add_command(
        subcommands,
        "check",
        "Judge jobs and say what is wrong, why, what mends it and what is still to be found out.",
        "A job is a TOML file. Of a folder every job in it is judged, unit sheets are passed over; "
        "'-' reads a job from standard input. What is left out of a job is not known yet and is "
        "asked for when its stage is due.\n\n"
        "Ends with 0 if nothing as serious as --fail-on is breached, 1 if something is, and 2 if "
        "something could not be read.",
        """
        tundish check job.toml
        tundish check jobs/ --show breached --fail-on danger
        tundish check job.toml --stage commissioning --show all --workings --plain > report.txt
        """,
    )
    what = parser.add_argument_group("what to judge")
    what.add_argument("jobs", metavar="JOB", nargs="+", help="a file, a folder, or '-'")
    judge = parser.add_argument_group("how to judge")
    judge.add_argument(
        "--stage",
        type=one_of(STAGES),
        metavar="STAGE",
        help=f"judge as at this stage, whatever the job says: {', '.join(STAGES)}",
    )
    judge.add_argument(
        "--region",
        type=region,
        metavar="CC",
        help="judge for this region, by its two-letter ISO 3166-1 code",
    )
    add_rules(judge)
    say = parser.add_argument_group("what to say")
    say.add_argument(
        "--show",
        type=one_of(SHOW),
        default=None,
        metavar="WHAT",
        help="breached: only what is wrong; open: only what is to be found out, now or later; all: "
        "also what is in order. If left out: what is wrong and what is to be "
        "found out now",
    )
    say.add_argument(
        "--workings",
        action="store_true",
        help="tell every figure, formula and source behind what is said",
    )
    say.add_argument(
        "--section",
        type=one_of(SECTIONS),
        action="append",
        default=[],
        metavar="NAME",
        help="tell a further section: siting, a plan of the place with spaces, zone, openings and "
        "sound levels; margins, the ten requirements nearest to their limits; may be given again",
    )
    say.add_argument(
        "--fail-on",
        type=one_of(FAIL_ON),
        default="fault",
        metavar="SEVERITY",
        help=f"the least serious breach to end with 1 for: {', '.join(FAIL_ON)}; fault if left out",
    )
    form = say.add_mutually_exclusive_group()
    form.add_argument("--json", action="store_true", help="data for other programs, as JSON")
    add_plain(form)
    parser.set_defaults(run=run)


def run(arguments: argparse.Namespace) -> int:
    """Judge the jobs; return what the command ends with."""
    from tundish.command.job_files import job_files
    from tundish.rulebook.rulebook import Rulebook

    rulebook = Rulebook.load(*arguments.rules)
    files, problems = job_files(arguments.jobs)
    told = _Told(arguments, several=len(files) > 1)
    complain(problems)
    told.problems.extend(problems)
    for file in files:
        _judge(file, rulebook, told)
    told.end()
    if told.problems:
        return CANNOT_READ
    return int(any(_fails(assessment, arguments.fail_on) for assessment in told.assessments))


class _Told:
    """Tells assessments as they come, and what there is to say after the last."""

    def __init__(self, arguments: argparse.Namespace, several: bool) -> None:
        self.arguments = arguments
        self.assessments: list[Assessment] = []
        self.problems: list[Problem] = []
        self._refused: list[str] = []
        self._several = several

    def assessment(self, assessment: Assessment) -> None:
        from tundish.report.assessment_lines import assessment_lines
        from tundish.report.line import GAP

        first = not self.assessments
        self.assessments.append(assessment)
        if self.arguments.json:
            return
        gap = [] if first else [GAP, GAP]
        show: Show = self.arguments.show or "usual"
        # Of several jobs the cautions are told once, after the last.
        lines = assessment_lines(
            assessment,
            show,
            cautions=not self._several,
            workings=self.arguments.workings,
            sections=self.arguments.section,
        )
        put_out([*gap, *lines], self.arguments.plain)

    def refused(self, name: str, problems: tuple[Problem, ...]) -> None:
        complain(problems)
        self.problems.extend(problems)
        self._refused.append(name)

    def end(self) -> None:
        if self.arguments.json:
            self._end_of_data()
        elif self._several:
            from tundish.report.overview import overview_lines

            put_out(overview_lines(self.assessments, self._refused), self.arguments.plain)

    def _end_of_data(self) -> None:
        from tundish.report.as_data import as_data, as_json, several_as_data

        # The form follows from what was asked, not from how many jobs happened to be there.
        one = len(self.arguments.jobs) == 1 and not self._of_folder()
        if not one:
            sys.stdout.write(as_json(several_as_data(self.assessments, self.problems)))
        elif self.assessments:
            sys.stdout.write(as_json(as_data(self.assessments[0])))

    def _of_folder(self) -> bool:
        from pathlib import Path

        return Path(self.arguments.jobs[0]).is_dir()


def _judge(file: JobFile, rulebook: Rulebook, told: _Told) -> None:
    from tundish.assessment.assess import assess
    from tundish.assessment.remedies import with_remedies
    from tundish.reading.problem import Refused

    try:
        job = file.read()
    except Refused as refused:
        told.refused(file.name, refused.problems)
        return
    arguments = told.arguments
    assessment = assess(job, rulebook, stage=arguments.stage, region=arguments.region)
    told.assessment(with_remedies(assessment, job, rulebook))


def _fails(assessment: Assessment, fail_on: str) -> bool:
    from tundish.report.summary import breached_worst_first

    breached = breached_worst_first(assessment)
    if not breached or fail_on == "never":
        return False
    return SEVERITIES.index(breached[0].severity) <= SEVERITIES.index(fail_on)
