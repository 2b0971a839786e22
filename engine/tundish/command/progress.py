"""A bar on long runs, for whoever sits at the terminal; nothing where nobody does."""

from __future__ import annotations

import sys
from collections.abc import Iterator, Sequence
from typing import TypeVar

_FEW = 12
"""Items up to which a run is over before a bar could be read."""

_Item = TypeVar("_Item")


def with_progress(items: Sequence[_Item], words: str) -> Iterator[_Item]:
    """Give items one by one, with a bar on standard error while they are worked on.

    Args:
        items: The items.
        words: What is done with them.
    """
    if len(items) <= _FEW or not sys.stderr.isatty():
        yield from items
        return
    from rich.console import Console
    from rich.progress import BarColumn, MofNCompleteColumn, Progress, TextColumn

    columns = (TextColumn(words), BarColumn(), MofNCompleteColumn())
    with Progress(*columns, console=Console(stderr=True), transient=True) as progress:
        yield from progress.track(items)
