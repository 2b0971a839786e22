"""Tables of jobs have as many columns as are read, and no more."""

import json
from pathlib import Path

import pytest

from tundish.reading.bounds import MOST_COLUMNS
from tundish.reading.problem import Refused
from tundish.reading.row_file import read_rows


@pytest.mark.parametrize("suffix", [".csv", ".jsonl"])
def test_columns(tmp_path: Path, suffix: str) -> None:
    def table(count: int) -> Path:
        names = [f"c{at}" for at in range(count)]
        path = tmp_path / f"jobs{suffix}"
        lines = [",".join(names)] * 2 if suffix == ".csv" else [json.dumps(dict.fromkeys(names, 1))]
        path.write_text("\n".join(lines) + "\n")
        return path

    columns, rows = read_rows(table(MOST_COLUMNS))
    assert len(columns) == MOST_COLUMNS == len(next(rows))
    with pytest.raises(Refused, match="more than 1,000 columns; leave out what is no fact"):
        read_rows(table(MOST_COLUMNS + 1))
