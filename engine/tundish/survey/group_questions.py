"""The few questions in a group or list of a job of which nothing is known yet."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator

from tundish.job.hints import is_pipe_size
from tundish.job.model.schema import Entry, Fact, Items, Record
from tundish.job.schema import job_schema
from tundish.rulebook.forms.walk import Walk
from tundish.rulebook.model.rule import Rule
from tundish.rulebook.rulebook import Rulebook

_MOST = 6
"""Questions of one group that are asked at once: more would be a form in the form."""

_NAME = "name"


def questions_in_group(
    path: str, rules: Iterable[Rule], rulebook: Rulebook, stage: str = ""
) -> tuple[Entry, ...]:
    """Return what to ask of a group or list of which nothing is known yet.

    Args:
        path: Its path; that of a fact, or of a size of pipe, has no questions in it.
        rules: The rules that wait for it.
        rulebook: It has them.
        stage: The stage of the job; what can wait for a later stage is left out, if not all can.

    Returns:
        The few facts and sizes in it that most of these rules look at, in the order in which a
        person meets them; the name of an item first. Where no rule looks inside, the first two.
    """
    group = job_schema().find(path)
    if not isinstance(group, Record | Items) or is_pipe_size(group):
        return ()
    inner = {entry.path: entry for entry in _written(group)}
    readers: Counter[str] = Counter()
    for rule in rules:
        readers.update(rulebook.places_read[rule.name] & inner.keys())
    walk = Walk.built_in()

    read = [entry for path, entry in inner.items() if readers[path]] or list(inner.values())[:2]
    asked_now = [entry for entry in read if walk.is_asked_at(stage, entry.path, entry.who)]
    chosen = sorted(asked_now or read, key=lambda entry: -readers[entry.path])[:_MOST]
    names = [entry for entry in inner.values() if entry.path == f"{group.path}.{_NAME}"]
    others = sorted(chosen, key=lambda entry: walk.order(entry.path))
    return (*names, *(entry for entry in others if entry not in names))


def _written(group: Record | Items) -> Iterator[Entry]:
    """Give the facts and pipe sizes below a group, but not those of lists in it."""
    record = group.item if isinstance(group, Items) else group
    for entry in record.fields.values():
        if isinstance(entry, Fact) or is_pipe_size(entry):
            yield entry
        elif isinstance(entry, Record):
            yield from _written(entry)
