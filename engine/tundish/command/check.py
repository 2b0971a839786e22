"""`tundish check`: jobs judged by the rulebook."""

from __future__ import annotations

import argparse
import sys
from typing import TYPE_CHECKING

from tundish.command.exit_codes import CANNOT_READ
from tundish.command.option_values import FAIL_ON, FORMS, SECTIONS, SEVERITIES, SHOW
from tundish.command.output import complain, put_out
from tundish.command.parser import (
    Subcommands,
    add_command,
    add_region,
    add_rules,
    add_stage,
    one_of,
)
from tundish.command.progress import with_progress

if TYPE_CHECKING:
    from tundish.findings.finding import Assessment
    from tundish.report.formats.checked import Checked, Refusal
    from tundish.report.tell.assessment import Show
    from tundish.rulebook.rulebook import Rulebook
    from tundish.text.problem import Problem


def add(subcommands: Subcommands) -> None:
    """Add the subcommand."""
    parser = add_command(
        subcommands,
        "check",
        "Judge jobs and say what is wrong, why, what mends it and what is still to be found out.",
        "A job is a TOML file. Of a folder every job in it is judged, unit sheets are passed over; "
        "'-' reads a job from standard input. What is left out of a job is not known yet and is "
        "asked for when its stage is due.\n\n"
        "Facts that cannot be so together, such as stored water colder than the mains, are told "
        "first; the job is judged as if none of them were known.\n\n"
        "Ends with 0 if nothing as serious as --fail-on is breached, 1 if something is, and 2 if "
        "something could not be read or facts contradict each other.",
        """
        tundish check job.toml
        tundish check jobs/ --show breached --fail-on danger
        tundish check job.toml --show all --workings --plain > report.txt
        tundish check job.toml --as html --section siting > report.html
        """,
    )
    subjects = parser.add_argument_group("what to judge")
    subjects.add_argument("jobs", metavar="JOB", nargs="+", help="a file, a folder, or '-'")
    judge = parser.add_argument_group("how to judge")
    add_stage(judge, "judge as at this stage, whatever the job says")
    add_region(judge, "judge for this region")
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
    _add_forms(say)
    parser.set_defaults(run=run)


def _add_forms(say: argparse._ArgumentGroup) -> None:
    """Add the options for forms other than the console, of which there is one at a time."""
    form = say.add_mutually_exclusive_group()
    form.add_argument(
        "--as",
        dest="form",
        type=one_of(FORMS),
        metavar="HOW",  # a longer word would make the usage too wide for a narrow terminal
        help="say it in another form: plain, text of 72 columns without colour; markdown; html, "
        "one file for screen and paper; json, data that 'tundish schema findings' describes; "
        "sarif, for programs that gather results of checks; junit, for build servers. json and "
        "junit tell everything, whatever --show says",
    )
    for name, about in (("plain", "short for --as plain"), ("json", "short for --as json")):
        form.add_argument(f"--{name}", dest="form", action="store_const", const=name, help=about)


def run(arguments: argparse.Namespace) -> int:
    """Judge the jobs; return what the command ends with."""
    from tundish.job.job_files import find_jobs
    from tundish.rulebook.rulebook import Rulebook

    rulebook = Rulebook.load(*arguments.rules)
    paths, problems = find_jobs(arguments.jobs)
    output = _Output(arguments, several=len(paths) > 1)
    for problem in problems:
        output.refused(problem.file, (problem,), is_job=False)
    # What is told as it comes is itself a sign that the run goes on.
    streams = output.streams and sys.stdout.isatty()
    for path in paths if streams else with_progress(paths, "Judging"):
        _judge(path, rulebook, output)
    output.end()
    if output.refusals:
        return CANNOT_READ
    return int(any(_fails(assessment, arguments.fail_on) for assessment in output.assessments))


