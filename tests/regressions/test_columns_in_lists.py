"""A column named inside a list, without saying of which item, ended in a traceback."""

from __future__ import annotations

import pytest

from tundish import Refused
from tundish.job.facts import Facts
from tundish.job.table_columns import read_table_columns
from tundish.portfolio.by_rows import RowPortfolio
from tundish.rulebook.rulebook import Rulebook


@pytest.mark.parametrize("column", ["water.run.name", "electricity.circuit.isolator.enclosure"])
def test_a_column_inside_a_list_is_refused(column: str) -> None:
    with pytest.raises(Refused, match="list"):
        RowPortfolio(Facts(), read_table_columns([column]), Rulebook.built_in())
