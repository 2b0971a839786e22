"""A linked rulebook as plain data and code, and back again, each rule when it is asked for.

What every finding needs of a rule is read at once. Its trees and citations are bytes that are read
when first used. Cases and code are parts of their own, as most commands need neither: where the
code is gone, the trees are compiled again; where the cases are gone, the packs are linked again.
"""

from __future__ import annotations

import marshal
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import fields
from functools import cached_property
from typing import Any, TypeVar

from tundish.groundwork.lazy import LazyItems, LazyMapping
from tundish.language.evaluate.compiled import function_from
from tundish.rulebook.cache.plain_data import Reader, Writer
from tundish.rulebook.files.pack import PackFiles
from tundish.rulebook.model.cited_table import CitedTable
from tundish.rulebook.model.constraint import Constraint
from tundish.rulebook.model.definition import Definition
from tundish.rulebook.model.editions import edition_of
from tundish.rulebook.model.linked import Linked
from tundish.rulebook.model.provision import Provision
from tundish.rulebook.model.rule import DerivedQuantity, Rule
from tundish.rulebook.model.rule_file import RuleFile

_Defined = TypeVar("_Defined", bound=Definition)
Part = Callable[[str], bytes | None]
"""Gives a part of a stored rulebook by its name: entry, codes or proofs."""

_MARSHAL_VERSION = 4
"""The version of marshal whose plain data every Python reads alike."""

_LAZY_GROUPS: dict[type[Definition], tuple[tuple[str, ...], ...]] = {
    Rule: (("applies", "requires", "asked_where", "breach"), ("citations",)),
    DerivedQuantity: (("formula",), ("citations",)),
    Provision: (("needed", "with_unit", "number", "asked_where"), ("citations",)),
    Constraint: (("applies", "requires", "asked_where"), ("citations",)),
}
"""Fields that are read when first used, in groups that are used together."""

_PROOF: dict[type[Definition], tuple[str, ...]] = {
    Rule: ("cases", "unnoticed", "written"),
    DerivedQuantity: ("cases", "unnoticed"),
    Provision: ("cases", "unnoticed", "written"),
    Constraint: ("cases", "unnoticed", "written"),
}
"""Fields that only proving and explaining use."""

_FUNCTIONS = {
    kind: tuple(field.name for field in fields(kind) if not field.init) for kind in _LAZY_GROUPS
}
_FIRST = {
    kind: tuple(
        field.name
        for field in fields(kind)
        if field.init
        and field.name not in ("source", *_PROOF[kind])
        and not any(field.name in group for group in groups)
    )
    for kind, groups in _LAZY_GROUPS.items()
}


# -- writing ------------------------------------------------------------------------------------


def parts_of(linked: Linked, packs: Sequence[PackFiles]) -> Iterator[tuple[str, bytes]]:
    """Give the parts of a stored rulebook by name, the entry last."""
    writer = Writer()
    places = {
        pack.path(inside): (at, inside) for at, pack in enumerate(packs) for inside in pack.contents
    }
    proofs: list[bytes] = []
    codes: list[list[bytes]] = []

    def group(definition: Definition, names: Iterable[str]) -> bytes:
        return marshal.dumps([writer.plain(getattr(definition, name)) for name in names])

    def record(definition: Any) -> tuple[Any, ...]:
        kind = type(definition)
        proofs.append(group(definition, _PROOF[kind]))
        codes.append(
            [marshal.dumps(getattr(definition, name).__code__) for name in _FUNCTIONS[kind]]
        )
        return (
            len(codes) - 1,
            places[definition.source.file.name],
            [writer.plain(getattr(definition, name)) for name in _FIRST[kind]],
            [group(definition, names) for names in _LAZY_GROUPS[kind]],
        )

    def table(cited: CitedTable) -> tuple[Any, ...]:
        edition = (cited.edition_of, cited.holds_from, cited.holds_until)
        cells = (cited.table, cited.citations, *edition)
        return places[cited.source.file.name], marshal.dumps(writer.plain(cells))

    entry = {
        "digest": linked.digest,
        "rules": {name: record(rule) for name, rule in linked.rules.items()},
        "quantities": {key: record(quantity) for key, quantity in linked.quantities.items()},
        "provisions": {name: record(provision) for name, provision in linked.provisions.items()},
        "constraints": {name: record(each) for name, each in linked.constraints.items()},
        "tables": {name: table(cited) for name, cited in linked.tables.items()},
        "editions": {
            whole: [edition.called for edition in editions]
            for whole, editions in linked.editions.items()
        },
        "sizes": marshal.dumps(writer.plain(dict(linked.sizes))),
        "sources": marshal.dumps(writer.plain(dict(linked.sources))),
        "shared": writer.shared,  # last, as all others add to it
    }
    for name, part in (("codes", codes), ("proofs", proofs), ("entry", entry)):
        yield name, marshal.dumps(part, _MARSHAL_VERSION)


