"""What is said of mending a job: the changes, what each clears, and what they cannot clear."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.findings.finding import Finding
from tundish.remedy.mend import MadeChange, Mending
from tundish.report.page.line import Line, apart, entries, section
from tundish.report.tell.assessment import caution_lines
from tundish.report.tell.finding import about
from tundish.report.tell.phrases import counted


def mending_lines(mending: Mending) -> Iterator[Line]:
    """Give all that is said of a mending.

    Args:
        mending: The changes and what is left.
    """
    before = mending.before
    yield Line("heading", f"Mending: {before.job or before.file or 'a job without a title'}")
    yield Line("under", before.file if before.job else "")
    yield from section("changes", apart(map(_change, mending.made)))
    yield from section("not mended by any such change", apart(map(_left, mending.left)))
    yield from section("how it stands", [Line("words", _summary(mending))])
    yield from caution_lines(before.cautions)


def _change(made: MadeChange) -> Iterator[Line]:
    yield Line("question", f"{made.label} from {made.was} to {made.change.written}")
    yield Line("entry", made.change.path, "write in")
    yield from entries("clears", list(dict.fromkeys(map(about, made.clears))))


def _left(finding: Finding) -> Iterator[Line]:
    yield Line("finding", about(finding), severity=finding.severity)
    yield Line("entry", finding.remedy, "to mend")
    yield Line("entry", finding.rule, "rule")


def _summary(mending: Mending) -> str:
    if not mending.made and not mending.left:
        return "Nothing is breached, so there is nothing to mend."
    sentences = []
    if mending.made:
        least = "" if mending.stopped else "; none can be left out"
        sentences.append(f"{counted(len(mending.made), 'change')} made{least}.")
    if mending.left:
        sentences.append(f"{counted(len(mending.left), 'breach', 'breaches')} left.")
    if mending.stopped:
        sentences.append("The search was given up: over lists this long it would take too much.")
    elif mending.left:
        sentences.append("They ask for something other than another figure: see how to mend each.")
    if mending.made and not mending.left:
        sentences.append("Nothing that was breached is breached with them.")
    if mending.opened:
        text = counted(mending.opened, "requirement is", "requirements are")
        sentences.append(f"{text} open with them and were not before.")
    return " ".join(sentence[:1].upper() + sentence[1:] for sentence in sentences)
