"""Every way a table can be wrong, told at file, line and column."""

from pathlib import Path

import pytest

from rulebook.packs import RULE, TABLE, only_problem, told


@pytest.mark.parametrize(
    ("old", "new", "line", "column", "said"),
    [
        ("[6, 10.5]", "[6]", 8, 3, "This row has 1 cells; each has 2."),
        ("[6, 10.5]", "[6, 10, 12]", 8, 3, "This row has 3 cells; each has 2."),
        ("[6, 10.5]", "[10.0, 12]", 8, 3, "A row with these keys already stands above."),
        ("[6, 10.5]", '["six", 10]', 8, 3, "A cell does not fit its column"),
        ("[6, 10.5]", "[6, true]", 8, 3, "A cell does not fit its column"),
        ("[6, 10.5]", "[6, inf]", 8, 3, "A cell does not fit its column"),
        ("[6, 10.5]", "[nan, 10]", 8, 3, "A cell does not fit its column"),
        ("[6, 10.5]", "[6, 1979-05-27]", 8, 7, "'rows' cannot be 1979-05-27."),
        ('read = "next up"', 'read = "downwards"', 2, 45, "'read' is one of"),
        ('unit = "A", read', 'unit = "Amps", read', 2, 33, "is no known unit."),
        ('unit = "A", read', "read", 2, 13, "A text is read exactly, not next up."),
        ('"rating", unit = "A"', '"rating", unit = "volt"', 3, 32, "is no known unit."),
        (
            '"rating", unit = "A"',
            '"current", unit = "A"',
            1,
            1,
            "Every key and column has a name of its own.",
        ),
        ('"next up" }]', '"linear" }]', 3, 13, "A text cannot be read linearly between rows."),
        (
            'source = "code"',
            'source = "cod"',
            4,
            13,
            "sources.toml has no source 'cod'. Did you mean 'code'?",
        ),
        ("reviewed", "reveiwed", 5, 1, "A table has no key 'reveiwed'. Did you mean 'reviewed'?"),
    ],
)
def test_a_table_is_refused_with_a_sentence_at_its_place(
    tmp_path: Path, old: str, new: str, line: int, column: int, said: str
) -> None:
    text = TABLE.replace(old, new)
    if "linearly" in said:
        text = (
            text.replace('"rating", unit = "A"', '"rating"')
            .replace("16", '"x"')
            .replace("10.5", '"y"')
        )
    found = told(tmp_path, {"tables/ratings.toml": text, "snow/base.toml": RULE})
    assert said in found.get((line, column), ""), found


def test_a_huge_number_in_a_table_is_refused(tmp_path: Path) -> None:
    text = TABLE.replace("[6, 10.5]", f"[6, 1{'0' * 400}]")
    problem = only_problem(tmp_path, {"tables/ratings.toml": text, "snow/base.toml": RULE})
    assert "A cell does not fit its column" in problem.sentence
