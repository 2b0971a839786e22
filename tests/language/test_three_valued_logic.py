"""Kleene's tables in full: every pair of true, false and unknown, in both evaluations."""

from itertools import product

import pytest

from language.world import check, computed, explained, world

Truth = bool | None
TRUTHS: tuple[Truth, ...] = (True, False, None)
SAID = {True: "true", False: "false", None: "unknown"}
RANK = {False: 0, None: 1, True: 2}


def decide(expression: str, **facts: Truth) -> Truth:
    known = world({name: value for name, value in facts.items() if value is not None})
    node = check(expression)
    value = explained(node, known).value
    assert computed(node, known) == value
    assert value is None or isinstance(value, bool)
    return value


@pytest.mark.parametrize("value", TRUTHS, ids=SAID.get)
def test_not_turns_truth_round_and_leaves_unknown(value: Truth) -> None:
    assert decide("not f", f=value) is {True: False, False: True, None: None}[value]


@pytest.mark.parametrize(("f", "g"), list(product(TRUTHS, TRUTHS)))
def test_and_is_the_lesser_truth(f: Truth, g: Truth) -> None:
    assert decide("f and g", f=f, g=g) is min((f, g), key=lambda truth: RANK[truth])


@pytest.mark.parametrize(("f", "g"), list(product(TRUTHS, TRUTHS)))
def test_or_is_the_greater_truth(f: Truth, g: Truth) -> None:
    assert decide("f or g", f=f, g=g) is max((f, g), key=lambda truth: RANK[truth])


@pytest.mark.parametrize(("f", "g"), list(product(TRUTHS, TRUTHS)))
def test_equality_is_unknown_where_a_side_is(f: Truth, g: Truth) -> None:
    expected = None if f is None or g is None else f is g
    assert decide("f == g", f=f, g=g) is expected
    assert decide("f != g", f=f, g=g) is (None if expected is None else not expected)


@pytest.mark.parametrize(("f", "g", "h"), list(product(TRUTHS, TRUTHS, TRUTHS)))
def test_three_in_a_row_are_two_and_one(f: Truth, g: Truth, h: Truth) -> None:
    for word in ("and", "or"):
        whole = decide(f"f {word} g {word} h", f=f, g=g, h=h)
        assert whole is decide(f"(f {word} g) {word} h", f=f, g=g, h=h)
        assert whole is decide(f"f {word} (g {word} h)", f=f, g=g, h=h)


@pytest.mark.parametrize(("f", "g", "h"), list(product(TRUTHS, TRUTHS, TRUTHS)))
def test_a_choice_is_the_branch_taken_or_what_both_agree_on(f: Truth, g: Truth, h: Truth) -> None:
    expected = (g if g is h else None) if f is None else g if f else h
    assert decide("if f then g else h", f=f, g=g, h=h) is expected


@pytest.mark.parametrize(("f", "g"), list(product(TRUTHS, TRUTHS)))
def test_de_morgan_holds_with_unknowns(f: Truth, g: Truth) -> None:
    assert decide("not (f and g)", f=f, g=g) is decide("not f or not g", f=f, g=g)
    assert decide("not (f or g)", f=f, g=g) is decide("not f and not g", f=f, g=g)


def test_unknown_and_false_is_false() -> None:
    assert decide("f and g", g=False) is False


def test_true_or_unknown_is_true() -> None:
    assert decide("f or g", f=True) is True
    assert decide("f or g", g=True) is True


@pytest.mark.parametrize("word", ["all", "any"])
@pytest.mark.parametrize("first", TRUTHS, ids=SAID.get)
@pytest.mark.parametrize("second", TRUTHS, ids=SAID.get)
def test_a_loop_over_conditions_is_its_conditions_joined(
    word: str, first: Truth, second: Truth
) -> None:
    rows = [{} if truth is None else {"open": truth} for truth in (first, second)]
    facts = world({"water.run": rows})
    node = check(f"{word}(run.open for run in water.run)")
    joint = {"all": "and", "any": "or"}[word]
    expected = decide(f"f {joint} g", f=first, g=second)
    assert explained(node, facts).value is expected
    assert computed(node, facts) is expected


COPPER = {True: {"kind": "copper"}, False: {"kind": "steel"}, None: {}}


@pytest.mark.parametrize(("counts", "term"), list(product(TRUTHS, TRUTHS)))
def test_a_filtered_loop_is_an_implication(counts: Truth, term: Truth) -> None:
    row = COPPER[counts] | ({} if term is None else {"open": term})
    facts = world({"water.run": [row]})
    for word, implied in (("all", "not f or g"), ("any", "f and g")):
        node = check(f"{word}(run.open for run in water.run if run.kind == 'copper')")
        expected = decide(implied, f=counts, g=term)
        assert explained(node, facts).value is expected
        assert computed(node, facts) is expected


@pytest.mark.parametrize(("counts", "term"), list(product(TRUTHS, TRUTHS)))
def test_count_is_known_where_nothing_unknown_could_change_it(counts: Truth, term: Truth) -> None:
    row = COPPER[counts] | ({} if term is None else {"open": term})
    facts = world({"water.run": [row]})
    node = check("count(run.open for run in water.run if run.kind == 'copper')")
    both = decide("f and g", f=counts, g=term)
    expected = None if both is None else float(both)
    assert explained(node, facts).value == expected
    assert computed(node, facts) == expected
