"""What is said of the changes that would mend a breach, and of what else each would do."""

from __future__ import annotations

from collections.abc import Sequence

from tundish.findings.finding import Affected, Finding, Remedy
from tundish.report.page.line import Line, entries
from tundish.report.tell.phrases import counted, listed

_MOST_TOLD = 4
_MOST_NAMED = 2


def change_lines(finding: Finding) -> list[Line]:
    """Return a line for each change of one fact that mends a breach, the best first.

    Args:
        finding: The breach.
    """
    if finding.stopped and not finding.changes:
        return [Line("entry", _STOPPED, "in numbers")]
    if not finding.tried:
        return []
    if not finding.changes:
        named = listed(list(finding.tried))
        return [Line("entry", f"no change of {named} alone mends this", "in numbers")]
    texts = [_change_text(change) for change in finding.changes[:_MOST_TOLD]]
    more = len(finding.changes) - len(texts)
    if more:
        texts.append(f"or one of {counted(more, 'other change')} of one fact")
    if finding.stopped:
        texts.append(_STOPPED)
    return entries("in numbers", texts)


_STOPPED = "not looked for to the end: over lists this long it would take too much"


def _change_text(change: Remedy) -> str:
    text = f"{change.label} from {change.now} to {change.then}"
    also = [
        f"also mends {_named(change.mends)}" if change.mends else "",
        f"but breaches {_named(change.breaks)}" if change.breaks else "",
        f"leaves {counted(len(change.opens), 'requirement')} to be decided anew"
        if change.opens
        else "",
    ]
    return "; ".join([text, *(effect for effect in also if effect)])


def _named(affected: Sequence[Affected]) -> str:
    """Name a few by their titles, and count many."""
    titles = list(dict.fromkeys(requirement.title for requirement in affected))
    if len(titles) > _MOST_NAMED:
        return counted(len(affected), "other requirement")
    return listed([f'"{title}"' for title in titles])
