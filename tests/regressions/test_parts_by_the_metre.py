"""A part with a unit but without a number ended in a traceback."""

from __future__ import annotations

from pathlib import Path

from rulebook.packs import PROVISIONS, RULE, only_problem


def test_a_part_with_a_unit_says_how_much_of_it_is_needed(tmp_path: Path) -> None:
    number = next(line for line in PROVISIONS.splitlines() if line.startswith('number   = "sum'))
    files = {"snow/base.toml": RULE, "order/provisions.toml": PROVISIONS.replace(number, "")}
    problem = only_problem(tmp_path, files)
    assert "How many 'm' of it are needed?" in problem.sentence
    lines = files["order/provisions.toml"].splitlines()
    assert problem.line is not None and lines[problem.line - 1].startswith("unit")
    assert problem.key == "sun-cover.unit"
