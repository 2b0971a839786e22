"""What is said of a result that was verified: what it was made from, and what differs."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.report.page.line import GAP, Line
from tundish.report.tell.phrases import counted
from tundish.results.verify import Difference, Verification

_MOST_TOLD = 100
"""Differences past which nobody reads them one by one; data for programs has all."""

_LONGEST = 300
"""Characters of a value past which the rest is left out."""


def verification_lines(verification: Verification) -> Iterator[Line]:
    """Give all that is said of a result that was verified."""
    now = verification.now
    yield Line("heading", "Verification")
    yield Line("entry", verification.stated.name, "result")
    yield Line("entry", now.file or now.job or "a job without a name", "job file")
    yield from (GAP, Line("section", "what it was made from"))
    stated = verification.stated.text
    yield _same("job", verification.same_job, stated("job_digest"), now.job_digest)
    yield _same(
        "rulebook", verification.same_rulebook, stated("rulebook_digest"), now.rulebook_digest
    )
    yield _same("program", verification.same_version, stated("version"), now.version)
    yield from _differences(verification.differences)
    yield from (GAP, Line("section", "how it stands"), Line("words", _summary(verification)))


def _same(label: str, same: bool, then: str, now: str) -> Line:
    if same:
        return Line("entry", f"the same: {_cut(then, 64)}", label)
    return Line("entry", f"another: then {_cut(then, 64)}, now {_cut(now, 64)}", label)


def _differences(differences: tuple[Difference, ...]) -> Iterator[Line]:
    if differences:
        yield from (GAP, Line("section", "what comes out otherwise"))
    of = None
    for difference in differences[:_MOST_TOLD]:
        about = (difference.rule, difference.item)
        if about != of:
            name = f"{difference.rule} ({difference.item})" if difference.item else difference.rule
            yield from (GAP, Line("question", name or "the whole"))
        yield Line(
            "entry",
            f"{_cut(difference.then, _LONGEST)} -> {_cut(difference.now, _LONGEST)}",
            difference.what,
        )
        of = about
    more = len(differences) - _MOST_TOLD
    if more > 0:
        yield Line("item", f"and {counted(more, 'other')}")


def _cut(text: str, most: int) -> str:
    return text if len(text) <= most else f"{text[:most]}…"


def _summary(verification: Verification) -> str:
    number = len(verification.now.findings)
    if verification.holds:
        return f"The result holds: all {number} findings come out the same."
    apart = [
        word
        for word, same in (
            ("job", verification.same_job),
            ("rulebook", verification.same_rulebook),
            ("program", verification.same_version),
        )
        if not same
    ]
    sentences = [f"It was made from another {', another '.join(apart)}."] if apart else []
    differing = len({(difference.rule, difference.item) for difference in verification.differences})
    if not differing:
        return " ".join([*sentences, f"All {number} findings come out alike all the same."])
    if not apart:
        sentences.append(
            "Job, rulebook and program are those it names, yet it states other findings."
        )
    return " ".join([*sentences, f"What differs: {counted(differing, 'finding')}."])
