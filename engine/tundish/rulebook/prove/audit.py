"""Auditing a rulebook: what nothing uses, reads or cites, and what was not looked at lately."""

from __future__ import annotations

import datetime
from collections.abc import Iterator
from itertools import product

from tundish.groundwork.dataclass import dataclass
from tundish.job.hints import written_path
from tundish.job.schema import job_schema
from tundish.language.operations.table import Table
from tundish.language.tree import tree as t
from tundish.rulebook.link.facts_read import facts_read
from tundish.rulebook.model.rule import DerivedQuantity, Rule
from tundish.rulebook.rulebook import Rulebook

_FEW = 0.25
"""Share of missing rows up to which a table is taken to be meant whole."""

_HEADINGS = ("job", "waiver", "tolerance", "order")
"""Parts of a job that the program itself reads."""

READ_BY_PEOPLE = ("unit.model", "unit.made", "placement.around.front")
"""Facts that no rule reads: what tells a unit sheet from another, and what the site plan draws."""


@dataclass(frozen=True, slots=True)
class Remark:
    """Something to look at in a rulebook.

    Attributes:
        about: What sort of thing it is.
        name: The rule, quantity, table, source or fact.
        sentence: What there is to say of it.
    """

    about: str
    name: str
    sentence: str


def audit(
    rulebook: Rulebook, today: datetime.date, older_than: datetime.timedelta | None = None
) -> Iterator[Remark]:
    """Look through a rulebook for what an author would want to know.

    Args:
        rulebook: The rulebook.
        today: The day that reviews are counted from.
        older_than: The age past which a review is remarked on, or None.

    Yields:
        Remarks, those on one sort of thing together.
    """
    yield from _unused(rulebook)
    yield from _uncited(rulebook)
    for name, cited in rulebook.tables.items():
        for gap in gaps(cited.table):
            yield Remark("table", name, gap)
    if older_than is not None:
        yield from _old(rulebook, today - older_than)
    yield from _unread(rulebook)


def _unused(rulebook: Rulebook) -> Iterator[Remark]:
    derived: set[tuple[str, str]] = set()
    looked_up: set[str] = set()
    for root, variables in _trees(rulebook):
        for node, bound in t.walk(root, variables):
            if isinstance(node, t.Derived):
                derived.add(("" if node.item is None else bound[node.item], node.name))
            if isinstance(node, t.Lookup):
                looked_up.add(node.table)
    for key, quantity in rulebook.quantities.items():
        if key not in derived and quantity.report is None:
            yield Remark("quantity", quantity.name, "No rule uses it and no report shows it.")
    for name in rulebook.tables:
        if name not in looked_up:
            yield Remark("table", name, "Nothing is looked up in it.")


def _trees(rulebook: Rulebook) -> Iterator[tuple[t.Node, dict[str, str]]]:
    for definition in rulebook.definitions:
        for root in definition.roots:
            yield root, definition.variables
        for part in definition.breach if isinstance(definition, Rule) else ():
            if not isinstance(part, str):
                yield part, definition.variables


def _uncited(rulebook: Rulebook) -> Iterator[Remark]:
    # Loaded here, as it brings the shapes of rule files along.
    from tundish.rulebook.forms.unit_sheet import sheet_sections

    citing = (*rulebook.definitions, *rulebook.tables.values(), *rulebook.sizes.values())
    cited = {citation.source.name for definition in citing for citation in definition.citations}
    cited |= {part.source.name for section in sheet_sections() for part in section.citations}
    for name in rulebook.sources:
        if name not in cited:
            yield Remark("source", name, "Nothing cites it.")


def _old(rulebook: Rulebook, before: datetime.date) -> Iterator[Remark]:
    for definition in rulebook.definitions:
        if definition.reviewed < before:
            sentence = f"It was last reviewed on {definition.reviewed}."
            yield Remark(definition.noun, definition.name, sentence)


def _unread(rulebook: Rulebook) -> Iterator[Remark]:
    read: set[str] = set()
    for definition in rulebook.definitions:
        # A quantity counts by who uses it; one that a report shows, by itself.
        if not isinstance(definition, DerivedQuantity) or definition.report is not None:
            read |= facts_read(definition, rulebook.quantities)
    # A pipe size is one fact, although a rule may read no more than a measure of it.
    read |= {written_path(path) for path in read}
    read |= set(READ_BY_PEOPLE)
    for fact in job_schema().facts():
        first = fact.path.split(".")[0]
        if first in _HEADINGS or first == fact.path:
            continue
        if not any(path == fact.path or fact.path.startswith(f"{path}.") for path in read):
            yield Remark("fact", fact.path, "No rule reads it.")


def gaps(table: Table) -> Iterator[str]:
    """Say where a table has no row that others of its rows lead one to expect.

    Args:
        table: The table.

    Yields:
        A sentence for each combination of texts that is missing.
    """
    exact = [at for at, key in enumerate(table.keys) if key.kind.name != "quantity"]
    if len(exact) < 2:
        return
    rows = list(_text_keys(table.tree, table, 0))
    values = [list(dict.fromkeys(row[at] for row in rows)) for at in range(len(exact))]
    present = set(rows)
    missing = [texts for texts in product(*values) if texts not in present]
    # Where few combinations have a row, none is expected of the others.
    if len(missing) <= _FEW * len(present):
        for texts in missing:
            yield f"It has no row for {', '.join(map(repr, texts))}."


def _text_keys(level: object, table: Table, depth: int) -> Iterator[tuple[str, ...]]:
    if depth == len(table.keys) or not isinstance(level, dict):
        yield ()
        return
    text = table.keys[depth].kind.name != "quantity"
    for key, below in level.items():
        for inner_keys in dict.fromkeys(_text_keys(below, table, depth + 1)):
            yield (str(key), *inner_keys) if text else inner_keys
