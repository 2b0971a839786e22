"""A linked rulebook in the store, and out of it again, each rule when it is asked for.

What is stored is plain data, and code that the emitter made; `tundish.storing` sees to it that
nothing is read back but what was put there. A rule's few words that every finding needs come first;
its trees, sources and cases are each a text of bytes of their own, read when someone wants them.
"""

from __future__ import annotations

import marshal
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, fields
from typing import Any, TypeVar

from tundish.language.compiled import function_from
from tundish.rulebook.cited_table import CitedTable
from tundish.rulebook.editions import Edition, edition_of
from tundish.rulebook.late import Late, LateItems, LateWhole
from tundish.rulebook.pack import PackFiles
from tundish.rulebook.plain import Reader, Writer
from tundish.rulebook.provision import Provision
from tundish.rulebook.rule import DerivedQuantity, Rule
from tundish.rulebook.rule_source import RuleSource
from tundish.storing.store import can_keep, keep, kept

_Late = TypeVar("_Late", bound=Late)
_Work = TypeVar("_Work")

_LATER: dict[type[Late], tuple[tuple[str, ...], ...]] = {
    Rule: (
        ("applies", "requires", "asked_where", "breach"),
        ("citations",),
        ("cases", "unnoticed", "written"),
    ),
    DerivedQuantity: (("formula",), ("citations",), ("cases", "unnoticed")),
    Provision: (
        ("needed", "with_unit", "number", "asked_where"),
        ("citations",),
        ("cases", "unnoticed", "written"),
    ),
}
"""What is read later than the rest, in the groups in which it is wanted."""

_FUNCTIONS = {
    one: tuple(field.name for field in fields(one) if not field.init)  # type: ignore[arg-type]
    for one in _LATER
}
_FIRST = {
    one: tuple(
        field.name
        for field in fields(one)  # type: ignore[arg-type]
        if field.init and field.name != "source" and not any(field.name in late for late in groups)
    )
    for one, groups in _LATER.items()
}


@dataclass(frozen=True, slots=True)
class Linked:
    """What linking comes to, and what a store gives back of it.

    Attributes:
        digest: SHA-256 over all files, in the order of the packs.
        rules: Rules by name, sorted.
        quantities: Quantities by (path of the list they belong to or "", name).
        provisions: Provisions by name, sorted.
        sizes: Practical sizes, by path of the fact.
        tables: Tables by name.
        sources: The bibliography.
        editions: Editions of tables that have several, by name of the table.
    """

    digest: str
    rules: Mapping[str, Rule]
    quantities: Mapping[tuple[str, str], DerivedQuantity]
    provisions: Mapping[str, Provision]
    sizes: Mapping[str, Any]
    tables: Mapping[str, CitedTable]
    sources: Mapping[str, Any]
    editions: Mapping[str, tuple[Edition, ...]]


def stored(identity: str, packs: Sequence[PackFiles]) -> Linked | None:
    """Return the rulebook that is stored under an identity.

    Args:
        identity: The identity of the packs.
        packs: The packs, whose files are read where someone asks for a place in them.

    Returns:
        The rulebook; None if there is none.
    """
    content = kept(_name(identity)) if identity else None
    return None if content is None else _Entry(marshal.loads(content), packs).linked()


def store(identity: str, linked: Linked, packs: Sequence[PackFiles]) -> bool:
    """Store a rulebook, if there is anywhere to store it.

    Args:
        identity: The identity of the packs.
        linked: The rulebook.
        packs: The packs.

    Returns:
        Whether it is stored now.
    """
    if not identity or not can_keep():
        return False
    return keep(_name(identity), marshal.dumps(_written(linked, packs)))


def kept_work(identity: str, name: str, make: Callable[[], _Work]) -> _Work:
    """Return what was made of a whole rulebook: as it is kept, or made and kept for the next run.

    Args:
        identity: The identity of the packs; empty if nothing is to be kept.
        name: What it is called.
        make: Makes it, of plain data and code.
    """
    full = f"{_name(identity)}.{name}"
    content = kept(full) if identity else None
    if content is not None:
        found: _Work = marshal.loads(content)
        return found
    work = make()
    if identity:
        keep(full, marshal.dumps(work))  # type: ignore[arg-type]
    return work


