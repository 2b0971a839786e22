"""Linking packs: all that stands in their files, checked together."""

from __future__ import annotations

import hashlib
from collections.abc import Mapping

from tundish.language.check.scope import Meaning, Scope
from tundish.rulebook.files.facts_file import declared_facts
from tundish.rulebook.files.faults import Faults
from tundish.rulebook.files.pack import Pack
from tundish.rulebook.files.sources_file import read_sources
from tundish.rulebook.link.constraints import link_constraints
from tundish.rulebook.link.dependencies import dependence_problems
from tundish.rulebook.link.expressions import Linker
from tundish.rulebook.link.provisions import link_provisions
from tundish.rulebook.link.quantities import link_quantities
from tundish.rulebook.link.rules import link_rules
from tundish.rulebook.link.sizes import link_sizes
from tundish.rulebook.link.tables import link_editions, link_tables
from tundish.rulebook.model.declared_facts import Declared, meanings_with
from tundish.rulebook.model.linked import Linked
from tundish.text.problem import Refused


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
        Scope(meanings_with(declared), meanings, plain, problems.refused_names), sources, problems
    )
    quantities = link_quantities(packs, linker, meanings)
    rules = link_rules(packs, linker)
    provisions = link_provisions(packs, linker)
    constraints = link_constraints(packs, linker)
    sizes = link_sizes(packs, linker.scope, sources, problems)
    problems.extend(dependence_problems(quantities, rules.values()))
    if problems:
        raise Refused(problems)
    digest = hashlib.sha256("".join(pack.digest for pack in packs).encode()).hexdigest()
    ordered = {name: rules[name] for name in sorted(rules)}
    linked = Linked(
        digest, ordered, quantities, provisions, constraints, sizes, tables, sources, editions
    )
    return linked, declared
