"""What packs come to once they are linked."""

from __future__ import annotations

from collections.abc import Mapping

from tundish.groundwork.dataclass import dataclass
from tundish.rulebook.model.cited_table import CitedTable
from tundish.rulebook.model.constraint import Constraint
from tundish.rulebook.model.editions import Edition
from tundish.rulebook.model.provision import Provision
from tundish.rulebook.model.rule import DerivedQuantity, Rule
from tundish.rulebook.model.sizes import Sizes
from tundish.rulebook.model.source import Source


@dataclass(frozen=True, slots=True)
class Linked:
    """All that packs hold, checked together: what linking gives, and what the cache gives back.

    Attributes:
        digest: SHA-256 over all files, in the order of the packs.
        rules: Rules by name, sorted.
        quantities: Quantities by (path of the list they belong to or "", name).
        provisions: Provisions by name, sorted.
        constraints: Constraints by name, sorted.
        sizes: Practical sizes, by path of the fact.
        tables: Tables by name.
        sources: The bibliography.
        editions: Editions of tables that have several, by name of the table.
    """

    digest: str
    rules: Mapping[str, Rule]
    quantities: Mapping[tuple[str, str], DerivedQuantity]
    provisions: Mapping[str, Provision]
    constraints: Mapping[str, Constraint]
    sizes: Mapping[str, Sizes]
    tables: Mapping[str, CitedTable]
    sources: Mapping[str, Source]
    editions: Mapping[str, tuple[Edition, ...]]
