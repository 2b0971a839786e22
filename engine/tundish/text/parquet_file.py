"""Reading a Parquet file by columns; numbers go straight into arrays."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import numpy as np
import pyarrow as pa
import pyarrow.parquet as pq

from tundish.text.columns import Cells, Coded, ColumnFile, RowsByColumn
from tundish.text.problem import refusal


def read_parquet(path: Path, rows: int) -> ColumnFile:
    """Read a Parquet file by columns.

    Args:
        path: The file.
        rows: How many rows to hold at a time.

    Raises:
        Refused: If it cannot be read.
    """
    try:
        file = pq.ParquetFile(path)
    except (OSError, pa.ArrowException) as error:
        raise refusal(str(path), f"The table cannot be read: {_first_line(error)}.") from None
    schema = file.schema_arrow
    if not schema.names or len(set(schema.names)) < len(schema.names):
        raise refusal(str(path), "Each column has a name of its own.")
    numeric = frozenset(field.name for field in schema if _is_number(field.type))
    parts = _parts(file, path, rows)
    return ColumnFile(list(schema.names), numeric, file.metadata.num_rows, parts)


def _parts(file: pq.ParquetFile, path: Path, rows: int) -> Iterator[RowsByColumn]:
    first = 1
    batches = file.iter_batches(batch_size=rows, use_threads=False)
    while True:
        try:
            batch = next(batches, None)
        except (OSError, pa.ArrowException) as error:
            sentence = f"Rows from {first} on cannot be read: {_first_line(error)}."
            raise refusal(str(path), sentence) from None
        if batch is None:
            return
        columns = zip(batch.schema.names, batch.columns, strict=True)
        cells = {name: _cells(column) for name, column in columns}
        yield RowsByColumn(first, batch.num_rows, cells)
        first += batch.num_rows


def _cells(column: pa.Array) -> Cells:
    if _is_number(column.type):
        floats = column.cast(pa.float64(), safe=False)
        return np.array(floats.to_numpy(zero_copy_only=False), dtype=np.float64)
    if not pa.types.is_nested(column.type) and not pa.types.is_dictionary(column.type):
        column = column.dictionary_encode()
    if pa.types.is_dictionary(column.type):
        places = column.indices.fill_null(len(column.dictionary)).to_numpy(zero_copy_only=False)
        return Coded([*column.dictionary.to_pylist(), None], places.astype(np.int64))
    return column.to_pylist()


def _is_number(kind: pa.DataType) -> bool:
    return bool(
        pa.types.is_integer(kind) or pa.types.is_floating(kind) or pa.types.is_decimal(kind)
    )


def _first_line(error: Exception) -> str:
    return str(error).splitlines()[0].rstrip(".")
