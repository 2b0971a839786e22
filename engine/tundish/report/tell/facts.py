"""Facts told: what can be stated, how it is found out and written, and which rules read it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from tundish.job.model.schema import Asked, Items, Record, below
from tundish.job.schema import job_schema
from tundish.report.page.line import GAP, Line, items, section
from tundish.report.tell.command_text import typed
from tundish.report.tell.fact_phrases import as_written, kind_words
from tundish.report.tell.phrases import counted, listed
from tundish.rulebook.model.declared_facts import kind_of
from tundish.rulebook.rulebook import Rulebook
from tundish.rulebook.search.facts import SearchResult
from tundish.rulebook.search.readers import Readers
from tundish.text.quoted import quoted

MOST_TOLD = 25
"""Facts that are told in full unless all are asked for."""

_MOST_NAMED = 3


def facts_lines(
    facts: Sequence[Asked],
    rulebook: Rulebook,
    readers: Readers,
    most: int | None = MOST_TOLD,
    rules: Sequence[str] = (),
) -> Iterator[Line]:
    """Give facts, those first that were found first; past a number a line each.

    Args:
        facts: Facts, groups and lists.
        rulebook: What packs declare.
        readers: Which rules read which fact.
        most: How many are told in full; None for all.
        rules: Folders of rules on top of the built-in ones, for the commands that are named.
    """
    whole = facts if most is None else facts[:most]
    for at, asked in enumerate(whole):
        if at:
            yield GAP
        yield Line("question", asked.path)
        yield from about_fact(asked, rulebook)
        yield Line("entry", read_by(asked, readers, rules), "read by")
    inner = facts[len(whole) :]
    yield from section("and these", items(f"{asked.path}: {asked.label}" for asked in inner))
    text = f"{counted(len(facts), 'fact')} found.".capitalize()
    if inner:
        text += f" The first {len(whole)} are told in full; --all tells all so."
    yield from (GAP, Line("words", text))


def about_fact(asked: Asked, rulebook: Rulebook) -> Iterator[Line]:
    """Give what a fact, group or list is, how it is found out, and how it is written."""
    yield Line("entry", asked.label, "what")
    yield Line("entry", " ".join(part for part in (asked.question, asked.how) if part), "asked as")
    yield Line("entry", kind_words(asked, kind_of(asked.path, rulebook.declared)), "kind")
    yield Line("code", as_written(asked), "written")
    yield Line("entry", f"the {asked.who}", "who knows")


def read_by(asked: Asked, readers: Readers, rules: Sequence[str] = ()) -> str:
    """Say how many rules read a fact, and name the most serious."""
    reading = readers.rules_of(asked.path)
    if not reading:
        return "no rule"
    names = [reader.definition.name for reader in reading[:_MOST_NAMED]]
    if len(reading) <= _MOST_NAMED:
        return f"{counted(len(reading), 'rule')}: {listed(names)}"
    text = f"{counted(len(reading), 'rule')}, the most serious {listed(names)}"
    return f"{text}; all in: {typed('explain', asked.path, rules=rules)}"


def overview_lines(rulebook: Rulebook) -> Iterator[Line]:
    """Give the tables and lists of a job, each with how many facts it has."""
    yield Line("heading", "The tables of a job, and the lists in them")
    yield GAP
    for entry in job_schema().fields.values():
        if isinstance(entry, Record | Items):
            yield Line("item", f"{_counted(entry)}. {entry.question}")
            inner = [inner_list for inner_list in below(entry) if isinstance(inner_list, Items)]
            yield from (Line("entry", _counted(inner_list)) for inner_list in inner)
    if rulebook.declared:
        yield Line("item", f"more: {counted(len(rulebook.declared), 'fact')} of packs of rules.")
    total = sum(1 for _ in job_schema().facts()) + len(rulebook.declared)
    yield GAP
    yield Line(
        "words",
        f"{total} facts in all. 'tundish facts WORD' finds some by a word, "
        "'tundish facts site' tells those of a table, and 'tundish facts defrost-water' "
        "those that the rules of a topic read.",
    )


def _counted(entry: Record | Items) -> str:
    """Return a table or list with the number of facts in it; those of lists in it count too."""
    number = sum(1 for _ in (entry.item if isinstance(entry, Items) else entry).facts())
    sort = " (a list)" if isinstance(entry, Items) else ""
    return f"{entry.path}{sort}: {counted(number, 'fact')}"


def nothing_found(result: SearchResult) -> str:
    """Say that no fact was found, and what is near."""
    missing = [word for word, count in result.counts if not count]
    near = f" Near it: {', '.join(result.near)}." if result.near else ""
    if missing:
        return (
            f"No fact of a job has to do with {listed([quoted(word) for word in missing])}.{near}"
        )
    counts = listed(
        [f"{quoted(word)} finds {counted(count, 'fact')}" for word, count in result.counts]
    )
    if counts:
        return f"No fact has all of these words; alone, {counts}."
    return "Name a word, such as snow, a path such as site.snow_depth, or a topic."