def _name(identity: str) -> str:
    return f"rulebook-{identity}"


# -- writing ------------------------------------------------------------------------------------


def _written(linked: Linked, packs: Sequence[PackFiles]) -> dict[str, Any]:
    writer = Writer()
    places = {
        pack.path(inside): (at, inside) for at, pack in enumerate(packs) for inside in pack.contents
    }

    def place(one: Any) -> tuple[int, str]:
        return places[one.source.file.name]

    def record(one: Late) -> tuple[Any, ...]:
        kind = type(one)
        return (
            place(one),
            [writer.plain(getattr(one, name)) for name in _FIRST[kind]],
            [
                marshal.dumps([writer.plain(getattr(one, name)) for name in group])
                for group in _LATER[kind]
            ],
            [marshal.dumps(getattr(one, name).__code__) for name in _FUNCTIONS[kind]],
        )

    def table(one: CitedTable) -> tuple[Any, ...]:
        cells = (one.table, one.citations, one.edition_of, one.holds_from, one.holds_until)
        return place(one), marshal.dumps(writer.plain(cells))

    return {
        "digest": linked.digest,
        "rules": {name: record(one) for name, one in linked.rules.items()},
        "quantities": {key: record(one) for key, one in linked.quantities.items()},
        "provisions": {name: record(one) for name, one in linked.provisions.items()},
        "tables": {name: table(one) for name, one in linked.tables.items()},
        "editions": {
            whole: [one.called for one in several] for whole, several in linked.editions.items()
        },
        "sizes": marshal.dumps(writer.plain(dict(linked.sizes))),
        "sources": marshal.dumps(writer.plain(dict(linked.sources))),
        "shared": writer.shared,  # last, as all others add to it
    }


# -- reading ------------------------------------------------------------------------------------


class _Entry:
    """An entry of the store, whose parts are read as they are asked for."""

    def __init__(self, entry: Mapping[str, Any], packs: Sequence[PackFiles]) -> None:
        self._entry = entry
        self._packs = packs
        self._reader = Reader(entry["shared"])

    def linked(self) -> Linked:
        entry = self._entry
        tables = LateItems(entry["tables"], self._table)
        return Linked(
            digest=entry["digest"],
            rules=self._all("rules", Rule),
            quantities=self._all("quantities", DerivedQuantity),
            provisions=self._all("provisions", Provision),
            sizes=LateWhole(lambda: self._read(entry["sizes"])),
            tables=tables,
            sources=LateWhole(lambda: self._read(entry["sources"])),
            editions=LateItems(
                entry["editions"],
                lambda whole: tuple(
                    edition_of(whole, name, tables[name]) for name in entry["editions"][whole]
                ),
            ),
        )

    def _all(self, group: str, kind: type[_Late]) -> Mapping[Any, _Late]:
        records = self._entry[group]
        return LateItems(records, lambda key: self._record(kind, records[key]))

    def _record(self, kind: type[_Late], record: tuple[Any, ...]) -> _Late:
        place, first, later, codes = record

        def attribute(name: str) -> Mapping[str, Any]:
            if name in _FUNCTIONS[kind]:
                code = marshal.loads(codes[_FUNCTIONS[kind].index(name)])
                return {name: function_from(code)}
            for at, group in enumerate(_LATER[kind]):
                if name in group:
                    return dict(zip(group, self._values(marshal.loads(later[at])), strict=True))
            return {"source": self._source(place)} if name == "source" else {}

        return kind.of_stored(dict(zip(_FIRST[kind], self._values(first), strict=True)), attribute)

    def _table(self, name: str) -> CitedTable:
        place, cells = self._entry["tables"][name]
        table, citations, *edition = self._read(cells)
        return CitedTable(table, citations, self._source(place), *edition)

    def _source(self, place: tuple[int, str]) -> RuleSource:
        at, inside = place
        return RuleSource.later(lambda: self._packs[at].source(inside).file)

    def _read(self, content: bytes) -> Any:
        return self._reader.value(marshal.loads(content))

    def _values(self, plain: Sequence[Any]) -> list[Any]:
        return [self._reader.value(one) for one in plain]