class _Output:
    """Tells assessments as they come, and what there is to say after the last."""

    def __init__(self, arguments: argparse.Namespace, several: bool) -> None:
        self.arguments = arguments
        self.assessments: list[Assessment] = []
        self.refusals: list[Refusal] = []
        self._several = several
        self.streams = arguments.form in (None, "plain")

    def assessment(self, assessment: Assessment) -> None:
        from tundish.report.page.line import GAP
        from tundish.report.tell.assessment import assessment_lines

        first = not self.assessments
        self.assessments.append(assessment)
        if not self.streams:
            return
        gap = [] if first else [GAP, GAP]
        # Of several jobs the cautions are told once, after the last.
        lines = assessment_lines(
            assessment,
            self.show,
            cautions=not self._several,
            workings=self.arguments.workings,
            sections=self.arguments.section,
        )
        put_out([*gap, *lines], self._plain)

    def refused(
        self,
        name: str,
        problems: tuple[Problem, ...],
        is_job: bool = True,
        is_judged: bool = False,
    ) -> None:
        from tundish.report.formats.checked import Refusal

        complain(problems)
        self.refusals.append(Refusal(name, problems, is_job, is_judged))

    def end(self) -> None:
        if not self.streams:
            self._end_of_document()
        elif self._several:
            from tundish.report.formats.checked import refused_jobs
            from tundish.report.tell.overview import overview_lines

            refused = refused_jobs(self.refusals)
            put_out(overview_lines(self.assessments, refused), self._plain)

    @property
    def show(self) -> Show:
        """Return what is to be told."""
        return self.arguments.show or "usual"

    @property
    def _plain(self) -> bool:
        return bool(self.arguments.form == "plain")

    def _end_of_document(self) -> None:
        from tundish.report.formats.document import document

        # A document is the same file wherever it is made: UTF-8, with plain line ends.
        if hasattr(sys.stdout, "reconfigure"):
            sys.stdout.reconfigure(encoding="utf-8", errors="backslashreplace", newline="\n")
        sys.stdout.write(document(self._checked(), self.arguments.form))

    def _checked(self) -> Checked:
        from tundish.report.formats.checked import Checked

        # Its shape follows from what was asked, not from how many jobs happened to be there.
        single = len(self.arguments.jobs) == 1 and not self._of_folder()
        return Checked(
            tuple(self.assessments),
            tuple(self.refusals),
            several=not single,
            show=self.show,
            workings=self.arguments.workings,
            sections=self.arguments.section,
        )

    def _of_folder(self) -> bool:
        from pathlib import Path

        return Path(self.arguments.jobs[0]).is_dir()


def _judge(path: str, rulebook: Rulebook, output: _Output) -> None:
    """Judge one job; what its facts contradict each other in is told first, and left aside."""
    from tundish.command.job_input import job_name, read_job
    from tundish.findings.assess import assess
    from tundish.report.tell.assessment import verdicts_told
    from tundish.rulebook.evaluate.contradictions import Contradicted
    from tundish.rulebook.evaluate.judge import Verdict
    from tundish.text.problem import Refused

    arguments = output.arguments
    is_whole = arguments.form in ("json", "junit")
    verdicts = tuple(Verdict) if is_whole else verdicts_told(output.show, arguments.section)

    def assessed(aside: Contradicted | None = None) -> Assessment:
        return assess(
            job,
            rulebook,
            stage=arguments.stage,
            region=arguments.region,
            verdicts=verdicts,
            changes=True,
            # A page asks for what is open, and says on what a finding rests where nothing is.
            grounds=is_whole or arguments.form == "sarif",
            aside=aside,
        )

    try:
        job = read_job(path)
        assessment = assessed()
    except Contradicted as contradicted:
        output.refused(job_name(path), contradicted.problems, is_judged=True)
        assessment = assessed(contradicted)
    except Refused as refused:
        output.refused(job_name(path), refused.problems)
        return
    output.assessment(assessment)


def _fails(assessment: Assessment, fail_on: str) -> bool:
    from tundish.report.tell.summary import breached_worst_first

    breached = breached_worst_first(assessment)
    if not breached or fail_on == "never":
        return False
    return SEVERITIES.index(breached[0].severity) <= SEVERITIES.index(fail_on)
