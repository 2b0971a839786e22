"""What is said of a change of rules: a row a job, then what changes in each."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from tundish.compare.compare import FindingChange, JobComparison
from tundish.report.page.line import GAP, Line, items, section
from tundish.report.tell.finding import about
from tundish.report.tell.phrases import counted

Comparisons = Sequence[tuple[str, JobComparison]]
"""The jobs by name, each judged before and after."""

_HEAD = ("new", "gone", "otherwise")
_WIDTH = 9


def impact_lines(comparisons: Comparisons) -> Iterator[Line]:
    """Give a table of the jobs, and the requirements that each answers otherwise.

    Args:
        comparisons: The jobs.
    """
    yield Line("heading", "What the change of rules would alter")
    yield GAP
    yield Line("verbatim", "".join(f"{word:>{_WIDTH}}" for word in _HEAD) + "  job")
    for name, comparison in comparisons:
        numbers = (comparison.new, comparison.gone, comparison.changed)
        row = "".join(f"{len(changes):>{_WIDTH}}" for changes in numbers)
        yield Line("verbatim", f"{row}  {name}")
    for name, comparison in comparisons:
        by_word = {
            "newly breached": comparison.new,
            "breached no more": comparison.gone,
            "answered otherwise": comparison.changed,
        }
        texts = (
            f"{word}: {_change_text(change)}"
            for word, changes in by_word.items()
            for change in changes
        )
        yield from section(name, items(texts))
    altered = sum(bool(comparison.findings) for _, comparison in comparisons)
    yield GAP
    yield Line("words", f"Altered: {counted(altered, 'job')} of {len(comparisons)}.")


def _change_text(change: FindingChange) -> str:
    was, now = (verdict or "not asked" for verdict in (change.was, change.now))
    return f"{about(change)} ({change.rule}; {was}, then {now})"