# -- reading ------------------------------------------------------------------------------------


class Entry:
    """An entry of the store, whose parts are read as they are asked for."""

    def __init__(
        self,
        entry: Mapping[str, Any],
        part: Part,
        packs: Sequence[PackFiles],
        relink: Callable[[], Linked],
    ) -> None:
        self._relink = relink
        self._entry = entry
        self._part = part
        self._packs = packs
        self._reader = Reader(entry["shared"])

    @cached_property
    def _codes(self) -> list[list[bytes]] | None:
        content = self._part("codes")
        return None if content is None else marshal.loads(content)

    @cached_property
    def _proofs(self) -> list[bytes] | None:
        content = self._part("proofs")
        return None if content is None else marshal.loads(content)

    @cached_property
    def _relinked(self) -> Linked:
        return self._relink()

    def linked(self) -> Linked:
        """Return the rulebook."""
        entry = self._entry
        tables = LazyItems(entry["tables"], self._table)
        return Linked(
            digest=entry["digest"],
            rules=self._all("rules", Rule),
            quantities=self._all("quantities", DerivedQuantity),
            provisions=self._all("provisions", Provision),
            constraints=self._all("constraints", Constraint),
            sizes=LazyMapping(lambda: self._read(entry["sizes"])),
            tables=tables,
            sources=LazyMapping(lambda: self._read(entry["sources"])),
            editions=LazyItems(
                entry["editions"],
                lambda whole: tuple(
                    edition_of(whole, name, tables[name]) for name in entry["editions"][whole]
                ),
            ),
        )

    def _all(self, group: str, kind: type[_Defined]) -> Mapping[Any, _Defined]:
        records = self._entry[group]

        def restored(key: Any) -> _Defined:
            number, place, first, groups = records[key]

            def attribute(name: str) -> Mapping[str, Any]:
                if name in _FUNCTIONS[kind]:
                    return self._function(name, number, kind)
                if name in _PROOF[kind]:
                    return self._proof(number, kind, group, key)
                for names, content in zip(_LAZY_GROUPS[kind], groups, strict=True):
                    if name in names:
                        return self._named(names, marshal.loads(content))
                return {"source": self._source(place)} if name == "source" else {}

            return kind.of_stored(self._named(_FIRST[kind], first), attribute)

        return LazyItems(records, restored)

    def _function(self, name: str, number: int, kind: type[Definition]) -> Mapping[str, Any]:
        if self._codes is None:
            return {}  # it is compiled where it is asked for
        code = marshal.loads(self._codes[number][_FUNCTIONS[kind].index(name)])
        return {name: function_from(code)}

    def _proof(
        self, number: int, kind: type[Definition], group: str, key: Any
    ) -> Mapping[str, Any]:
        if self._proofs is None:
            definition = getattr(self._relinked, group)[key]
            return {name: getattr(definition, name) for name in _PROOF[kind]}
        return self._named(_PROOF[kind], marshal.loads(self._proofs[number]))

    def _named(self, names: Sequence[str], plain: Sequence[Any]) -> dict[str, Any]:
        return dict(zip(names, map(self._reader.value, plain), strict=True))

    def _table(self, name: str) -> CitedTable:
        place, cells = self._entry["tables"][name]
        table, citations, *edition = self._read(cells)
        return CitedTable(table, citations, self._source(place), *edition)

    def _source(self, place: tuple[int, str]) -> RuleFile:
        at, inside = place
        return RuleFile.deferred(lambda: self._packs[at].source(inside).file)

    def _read(self, content: bytes) -> Any:
        return self._reader.value(marshal.loads(content))
