"""A bar on long runs, for whoever sits at the terminal; nothing where nobody does."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
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


@contextmanager
def counting(total: int | None, words: str) -> Iterator[Callable[[int], None]]:
    """Count what is done in steps of several, with a bar on standard error if somebody is there.

    Args:
        total: How many there are, or None where only the end will tell.
        words: What is done with them.
    """
    if not sys.stderr.isatty():
        yield lambda _: None
        return
    from rich.console import Console
    from rich.progress import BarColumn, MofNCompleteColumn, Progress, TextColumn

    columns = (TextColumn(words), BarColumn(), MofNCompleteColumn(separator=" of "))
    # The bar is drawn as steps are counted, without a thread that workers would be forked beside.
    console = Console(stderr=True)
    with Progress(*columns, console=console, transient=True, auto_refresh=False) as progress:
        task = progress.add_task(words, total=total)

        def advance(number: int) -> None:
            progress.update(task, advance=number, refresh=True)

        yield advance
