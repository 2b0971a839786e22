"""Explaining a part of the order list: when it is needed, how many, from whom, and why."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.report.page.line import GAP, Line, entries, items, section
from tundish.report.tell.citations import citation_lines
from tundish.report.tell.explain import fact_name
from tundish.report.tell.explain_fact import key_of
from tundish.report.tell.phrases import day
from tundish.rulebook.link.facts_read import facts_read, quantities_read
from tundish.rulebook.model.definition import Case
from tundish.rulebook.model.provision import Provision
from tundish.rulebook.rulebook import Rulebook


def part_lines(part: Provision, rulebook: Rulebook) -> Iterator[Line]:
    """Give all that a part says and rests on.

    Args:
        part: The part.
        rulebook: The quantities that it uses.
    """
    yield Line("heading", part.part[:1].upper() + part.part[1:])
    yield Line("under", f"part {key_of(part)} of the order list, topic {part.topic}")
    yield GAP
    yield Line("entry", part.because, "why")
    if part.written["needed"].strip() == "true":
        yield Line("entry", "always, where the amount is above zero", "needed")
    else:
        yield Line("code", part.written["needed"], "needed if")
    if part.written["with_unit"].strip() != "false":
        yield Line("code", part.written["with_unit"], "in the box if")
    unit = "" if part.unit.symbol == "1" else f"  in {part.unit}"
    yield Line("code", f"{part.written['number']}{unit}", "how many")
    yield Line("entry", part.supplier, "from")
    yield Line("entry", f"in {part.region}" if part.region else "everywhere", "where")
    yield from entries("ordered as", list(part.names))
    yield from citation_lines(part.citations)
    yield Line("entry", day(part.reviewed), "last read")
    yield from _uses(part, rulebook)
    yield from section("cases that prove it", items(map(_case, part.cases)))


def _uses(part: Provision, rulebook: Rulebook) -> Iterator[Line]:
    quantities = [rulebook.quantities[key] for key in sorted(quantities_read(part))]
    texts = (f"{quantity.label}  ({quantity.name})" for quantity in quantities)
    yield from section("quantities it uses", items(texts))
    paths = sorted(facts_read(part, rulebook.quantities))
    facts = (fact_name(path, rulebook) for path in paths)
    yield from section("facts of the job it looks at", items(facts))


def _case(case: Case) -> str:
    number = f", {case.value}" if case.value else ""
    return f"{case.outcome}{number}: {case.why}"
