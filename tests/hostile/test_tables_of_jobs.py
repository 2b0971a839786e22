"""The worst that a table of jobs can do is to be refused, soon."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from hostile.test_job_files import ended_if_it_hangs
from tundish import Refused
from tundish.text.bounds import LARGEST_FILE, MOST_COLUMNS
from tundish.text.row_file import read_rows

__all__ = ["ended_if_it_hangs"]

TABLES = {
    "wide.csv": ",".join(f"c{at}" for at in range(MOST_COLUMNS + 1)) + "\n",
    "wide.jsonl": "".join(f'{{"c{at}": 1}}\n' for at in range(MOST_COLUMNS + 1)),
    "line.csv": "a\n" + "x" * (LARGEST_FILE + 1),
    "line.jsonl": '{"a": "' + "x" * LARGEST_FILE + '"}',
    "deep.jsonl": "[" * 100_000,
    "number.jsonl": '{"a": ' + "9" * 10_000 + "}",
    "uneven.csv": "a,b\n1\n",
    "twice.csv": "a,a\n1,2\n",
    "empty.csv": "",
    "empty.jsonl": "\n\n",
    "list.jsonl": "[]\n",
    "bytes.csv": "a\n\udcff\n",
}


@pytest.mark.usefixtures("ended_if_it_hangs")
@pytest.mark.parametrize("name", TABLES)
def test_it_is_refused_soon(tmp_path: Path, name: str) -> None:
    path = tmp_path / name
    path.write_text(TABLES[name], encoding="utf-8", errors="surrogateescape")
    with pytest.raises(Refused):
        list(read_rows(path)[1])


@pytest.mark.usefixtures("ended_if_it_hangs")
@pytest.mark.parametrize("kind", ["csv", "jsonl"])
@pytest.mark.parametrize("sort", ["pipe", "device", "folder", "nowhere"])
def test_what_is_no_plain_file_is_refused_and_not_waited_for(
    tmp_path: Path, kind: str, sort: str
) -> None:
    path = tmp_path / f"table.{kind}"
    match sort:
        case "pipe":
            os.mkfifo(path)
        case "device":
            path.symlink_to("/dev/zero")
        case "folder":
            path.mkdir()
    with pytest.raises(Refused):
        list(read_rows(path)[1])
