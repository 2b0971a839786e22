"""A first job file: its facts as commented lines, in the order in which a person meets them.

Every fact is a line with its whole path, so that it can be taken up, moved or left alone by itself.
Items of lists are blocks of their own at the end, as TOML has it.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Mapping
from functools import cache
from itertools import groupby

from tundish.groundwork.dataclass import dataclass
from tundish.job.hints import example, is_pipe_size, written_path
from tundish.job.model.schema import Entry, Fact, Items, Record
from tundish.job.named_file import FILES
from tundish.job.parts.heading import STILL_WRITTEN
from tundish.job.schema import job_schema
from tundish.report.forms.starter_lines import (
    StarterLine,
    absent_group,
    choices,
    laid_out,
    prose,
)
from tundish.rulebook.forms.walk import Walk
from tundish.text.inline_toml import toml_string

_HEAD = (
    "Take the mark '# ' off a line and put in what is known; a line left alone is not known yet. "
    'What is known to be absent: a list is [], a group "none", yes or no false. Lines with two '
    "marks are for reading. The examples are invented.",
)

_LISTS = {
    True: "Until a list holds all there is, what is not in it counts as unknown; then name it: "
    'job.complete_lists = ["water.run"], or "all".',
    False: "A list counts as all there is; while more may follow, name it: "
    'job.open_lists = ["water.run"], or "all".',
}
"""How a job tells whether a list is complete, by whether it is taken for unfinished."""


@dataclass(frozen=True, slots=True)
class FirstJob:
    """What a first job file is made of.

    Attributes:
        keys: What stands at its top, such as the title, by dotted path, with its text.
        asked: Paths of the facts to ask for, without positions; every fact if None. The region is
            asked for where it is not among the keys.
        declared: The facts of packs to ask for.
        is_open: Says of a path whether it is left to be stated, and not known from elsewhere.
        command: What to run next.
        schema_line: What the file begins with, such as where an editor finds its schema.
    """

    keys: Mapping[str, str]
    asked: Iterable[str] | None = None
    declared: Iterable[Fact] = ()
    is_open: Callable[[str], bool] = lambda _: True
    command: str = "tundish check"
    schema_line: str = ""


def starter_job(first: FirstJob) -> str:
    """Write a first job file.

    Args:
        first: What it is made of.

    Returns:
        TOML text; every fact but the keys at the top is a comment still. A line of TOML begins
        with "# ", one for reading with "## "; with the first of these marks taken off all lines it
        is a job that can be read and judged.
    """
    asked = None
    if first.asked is not None:
        asked = {written_path(path) for path in (_REGION, *first.asked)}
    rows = [first.schema_line] if first.schema_line else []
    is_early = first.keys.get("job.stage") in STILL_WRITTEN
    for text in (*_HEAD, _LISTS[is_early], f"Then run: {first.command}"):
        rows += prose(text)
    rows += [f"{key} = {toml_string(text)}" for key, text in first.keys.items()]
    walk, shown = Walk.built_in(), set[str]()
    entries = [*_facts(job_schema(), asked), *first.declared]
    entries = [
        entry for entry in entries if entry.path not in first.keys and first.is_open(entry.path)
    ]
    entries.sort(key=lambda entry: walk.order(entry.path))
    for place, at_place in groupby(entries, key=lambda entry: walk.place_of(entry.path)):
        lines = [_line(entry, entry.path, shown) for entry in at_place]
        rows += ["", *prose(f"--- {place or _OF_PACKS}"), *laid_out(lines, aligned=False)]
    lists = [items for items in _lists(job_schema(), asked) if first.is_open(items.path)]
    for items in sorted(lists, key=lambda items: walk.order(items.path)):
        rows += _block(items, asked, walk)
    return "\n".join(rows) + "\n"


_REGION = "job.region"
"""Which rules hold hangs on it, so it is always asked for."""

_OF_PACKS = "Asked for by further rules"

_OR_ELSE = ("tolerance.share",)
"""Facts that may be stated in place of another, which is asked for."""

_IN_THE_SHEET = "unit"
"""The table whose facts stand in a unit sheet."""


def _facts(record: Record, asked: set[str] | None) -> Iterator[Entry]:
    """Give the facts and pipe sizes outside lists that are asked for."""
    for entry in record.fields.values():
        if entry.path in (_IN_THE_SHEET, *FILES):
            continue
        if isinstance(entry, Fact) or is_pipe_size(entry):
            # A fact that is written under another key is asked for under that key.
            written_here = entry.path == written_path(entry.path) and entry.path not in _OR_ELSE
            if written_here and (asked is None or entry.path in asked):
                yield entry
        elif isinstance(entry, Record):
            yield from _facts(entry, asked)


def _lists(record: Record, asked: set[str] | None) -> Iterator[Items]:
    """Give the lists of which something is asked for; not those inside their items."""
    for entry in record.fields.values():
        if entry.path == _IN_THE_SHEET:
            continue
        if isinstance(entry, Items):
            if asked is None or any(path.startswith(f"{entry.path}.") for path in asked):
                yield entry
        elif isinstance(entry, Record):
            yield from _lists(entry, asked)


def _line(entry: Entry, key: str, shown: set[str], outer: str = "") -> StarterLine:
    """Return the line of one fact.

    Args:
        entry: The fact.
        key: What is written for it.
        shown: Groups of which it has been said how to write that there are none; gets its own.
        outer: The path of the list it stands in.
    """
    words = choices(entry)
    remark = f"{entry.question} {_own_way(entry)}".rstrip() + (f" ({words})" if words else "")
    group = absent_group(entry.path, outer, shown)
    absence = ""
    if group:
        short = group.path.removeprefix(f"{outer}.")
        absence = f'{group.question} If there is none, write {short} = "none" instead.'
    return StarterLine(f"# {key} = {example(entry)}", remark, group=absence)


def _own_way(entry: Entry) -> str:
    """Return how to find a fact out, unless the same is said of many: that tells nothing of one."""
    return "" if _ways()[entry.how] >= _MANY else entry.how


@cache
def _ways() -> Counter[str]:
    return Counter(fact.how for fact in job_schema().facts())


_MANY = 10


def _block(items: Items, asked: set[str] | None, walk: Walk) -> Iterator[str]:
    """Give the block of one item of a list, with a blank line before it."""
    place = walk.place_of(items.path).partition(":")[0]
    inner = sorted(_facts(items.item, asked), key=lambda entry: walk.order(entry.path))
    inner.sort(key=lambda entry: entry.path != f"{items.path}.name")
    shown = set[str]()
    lines = [
        _line(entry, entry.path.removeprefix(f"{items.path}."), shown, items.path)
        for entry in inner
    ]
    yield ""
    yield from prose(
        f"--- {place}: {items.question} Take the marks off this whole block, and copy it for each "
        f"further one. If there are none, write {items.path} = [] above."
    )
    yield f"# [[{items.path}]]"
    yield from laid_out(lines, aligned=False)
    for below in _lists(items.item, asked):
        yield from _block(below, asked, walk)
