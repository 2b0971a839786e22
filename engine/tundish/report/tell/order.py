"""What is said of an order list: what to order from whom and why, and what is doubtful."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.order.purchase_list import OrderLine, OrderList, Standing
from tundish.report.page.line import Line, apart, entries, section
from tundish.report.tell.assessment import caution_lines
from tundish.report.tell.citations import citation_lines
from tundish.report.tell.phrases import assumed_texts, counted

_IN_FULL = (Standing.MISSING, Standing.DOUBTFUL, Standing.SURPLUS, Standing.TO_ORDER)

_SECTIONS: dict[Standing, str] = {
    Standing.MISSING: "missing from the order",
    Standing.DOUBTFUL: "doubtful",
    Standing.SURPLUS: "surplus in the order",
    Standing.TO_ORDER: "to order",
    Standing.ORDERED: "ordered",
    Standing.WITH_UNIT: "comes with the unit",
}


def order_lines(order: OrderList, workings: bool = False) -> Iterator[Line]:
    """Give all that is said of an order list.

    Args:
        order: The list.
        workings: Whether to tell how each amount was worked out, and on whose authority.

    Yields:
        Lines, for a page of any width.
    """
    yield Line("heading", f"Order list: {order.job or order.file or 'a job without a title'}")
    yield Line(
        "under", "; ".join(part for part in (order.job and order.file, order.region) if part)
    )
    for standing in Standing:
        lines = order.of(standing)
        whole = apart(_whole(line, workings) for line in lines)
        short = (row for line in lines for row in _short(line, workings))
        yield from section(_SECTIONS[standing], whole if standing in _IN_FULL else short)
    yield from section("how it stands", [Line("words", _summary(order))])
    yield from caution_lines(order.cautions)


def _whole(line: OrderLine, workings: bool) -> Iterator[Line]:
    yield Line("question", _amount(line))
    if line.standing is not Standing.TO_ORDER:
        yield Line("entry", line.statement, "found")
    yield from entries("why", [line.because] if line.because else [])
    for asked in line.open:
        yield Line("entry", f"{asked.question}  ({asked.path})", "to find out")
    yield from entries("from", [line.supplier] if line.supplier else [])
    yield from entries("order as", [line.name] if line.name != line.part else [])
    yield from _ground(line, workings)


def _short(line: OrderLine, workings: bool) -> Iterator[Line]:
    more = line.standing is Standing.ORDERED and line.ordered != line.needed
    yield Line("item", _amount(line) + (f"; needed: {line.needed}" if more else ""))
    if workings:
        yield from _ground(line, workings)


def _ground(line: OrderLine, workings: bool) -> Iterator[Line]:
    if workings:
        yield from entries("assumed", assumed_texts(line.assumed, full=True))
        numbers = [f"{line.numbers} = {line.needed}"] if line.numbers else []
        yield from entries("worked out", numbers)
        yield from citation_lines(line.sources)


def _amount(line: OrderLine) -> str:
    """Say how much of a part: what came where it came, to be held against a delivery note."""
    came = line.standing in (Standing.ORDERED, Standing.SURPLUS)
    amount = (line.ordered or line.needed) if came else (line.needed or line.ordered)
    if _is_number(amount):
        return f"{amount} x {line.part}"
    return f"{amount} of {line.part}" if amount else line.part


def _is_number(amount: str) -> bool:
    return amount.isdecimal()


def _summary(order: OrderList) -> str:
    sentences = [
        f"{_SECTIONS[standing].capitalize()}: {counted(len(order.of(standing)), 'part')}."
        for standing in Standing
        if order.of(standing)
    ]
    if not order.lines:
        sentences = ["Nothing is needed that is known of."]
    if not order.compared:
        sentences.append("The job does not say what was ordered, so nothing is compared with it.")
    memory = sum(line.from_memory for line in order.lines)
    if memory:
        sentences.append(f"Resting on a source written from memory: {counted(memory, 'part')}.")
    return " ".join(sentences)
