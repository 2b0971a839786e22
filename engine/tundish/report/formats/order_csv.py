"""The order list as a table of comma-separated values, for a spreadsheet or a supplier."""

from __future__ import annotations

import csv
import io

from tundish.order.purchase_list import OrderLine, OrderList

_COLUMNS = (
    "standing",
    "part",
    "needed",
    "ordered",
    "supplier",
    "order as",
    "why",
    "found",
    "sources",
)

_FORMULA = ("=", "+", "-", "@", "\t", "\r")


def order_table(order: OrderList) -> str:
    """Return an order list as comma-separated values, a row a part, as RFC 4180 writes them."""
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\r\n")
    writer.writerow(_COLUMNS)
    for line in order.lines:
        writer.writerow([_as_text_cell(cell) for cell in _cells(line)])
    return text.getvalue()


def _cells(line: OrderLine) -> list[str]:
    sources = "; ".join(
        f"{citation} (from memory)" if citation.recall else str(citation)
        for citation in line.sources
    )
    return [
        line.standing,
        line.part,
        line.needed,
        line.ordered,
        line.supplier,
        line.name,
        line.because,
        line.statement,
        sources,
    ]


def _as_text_cell(cell: str) -> str:
    """Return a cell that no spreadsheet takes for a formula."""
    return f"'{cell}" if cell.startswith(_FORMULA) else cell
