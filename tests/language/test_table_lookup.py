"""A table looked up by the evaluator gives what it gives with a reason."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tundish.language.operations.table import Cell, Column, Key, Level, Manner, RowsOfTables, Table
from tundish.language.tree.kind import PLAIN_NUMBER, text_kind

NEAR = [0.0, 1.0, 1.0 + 4e-10, 1.0 + 8e-10, 1.0 + 1.2e-9, 2.0, 3.5]
"""Rows of which some are as good as equal, each to the next and not to the one behind."""

TEXTS = Key("colour", text_kind(), "exact")


def table(manner: Manner, rows: list[float]) -> Table:
    columns = {name: Column(name, PLAIN_NUMBER) for name in ("width", "height")}
    by_number = Level({row: (at * 1.0, -at * 1.0) for at, row in enumerate(rows)})
    tree = Level({"red": by_number, "blue": Level({})})
    return Table("t", "t", (TEXTS, Key("size", PLAIN_NUMBER, manner)), columns, tree)


def looked_up(read: Table, column: str, *keys: Cell | None) -> Cell | None:
    """Read a table as what is compiled does."""
    rows = RowsOfTables({"t": read})["t", column]
    return rows.get(keys[0] if len(keys) == 1 else keys) or read.near(column, keys)


SIZES = st.one_of(
    st.sampled_from(NEAR),
    st.builds(lambda row, off: row * (1 + off), st.sampled_from(NEAR), st.floats(-2e-9, 2e-9)),
    st.floats(-1, 5),
)


@pytest.mark.parametrize("manner", ["exact", "next up", "linear"])
@given(st.sampled_from(["red", "blue", "green"]), SIZES)
def test_it_gives_what_it_gives_with_a_reason(manner: Manner, colour: str, size: float) -> None:
    read = table(manner, NEAR)
    for column in ("width", "height"):
        assert looked_up(read, column, colour, size) == read.read(column, (colour, size)).value


@pytest.mark.parametrize("keys", [("red", None), (None, 1.0), (None, None)])
def test_nothing_stands_at_a_key_that_is_not_known(keys: tuple[Cell | None, ...]) -> None:
    assert looked_up(table("linear", NEAR), "width", *keys) is None


def test_a_table_of_texts_has_all_it_gives_in_its_rows() -> None:
    columns = {"width": Column("width", PLAIN_NUMBER)}
    read = Table("t", "t", (TEXTS,), columns, Level({"red": (1.0,), "blue": (2.0,)}))
    assert read.rows("width") == {"red": 1.0, "blue": 2.0}
    assert looked_up(read, "width", "green") is None
    with pytest.raises(KeyError):
        looked_up(read, "height", "red")
