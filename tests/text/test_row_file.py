"""Tables of jobs have as many columns as are read, and no more."""

import json
from pathlib import Path

import pytest

from tundish.text.bounds import MOST_COLUMNS
from tundish.text.problem import Refused
from tundish.text.row_file import read_rows


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


TEXTS = {".csv": "name,place\nfirst,här\nsecond,hür\n", ".jsonl": '{"a": "här"}\n{"a": "hür"}\n'}


PLACES = {".csv": (2, 8), ".jsonl": (1, 9)}
"""Line and column of the first letter that is none of the plain ones."""


@pytest.mark.parametrize("suffix", TEXTS)
def test_a_table_in_another_encoding_is_told_with_its_place(tmp_path: Path, suffix: str) -> None:
    path = tmp_path / f"jobs{suffix}"
    in_latin, in_utf_16 = (
        TEXTS[suffix].encode("latin-1"),
        f"\ufeff{TEXTS[suffix]}".encode("utf-16-le"),
    )
    for content, byte, place in ((in_latin, "E4", PLACES[suffix]), (in_utf_16, "FF", (1, 1))):
        path.write_bytes(content)
        with pytest.raises(Refused) as refused:
            list(read_rows(path)[1])
        (problem,) = refused.value.problems
        assert (problem.line, problem.column) == place
        assert f"is not UTF-8: byte 0x{byte} does not belong; save it as" in problem.sentence


@pytest.mark.parametrize("suffix", TEXTS)
def test_a_table_in_utf_8_is_read(tmp_path: Path, suffix: str) -> None:
    path = tmp_path / f"jobs{suffix}"
    path.write_text(TEXTS[suffix], encoding="utf-8")
    assert [list(row.values())[-1] for row in read_rows(path)[1]] == ["här", "hür"]
