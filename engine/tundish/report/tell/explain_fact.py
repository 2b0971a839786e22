"""Explaining a fact, a group or a list: what it is, how it is written, and all that reads it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from tundish.job.hints import is_pipe_size
from tundish.job.job import Job
from tundish.job.model.schema import Asked, Items, Record
from tundish.job.parts.heading import COMPLETE_LISTS, OPEN_LISTS
from tundish.report.page.line import GAP, Line, items, section
from tundish.report.tell.dependencies import used_quantities
from tundish.report.tell.fact_phrases import kind_words
from tundish.report.tell.facts import about_fact
from tundish.report.tell.phrases import listed
from tundish.rulebook.model.provision import Provision
from tundish.rulebook.model.rule import DerivedQuantity, Rule
from tundish.rulebook.rulebook import Rulebook
from tundish.rulebook.search.readers import Reader, Readers


def fact_lines(asked: Asked, rulebook: Rulebook, readers: Readers) -> Iterator[Line]:
    """Give all that is known of a fact, a group or a list of a job.

    Args:
        asked: The fact, group or list.
        rulebook: The facts that packs declare, and the quantities of rules.
        readers: What reads which fact.
    """
    yield Line("heading", asked.label[:1].upper() + asked.label[1:])
    yield Line("under", f"{_sort(asked)} {asked.path}")
    yield GAP
    yield from about_fact(asked, rulebook)
    yield from _fields(asked)
    yield from _constraints(asked, rulebook)
    rules, quantities = readers.rules_of(asked.path), readers.quantities_of(asked.path)
    parts = readers.parts_of(asked.path)
    yield from (GAP, Line("section", "rules that read it"))
    if not rules:
        yield Line("words", _WITHOUT_RULES.get(asked.path, "No rule reads it."))
    yield from _rules(rules, quantities, rulebook)
    yield from _quantities(quantities)
    yield from _parts(parts)


_WITHOUT_RULES = dict.fromkeys(
    (COMPLETE_LISTS, OPEN_LISTS),
    "It says of lists whether they are all there is, for every rule that looks through one.",
)
"""What is said of facts that no rule names, but that many hang on."""


def _sort(asked: Asked) -> str:
    if isinstance(asked, Items):
        return "list"
    return "table" if isinstance(asked, Record) and not is_pipe_size(asked) else "fact"


def _fields(asked: Asked) -> Iterator[Line]:
    """Give what stands in a group or in one item of a list."""
    record = asked.item if isinstance(asked, Items) else asked
    if not isinstance(record, Record):
        return
    name = "what conditions read of it" if is_pipe_size(record) else "what stands in it"
    yield from (GAP, Line("section", name))
    for entry in record.fields.values():
        key = entry.path.rpartition(".")[2]
        kind = kind_words(entry, Job.kind_at(entry.path))
        text = f"{key}: {entry.label}"
        yield Line("item", text if is_pipe_size(record) else f"{text}, {kind}")


def _constraints(asked: Asked, rulebook: Rulebook) -> Iterator[Line]:
    """Give what the fact can only be beside others."""
    bound = rulebook.contradictions.constraints_on(asked.path)
    texts = (
        f"{' '.join(constraint.written['requires'].split())}  ({constraint.name}): "
        f"{constraint.because}"
        for constraint in bound
    )
    return section("what it can only be", items(texts))


def _rules(
    rules: Iterable[Reader[Rule]],
    quantities: Iterable[Reader[DerivedQuantity]],
    rulebook: Rulebook,
) -> Iterator[Line]:
    through = {id(quantity.definition) for quantity in quantities}
    for reader in rules:
        rule, way = reader.definition, ""
        if not reader.directly:
            used = [
                quantity.name
                for quantity in used_quantities(rule, rulebook)
                if id(quantity) in through
            ]
            way = f", through {listed(used[:2])}" if used else ""
        yield Line("finding", f"{rule.title}  ({rule.name}{way})", severity=rule.severity)


def _quantities(quantities: list[Reader[DerivedQuantity]]) -> Iterator[Line]:
    texts = []
    for reader in quantities:
        way = "" if reader.directly else ", through another"
        texts.append(f"{reader.definition.label}  ({reader.definition.name}{way})")
    return section("quantities that read it", items(texts))


def _parts(parts: list[Reader[Provision]]) -> Iterator[Line]:
    texts = (f"{reader.definition.part}  ({key_of(reader.definition)})" for reader in parts)
    return section("parts of the order list that read it", items(texts))


def key_of(part: Provision) -> str:
    """Return the key under which a part stands in its file."""
    return part.name.replace(" ", "-")
