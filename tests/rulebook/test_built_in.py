"""The rules that travel with the program: each is proved, cited and shown from both sides."""

import re
from functools import cache

import pytest

from tundish.language.tree.tree import Node, children
from tundish.rulebook.forms.unit_sheet import sheet_sections
from tundish.rulebook.model.rule import Rule
from tundish.rulebook.prove.prove import Proof, prove
from tundish.rulebook.rulebook import Rulebook
from tundish.units.unit import KNOWN

BOOK = Rulebook.built_in()
RULES = sorted(BOOK.rules)
QUANTITIES = sorted(BOOK.quantities)
PARTS = sorted(BOOK.provisions)


@cache
def proofs() -> dict[tuple[str, str], Proof]:
    return {(proof.kind, proof.name): proof for proof in prove(BOOK)}


def told(proof: Proof) -> str:
    return "\n".join(f"{each.place}: {each.why}: {each.sentence}" for each in proof.failures)


def test_there_are_rules() -> None:
    assert RULES and QUANTITIES and BOOK.sources


@pytest.mark.parametrize("name", RULES)
def test_a_rule_stands_up_to_its_cases(name: str) -> None:
    proof = proofs()["rule", name]
    assert not proof.failures, told(proof)
    assert proof.cases == len(BOOK.rules[name].cases)


@pytest.mark.parametrize("key", QUANTITIES, ids="-".join)
def test_a_quantity_stands_up_to_its_cases(key: tuple[str, str]) -> None:
    proof = proofs()["quantity", key[1]]
    assert not proof.failures, told(proof)
    assert proof.cases == len(BOOK.quantities[key].cases) > 0


@pytest.mark.parametrize("name", PARTS)
def test_a_part_to_be_ordered_stands_up_to_its_cases(name: str) -> None:
    proof = proofs()["part", name]
    assert not proof.failures, told(proof)
    part = BOOK.provisions[name]
    assert part.because.endswith(".")
    assert all(citation.source in BOOK.sources.values() for citation in part.citations)


@pytest.mark.parametrize("name", RULES)
def test_a_rule_is_shown_met_breached_and_undecided(name: str) -> None:
    outcomes = {case.outcome for case in BOOK.rules[name].cases}
    assert {"met", "breached", "undecided"} <= outcomes


@pytest.mark.parametrize("name", RULES)
def test_a_rule_says_on_whose_authority_why_and_what_mends_it(name: str) -> None:
    rule = BOOK.rules[name]
    assert rule.citations
    assert all(citation.source in BOOK.sources.values() for citation in rule.citations)
    for sentence in (rule.because, rule.remedy):
        assert sentence[0] == sentence[0].upper() and sentence.endswith("."), sentence
    assert re.fullmatch(r"[a-z0-9-]+/[a-z0-9-]+", rule.name)


@pytest.mark.parametrize("name", RULES)
def test_common_practice_names_no_clause(name: str) -> None:
    for citation in BOOK.rules[name].citations:
        if citation.source.basis == "common practice":
            assert not re.search(r"[0-9]+\.[0-9]", citation.at), citation


def test_former_names_are_those_of_no_other_rule() -> None:
    former = [name for rule in BOOK.rules.values() for name in rule.formerly]
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


@pytest.mark.parametrize("word", [symbol for symbol in KNOWN if symbol.isalpha()])
def test_no_name_of_the_rulebook_reads_as_a_unit(word: str) -> None:
    # "6 m/a" would be metres a year.
    assert not BOOK.scope.is_taken(word)


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


@pytest.mark.parametrize(
    "rule",
    [
        rule
        for rule in BOOK.rules.values()
        if rule.severity == "danger" and rule.topic in ELECTRICAL
    ],
    ids=lambda rule: rule.name,
)
def test_an_electrical_danger_is_left_to_a_licensed_electrician(rule: Rule) -> None:
    assert "licensed electrician" in rule.remedy
    assert "solate" in rule.remedy
