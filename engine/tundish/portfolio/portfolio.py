"""A portfolio: many jobs that stand in a table and differ from a base job in some facts.

Each row of the table is a job; its columns are paths of facts. A cell takes the place of what the
base job says, an empty one leaves the fact not known.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from importlib import util
from pathlib import Path
from typing import TYPE_CHECKING, Any, BinaryIO, Protocol

from tundish.job.facts import Facts
from tundish.portfolio.summary import Form, JudgedPart, Summary, made_from
from tundish.rulebook.rulebook import Rulebook
from tundish.text.column_file import NEEDS_EXTRA
from tundish.text.new_file import new_file
from tundish.text.problem import refusal

if TYPE_CHECKING:
    from tundish.portfolio.by_columns import ColumnPortfolio

_PARTS = 8
"""Parts of a table that stand in one row group of a Parquet file: 65,536 rows."""


class PortfolioTable(Protocol):
    """A table that can be judged."""

    @property
    def rows(self) -> int | None:
        """Return how many rows there are, if that is known beforehand."""

    @property
    def by_columns(self) -> ColumnPortfolio | None:
        """Return what judges by columns, if that is how."""

    def judged(self, form: Form) -> Iterator[JudgedPart]:
        """Judge the rows, some at a time, in their order."""

    def finish(self, summary: Summary) -> None:
        """Add to the summary what only the whole table tells."""


def open_table(
    table: str | Path,
    base: Facts,
    rulebook: Rulebook,
    *,
    packs: Sequence[str | Path] = (),
    workers: int | None = None,
    cluster: str = "",
) -> PortfolioTable:
    """Open a table of jobs to be judged: by columns, or by rows where numpy is not installed.

    Args:
        table: A .csv, .jsonl or .parquet file.
        base: The facts of the base job.
        rulebook: The rules.
        packs: The folders of rules that `rulebook` has on top of the built-in ones, as each
            worker reads them again.
        workers: How many processes judge; as many as there are processors if left out.
        cluster: The address of a Dask scheduler whose workers judge instead, or "".

    Raises:
        Refused: If the table cannot be read, or needs a package that is not installed.

    Example::

        base = rulebook.facts(Job.from_file("typical-home.toml"))
        table = open_table("homes.csv", base, rulebook, workers=4)
        summary = judge_table(table, Path("verdicts.jsonl"))
        summary.breaches.most_common(3)
    """
    if cluster and not (_is_installed("numpy") and _is_installed("distributed")):
        raise refusal(cluster, "A cluster needs pip install 'tundish[cluster]'.")
    if not _is_installed("numpy"):
        from tundish.portfolio.row_table import RowTable

        return RowTable(Path(table), base, rulebook)
    from tundish.portfolio.column_table import ColumnTable

    return ColumnTable(Path(table), base, rulebook, packs, workers, cluster)


def judge_table(
    table: PortfolioTable,
    verdicts_to: Path | None = None,
    on_part: Callable[[JudgedPart], object] = lambda _: None,
) -> Summary:
    """Judge a table, write the verdicts, and add up what they come to.

    Args:
        table: The table.
        verdicts_to: A new .jsonl or .parquet file for the verdicts; none if left out.
        on_part: Is called with each part of the table once it is judged, in their order.

    Raises:
        Refused: If a row breaks the form of the table.
        AlreadyThereError: If the file for the verdicts is there already.
        OSError: If it cannot be written.
    """
    summary = Summary()
    with _writer(verdicts_to, table) as (form, write):
        for part in table.judged(form):
            summary.add(part.summary)
            write(part.output)
            on_part(part)
    table.finish(summary)
    return summary


Writer = tuple[Form, Callable[[Any], object]]
"""The form of verdicts, and what writes them."""


@contextmanager
def _writer(to: Path | None, table: PortfolioTable) -> Iterator[Writer]:
    if to is None:
        yield "", lambda _: None
    elif to.suffix != ".parquet":
        with new_file(to) as file:
            yield "lines", file.write
    else:
        if table.by_columns is None or not _is_installed("pyarrow"):
            raise refusal(str(to), NEEDS_EXTRA)
        with new_file(to) as file, _parquet_writer(file, table.by_columns) as write:
            yield "verdicts", write


@contextmanager
def _parquet_writer(file: BinaryIO, portfolio: ColumnPortfolio) -> Iterator[Callable[[Any], None]]:
    """Give what writes verdicts, several parts of the table in one row group."""
    import pyarrow.parquet as pq

    from tundish.portfolio.verdict_file import as_table, schema_of

    parts: list[Any] = []
    schema = schema_of(portfolio.rules).with_metadata(made_from(portfolio.base, portfolio.rulebook))
    with pq.ParquetWriter(file, schema, compression="zstd") as writer:

        def flush() -> None:
            if parts:
                writer.write_table(as_table(portfolio, parts))
                parts.clear()

        def write(verdicts: Any) -> None:
            parts.append(verdicts)
            if len(parts) == _PARTS:
                flush()

        yield write
        flush()


def _is_installed(package: str) -> bool:
    return util.find_spec(package) is not None
