"""Linking packs: all that stands in their files, checked together."""

from __future__ import annotations

import hashlib
from collections.abc import Mapping

from tundish.language.scope import Meaning, Scope
from tundish.reading.problem import Refused
from tundish.rulebook.bibliography import read_sources
from tundish.rulebook.declared import Declared, meanings_with
from tundish.rulebook.declaring import declared_facts
from tundish.rulebook.editions import link_editions
from tundish.rulebook.faults import Faults
from tundish.rulebook.linking import Linker
from tundish.rulebook.linking_packs import link_quantities, link_rules, link_tables
from tundish.rulebook.linking_provisions import link_provisions
from tundish.rulebook.linking_sizes import link_sizes
from tundish.rulebook.order import dependence_problems
from tundish.rulebook.pack import Pack
from tundish.rulebook.records import Linked


def link(packs: list[Pack]) -> tuple[Linked, Mapping[str, Declared]]:
    """Link packs.

    Args:
        packs: The packs, later ones on top.

    Returns:
        What they come to, and the facts that they declare.

    Raises:
        Refused: If anything does not fit; carries every problem found.
    """
    problems = Faults()
    sources = read_sources(packs, problems)
    tables = link_tables(packs, sources, problems)
    editions = link_editions(tables, problems)
    plain = {name: cited.table for name, cited in tables.items()}
    meanings: dict[tuple[str, str], Meaning] = {}
    declared = declared_facts([pack.facts for pack in packs], problems)
    # The quantities are declared just below.
    linker = Linker(
        Scope(meanings_with(declared), meanings, plain, problems.words), sources, problems
    )
    quantities = link_quantities(packs, linker, meanings)
    rules = link_rules(packs, linker)
    provisions = link_provisions(packs, linker)
    sizes = link_sizes(packs, linker.scope, sources, problems)
    problems.extend(dependence_problems(quantities, rules.values()))
    if problems:
        raise Refused(problems)
    digest = hashlib.sha256("".join(pack.digest for pack in packs).encode()).hexdigest()
    ordered = {name: rules[name] for name in sorted(rules)}
    linked = Linked(digest, ordered, quantities, provisions, sizes, tables, sources, editions)
    return linked, declared
