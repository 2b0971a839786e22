"""What is said of a portfolio: breached how often, not known how often, what would help most."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from tundish.findings.assess import digest_of, program_version
from tundish.findings.details import label_of
from tundish.job.facts import Facts
from tundish.portfolio.summary import Remedies, Summary
from tundish.report.page.line import GAP, Line, items, section
from tundish.report.tell.assessment import made_from_lines
from tundish.report.tell.phrases import counted
from tundish.rulebook.rulebook import Rulebook

_MOST = 12


def portfolio_lines(summary: Summary, base: Facts, rulebook: Rulebook) -> Iterator[Line]:
    """Give the summary of a portfolio.

    Args:
        summary: What its jobs come to.
        base: The facts of the job that they were merged over.
        rulebook: The rules they were judged by.
    """
    jobs = counted(summary.jobs, "job") if summary.jobs else "no jobs"
    yield Line("heading", f"Portfolio of {jobs}")
    breaches = {name: rulebook.rules[name].title for name in summary.breaches}
    yield from _ranked("breached most often", summary.breaches, summary.jobs, breaches)
    unknown = {path: label_of(path) for path in summary.unknown}
    yield from _ranked("most often not known", summary.unknown, summary.jobs, unknown)
    if summary.remedies is not None:
        yield from _remedy_lines(summary.remedies, summary.jobs)
    else:
        labels = {path: label_of(path) for path in summary.adjustable}
        yield from _ranked(
            "facts that breached rules let change", summary.adjustable, summary.jobs, labels
        )
    yield from (GAP, Line("section", "how it stands"))
    text = f"Without a breach: {summary.clean} of {summary.jobs}."
    if summary.refused:
        text += f" Not judged, as something in the row could not be read: {summary.refused}."
    yield Line("words", text)
    yield from made_from_lines(digest_of(base), rulebook.digest, program_version())


def _ranked(name: str, numbers: Counter[str], jobs: int, labels: dict[str, str]) -> Iterator[Line]:
    ranked = sorted(numbers.items(), key=lambda entry: (-entry[1], entry[0]))
    texts = [
        f"{number} ({100 * number / jobs:.0f} %): {labels[key]}  ({key})"
        for key, number in ranked[:_MOST]
    ]
    more = len(ranked) - _MOST
    texts += [f"and {counted(more, 'other')} less often"] if more > 0 else []
    return section(name, items(texts))


def _remedy_lines(remedies: Remedies, jobs: int) -> Iterator[Line]:
    """Say which change of one fact would help most."""
    if not remedies.breaching:
        return
    yield from (GAP, Line("section", "the change of one fact that would help most"))
    tried = "all of them" if remedies.jobs == jobs else f"{remedies.jobs} jobs taken evenly"
    yield Line(
        "words",
        f"Values of each fact were tried on {tried}, {remedies.breaching} of which breach "
        "something. Facts of list items were not tried.",
    )
    for change in remedies.helps[:_MOST]:
        yield Line(
            "item",
            f"{label_of(change.path)}: could clear a breach in {_share(change.clears, remedies)}, "
            f"and leave nothing breached in {_share(change.cleans, remedies)}  ({change.path})",
        )
    if not remedies.helps:
        yield Line("item", "no change of one fact that was tried clears a breach")
    more = len(remedies.helps) - _MOST
    if more > 0:
        yield Line("item", f"and {counted(more, 'other')} that would help less")


def _share(number: int, remedies: Remedies) -> str:
    return f"{number} ({100 * number / remedies.jobs:.0f} %)"
