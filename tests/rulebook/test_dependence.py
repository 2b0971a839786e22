"""Quantities computed from each other: no cycles, and no deeper than the bounds."""

from pathlib import Path

import pytest

from rulebook.packs import QUANTITY, RULE, load, only_problem
from tundish.text.bounds import DEEPEST_TREE, LONGEST_DEPENDENCE

REQUIRES = '"placement.height_below >= site.snow_depth"'


def chain(formulas: dict[str, str]) -> str:
    body = QUANTITY.partition("[[")[0]
    return "\n".join(
        body.replace("[spare_height]", f"[{name}]").replace(
            "placement.height_below - site.snow_depth", formula
        )
        for name, formula in formulas.items()
    )


def test_a_quantity_computed_from_itself_is_refused(tmp_path: Path) -> None:
    text = chain({"one": "two", "two": "three + 1 m", "three": "one"})
    problem = only_problem(tmp_path, {"snow/quantities.toml": text, "snow/base.toml": RULE})
    assert problem.sentence == "This is computed from itself: one needs two needs three needs one."
    assert (problem.line, problem.key) == (4, "one.formula")


def test_a_quantity_that_names_itself_is_refused(tmp_path: Path) -> None:
    text = chain({"one": "one + 1 m"})
    problem = only_problem(tmp_path, {"snow/quantities.toml": text, "snow/base.toml": RULE})
    assert problem.sentence == "This is computed from itself: one needs one."


def test_a_cycle_through_a_loop_is_refused(tmp_path: Path) -> None:
    item = chain({"part": "run.length + whole"}).replace(
        "unit  ", 'of = "water.run as run"\nunit  '
    )
    text = item + "\n" + chain({"whole": "sum(run.part for run in water.run)"})
    problem = only_problem(tmp_path, {"snow/quantities.toml": text, "snow/base.toml": RULE})
    assert problem.sentence == "This is computed from itself: part needs whole needs part."


@pytest.mark.parametrize("backwards", [False, True])
def test_quantities_in_a_row_are_bounded_whatever_their_order(
    tmp_path: Path, backwards: bool
) -> None:
    def row(length: int) -> dict[str, str]:
        formulas = {"q1": "site.snow_depth"}
        formulas |= {f"q{at}": f"q{at - 1}" for at in range(2, length + 1)}
        items = list(formulas.items())
        return dict(items[::-1] if backwards else items)

    files = {"snow/base.toml": RULE}
    longest = {**files, "snow/quantities.toml": chain(row(LONGEST_DEPENDENCE))}
    rulebook = load(tmp_path / "n", longest)
    last = ("", f"q{LONGEST_DEPENDENCE}")
    assert rulebook.session({"site.snow_depth": 0.5}).derive(*last) == 0.5
    longer = {**files, "snow/quantities.toml": chain(row(LONGEST_DEPENDENCE + 1))}
    problem = only_problem(tmp_path / "more", longer)
    assert problem.sentence == "More than 64 quantities are computed in a row."


def sum_of(length: int, first: str) -> str:
    return " + ".join([first, *["site.snow_depth"] * (length - 1)])


def test_what_is_computed_stands_no_deeper_than_the_bound(tmp_path: Path) -> None:
    def files(length: int) -> dict[str, str]:
        formulas = {"low": sum_of(75, "site.snow_depth"), "high": sum_of(length, "low")}
        return {"snow/base.toml": RULE, "snow/quantities.toml": chain(formulas)}

    deepest = DEEPEST_TREE - 75
    assert load(tmp_path / "n", files(deepest)).quantities
    problem = only_problem(tmp_path / "more", files(deepest + 1))
    assert problem.sentence.startswith("With all it is computed from, this stands more than")
    assert problem.key == "high.formula"


def test_a_rule_stands_no_deeper_than_the_bound_either(tmp_path: Path) -> None:
    def files(length: int) -> dict[str, str]:
        requires = sum_of(length, "low") + " > 1 m"
        return {
            "snow/base.toml": RULE.replace(REQUIRES, f'"{requires}"'),
            "snow/quantities.toml": chain({"low": sum_of(75, "site.snow_depth")}),
        }

    deepest = DEEPEST_TREE - 76
    assert load(tmp_path / "n", files(deepest)).rules
    problem = only_problem(tmp_path / "more", files(deepest + 1))
    assert (problem.file, problem.key) == ("snow/base.toml", "requires")
