"""What is said of a portfolio: breached how often, not known how often, what would help most."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from tundish.assessment.details import label_of
from tundish.assessment.portfolio import Summary
from tundish.report.line import GAP, Line
from tundish.report.words import counted
from tundish.rulebook.rulebook import Rulebook

_MOST = 12


def portfolio_lines(summary: Summary, rulebook: Rulebook) -> Iterator[Line]:
    """Give the summary of a portfolio.

    Args:
        summary: What its jobs come to.
        rulebook: The rules they were judged by.
    """
    yield Line("heading", f"Portfolio of {counted(summary.jobs, 'job')}")
    breaches = {name: rulebook.rules[name].title for name in summary.breaches}
    yield from _ranked("breached most often", summary.breaches, summary.jobs, breaches)
    unknown = {path: label_of(path) for path in summary.unknown}
    yield from _ranked("most often not known", summary.unknown, summary.jobs, unknown)
    remedies = {path: label_of(path) for path in summary.remedies}
    yield from _ranked(
        "facts whose change could mend most", summary.remedies, summary.jobs, remedies
    )
    yield from (GAP, Line("section", "how it stands"))
    told = f"Without a breach: {summary.clean} of {summary.jobs}."
    if summary.refused:
        told += f" Not judged, as something in the row could not be read: {summary.refused}."
    yield Line("words", told)


def _ranked(name: str, numbers: Counter[str], jobs: int, labels: dict[str, str]) -> Iterator[Line]:
    if numbers:
        yield from (GAP, Line("section", name))
    ranked = sorted(numbers.items(), key=lambda one: (-one[1], one[0]))
    for key, number in ranked[:_MOST]:
        share = f"{100 * number / jobs:.0f} %"
        yield Line("item", f"{number} ({share}): {labels[key]}  ({key})")
    more = len(ranked) - _MOST
    if more > 0:
        yield Line("item", f"and {counted(more, 'other')} less often")
