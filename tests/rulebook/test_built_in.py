"""The rules that travel with the program: each is proved, cited and shown from both sides."""

import re
from collections import Counter

from tundish.language.tree.tree import Node, children
from tundish.rulebook.forms.unit_sheet import sheet_sections
from tundish.rulebook.prove.prove import prove
from tundish.rulebook.rulebook import Rulebook
from tundish.units.unit import KNOWN

BOOK = Rulebook.built_in()
RULES = sorted(BOOK.rules)
QUANTITIES = sorted(BOOK.quantities)
PARTS = sorted(BOOK.provisions)


def test_everything_stands_up_to_its_cases() -> None:
    proofs = {(proof.kind, proof.name): proof for proof in prove(BOOK)}
    failures = [
        f"{kind} {name}: {failure.place}: {failure.why}: {failure.sentence}"
        for (kind, name), proof in proofs.items()
        for failure in proof.failures
    ]
    assert not failures, "\n".join(failures)
    proved = Counter({key: proof.cases for key, proof in proofs.items()})
    assert proved == Counter(
        {("rule", name): len(rule.cases) for name, rule in BOOK.rules.items()}
        | {("quantity", key[1]): len(each.cases) for key, each in BOOK.quantities.items()}
        | {("constraint", name): len(each.cases) for name, each in BOOK.constraints.items()}
        | {("part", name): len(part.cases) for name, part in BOOK.provisions.items()}
    )


def test_each_rule_is_shown_met_breached_and_undecided() -> None:
    shown = {name: {case.outcome for case in rule.cases} for name, rule in BOOK.rules.items()}
    wanted = {"met", "breached", "undecided"}
    assert not {name: wanted - outcomes for name, outcomes in shown.items() if wanted - outcomes}


def test_each_quantity_and_part_has_cases() -> None:
    without = [key for key, quantity in BOOK.quantities.items() if not quantity.cases]
    assert not without + [name for name, part in BOOK.provisions.items() if not part.cases]


def test_everything_says_on_whose_authority_why_and_what_mends_it() -> None:
    sources = set(BOOK.sources.values())
    holders = (*BOOK.rules.values(), *BOOK.provisions.values())
    sentences = [(holder.name, holder.because) for holder in holders]
    for holder in holders:
        assert {citation.source for citation in holder.citations} <= sources, holder.name
    for rule in BOOK.rules.values():
        assert rule.citations, rule.name
        assert re.fullmatch(r"[a-z0-9-]+/[a-z0-9-]+", rule.name)
        sentences.append((rule.name, rule.remedy))
    for name, sentence in sentences:
        assert sentence[0] == sentence[0].upper() and sentence.endswith("."), (name, sentence)


def test_common_practice_names_no_clause() -> None:
    assert not [
        (rule.name, citation.at)
        for rule in BOOK.rules.values()
        for citation in rule.citations
        if citation.source.basis == "common practice" and re.search(r"[0-9]+\.[0-9]", citation.at)
    ]


def test_former_names_are_those_of_no_other_rule() -> None:
    former = [name for rule in BOOK.rules.values() for name in rule.former_names]
    assert len(set(former)) == len(former)
    assert not set(former) & set(RULES)


def nodes(root: Node) -> list[Node]:
    return [root, *(inner for part in children(root) for inner in nodes(part))]


def test_every_quantity_and_table_is_used() -> None:
    roots = [quantity.formula.root for quantity in BOOK.quantities.values()]
    for rule in BOOK.rules.values():
        said = [part for part in rule.breach if not isinstance(part, str)]
        roots += [rule.applies, rule.requires, *said]
    for part in BOOK.provisions.values():
        roots += [part.needed, part.with_unit, part.number]
    found = [node for root in roots for node in nodes(root)]
    derived = {getattr(node, "name", "") for node in found if type(node).__name__ == "Derived"}
    looked_up = {getattr(node, "table", "") for node in found if type(node).__name__ == "Lookup"}
    reported = {quantity.name for quantity in BOOK.quantities.values() if quantity.report}
    assert {name for _, name in BOOK.quantities} <= derived | reported
    assert set(BOOK.tables) <= looked_up


def test_every_source_is_cited() -> None:
    cited = {
        citation.source.name
        for group in (BOOK.rules, BOOK.quantities, BOOK.tables, BOOK.provisions, BOOK.sizes)
        for holder in group.values()
        for citation in holder.citations
    }
    # The order of a unit sheet is no part of the rulebook, but cites the same bibliography.
    cited |= {part.source.name for section in sheet_sections() for part in section.citations}
    assert cited == set(BOOK.sources)


def test_no_name_of_the_rulebook_reads_as_a_unit() -> None:
    # "6 m/a" would be metres a year.
    words = [symbol for symbol in KNOWN if symbol.isalpha()]
    assert words and not [word for word in words if BOOK.scope.is_taken(word)]


ELECTRICAL = (
    "cable-sizing",
    "control-wiring",
    "isolation",
    "outdoor-cables",
    "protection",
    "residual-current",
    "supply-capacity",
    "supply-circuits",
    "surge-and-earthing",
    "test-schedule",
)


def test_an_electrical_danger_is_left_to_a_licensed_electrician() -> None:
    dangers = [
        rule
        for rule in BOOK.rules.values()
        if rule.severity == "danger" and rule.topic in ELECTRICAL
    ]
    for rule in dangers:
        assert "licensed electrician" in rule.remedy, rule.name
        assert "solate" in rule.remedy, rule.name
    assert {rule.topic for rule in dangers} <= set(ELECTRICAL) and dangers
