"""What is found about a stock, put together: a file of verdicts, complaints, a summary."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any, BinaryIO, Protocol

from tundish.command.files import AlreadyThereError
from tundish.command.progress import counting
from tundish.command.whole_file import new_file
from tundish.portfolio.summary import Form, Found, Summary
from tundish.text.bounds import MOST_PROBLEMS

_PARTS = 8
"""Parts of a table that stand in one row group of a Parquet file: 65,536 rows."""


class Judging(Protocol):
    """What judges a table."""

    @property
    def rows(self) -> int | None:
        """Return how many rows there are, if that is known beforehand."""

    @property
    def rules(self) -> list[str]:
        """Return the names of the rules."""

    @property
    def screening(self) -> Any:
        """Return what judges by columns, if that is how."""

    def found(self, form: Form) -> Iterator[Found]:
        """Judge the table; give what is found, some rows at a time, in their order."""

    def finished(self, summary: Summary) -> None:
        """Add to the summary what only the whole table tells."""


def put_together(judging: Judging, table: Path, to: Path | None) -> Summary | None:
    """Judge a table, write the verdicts, and add up what they come to.

    Args:
        judging: Judges it.
        table: The table, as complaints name it.
        to: The file to write the verdicts to, or None.

    Returns:
        The summary, or None where the file could not be written, which has then been said.
    """
    summary = Summary()
    try:
        if to is None:
            _add_up(judging, table, "", summary, lambda _: None)
        else:
            with new_file(to) as file, _writer(to, file, judging) as (form, write):
                _add_up(judging, table, form, summary, write)
    except AlreadyThereError:
        sys.stderr.write(f"{to} is there already and is not written over; name another file.\n")
        return None
    except OSError as error:
        sys.stderr.write(f"{to} cannot be written: {error.strerror or error}.\n")
        return None
    if to is not None:
        sys.stderr.write(f"Written: {to}.\n")
    judging.finished(summary)
    return summary


def _add_up(judging: Judging, table: Path, form: Form, summary: Summary, write: Any) -> None:
    told = 0
    with counting(judging.rows, "Judging") as advance:
        for found in judging.found(form):
            summary.add(found.summary)
            write(found.output)
            for number, (name, text) in found.problems.items():
                told += 1
                if told <= MOST_PROBLEMS:
                    called = "" if name == f"row {number}" else f" ({name})"
                    sys.stderr.write(f"{table}, row {number}{called}: {text}\n")
            advance(found.rows)
    if told > MOST_PROBLEMS:
        sys.stderr.write(f"{table}: {told - MOST_PROBLEMS} more rows could not be read.\n")


@contextmanager
def _writer(to: Path, file: BinaryIO, judging: Judging) -> Iterator[tuple[Form, Any]]:
    """Give the form in which verdicts are written, and what writes them."""
    if to.suffix != ".parquet":
        yield "lines", file.write
        return
    import pyarrow.parquet as pq

    from tundish.portfolio.summary import made_from
    from tundish.portfolio.verdict_file import as_table, schema_of

    held: list[Any] = []
    schema = schema_of(judging.rules).with_metadata(
        made_from(judging.screening.base, judging.screening.rulebook)
    )
    with pq.ParquetWriter(file, schema, compression="zstd") as writer:

        def flush() -> None:
            if held:
                writer.write_table(as_table(judging.screening, held))
                held.clear()

        def write(verdicts: Any) -> None:
            held.append(verdicts)
            if len(held) == _PARTS:
                flush()

        yield "verdicts", write
        flush()
