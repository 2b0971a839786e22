"""The functions over the items of a list: one record each, which every form of evaluation reads.

A round is a pair: whether the item counts, and the value of its term.
"""

from __future__ import annotations

import operator
from collections.abc import Callable, Sequence

from tundish.groundwork.dataclass import dataclass
from tundish.language.operations.values import apply
from tundish.language.tree.kind import PLAIN_NUMBER, TRUTH, Kind
from tundish.language.tree.tree import Value

Rounds = Sequence[tuple[Value | None, Value | None]]

Spread = tuple[bool, float, float]
"""A round over ranges: whether the item surely counts, and the least and greatest of its term."""


@dataclass(frozen=True, slots=True)
class Aggregate:
    """A function over the items of a list.

    Attributes:
        name: Its name in an expression.
        value: Gives its value from the rounds of all items.
        start: Python text of its value before the first round.
        code: The statements for an item that counts and whose term is known and not `neutral`. In
            them `{result}` is the value so far and `{term}` that of the term, a quantity; `break`
            ends the loop with the value so far.
        gives: The kind of its value; that of its terms where this is left out.
        of_truths: Whether it looks at a condition of each item, and not at a quantity.
        adds: Whether it adds its terms, which points on a scale cannot be.
        is_total: Whether each further item adds to its value.
        neutral: The term that leaves the value as it is, whether or not its item counts.
        settles: The term that settles the value, where its item counts.
        ends: Gives the least and the greatest that a quantity of its can be, from the rounds of all
            items that may count; None where it may have no value. A condition counts as 1 where it
            holds, as 0 where it fails. Without it nothing is known where a term has a range.
        why_lost: Says why it has no value though nothing is unknown, from the path of the list and
            the rounds.
        other: The aggregate that a proof tries in its place.
        elsewhere: What other languages call it.
        shown: The word for its value in a sentence, where that is not its name.
    """

    name: str
    value: Callable[[Rounds], Value | None]
    start: str
    code: tuple[str, ...]
    gives: Kind | None = None
    of_truths: bool = False
    adds: bool = False
    is_total: bool = False
    neutral: bool | None = None
    settles: bool | None = None
    ends: Callable[[Sequence[Spread]], tuple[float, float] | None] | None = None
    why_lost: Callable[[str, Rounds], str] = lambda _, __: ""
    other: str = ""
    elsewhere: tuple[str, ...] = ()
    shown: str = ""

    def over(self, rounds: Rounds, is_open: bool) -> Value | None:
        """Return its value from the rounds of all items that are known.

        Args:
            rounds: The rounds.
            is_open: Whether there may be more items, so that only what settles it is known.
        """
        value = self.value(rounds)
        is_settled = self.settles is not None and value is self.settles
        return value if is_settled or not is_open else None

    def result(self, term: Kind) -> Kind:
        """Return the kind of its value.

        Args:
            term: The kind of its terms.

        Raises:
            ValueError: With a sentence, where it takes no such terms.
        """
        if self.of_truths and term.name != "truth":
            raise ValueError(f"'{self.name}' looks at a condition for each item, not at {term}.")
        if not self.of_truths and term.name != "quantity":
            raise ValueError(f"'{self.name}' takes a quantity of each item, not {term}.")
        if self.adds and term.point:
            raise ValueError(f"'{self.name}' cannot add {term} to another.")
        return self.gives or term


def _settled(settles: bool) -> Callable[[Rounds], bool | None]:
    def value(rounds: Rounds) -> bool | None:
        if any(test is True and term is settles for test, term in rounds):
            return settles
        counted = [term for test, term in rounds if test is not False]
        return (not settles) if all(term is (not settles) for term in counted) else None

    return value


def _sum(rounds: Rounds) -> float | None:
    result: float | None = 0.0
    for test, term in rounds:
        if test is not False:
            result = apply(operator.add, result, _number(term) if test is True else None)
    return result


def _count(rounds: Rounds) -> float | None:
    relevant = [(test, term) for test, term in rounds if test is not False and term is not False]
    if any(test is None or term is None for test, term in relevant):
        return None
    return float(len(relevant))


def _extreme(choose: Callable[[list[float]], float]) -> Callable[[Rounds], float | None]:
    def value(rounds: Rounds) -> float | None:
        counted = [(test, _number(term)) for test, term in rounds if test is not False]
        known = [term for test, term in counted if test is True and term is not None]
        return choose(known) if known and len(known) == len(counted) else None

    return value


def _sum_ends(rounds: Sequence[Spread]) -> tuple[float, float]:
    least = sum(low if counts else min(low, 0.0) for counts, low, _ in rounds)
    most = sum(high if counts else max(high, 0.0) for counts, _, high in rounds)
    return float(least), float(most)


def _extreme_ends(
    choose: Callable[..., float], is_least: bool
) -> Callable[[Sequence[Spread]], tuple[float, float] | None]:
    def ends(rounds: Sequence[Spread]) -> tuple[float, float] | None:
        sure = [pair for pair in rounds if pair[0]]
        if not sure:
            return None
        low = choose(low for _, low, _ in (rounds if is_least else sure))
        high = choose(high for _, _, high in (sure if is_least else rounds))
        return low, high

    return ends


def _number(value: Value | None) -> float | None:
    return value if isinstance(value, float) else None


def _none_counts(path: str, rounds: Rounds) -> str:
    return f"no item of {path} counts" if all(test is False for test, _ in rounds) else ""


AGGREGATES: dict[str, Aggregate] = {
    record.name: record
    for record in (
        Aggregate(
            "all",
            _settled(False),
            "True",
            ("{result} = False; break",),
            gives=TRUTH,
            of_truths=True,
            neutral=True,
            settles=False,
            other="any",
            elsewhere=("every", "each"),
        ),
        Aggregate(
            "any",
            _settled(True),
            "False",
            ("{result} = True; break",),
            gives=TRUTH,
            of_truths=True,
            neutral=False,
            settles=True,
            other="all",
            elsewhere=("some",),
        ),
        Aggregate(
            "sum",
            _sum,
            "0.0",
            ("{result} += {term}", "if {result} - {result}: {result} = None; break"),
            ends=_sum_ends,
            is_total=True,
            adds=True,
            why_lost=lambda _, __: "the total is no finite number",
            elsewhere=("total", "add"),
            shown="total",
        ),
        Aggregate(
            "count",
            _count,
            "0.0",
            ("{result} += 1.0",),
            ends=_sum_ends,
            is_total=True,
            gives=PLAIN_NUMBER,
            of_truths=True,
            neutral=False,
            elsewhere=("len", "length", "number"),
        ),
        Aggregate(
            "least",
            _extreme(min),
            "None",
            ("if {result} is None or {term} < {result}: {result} = {term}",),
            ends=_extreme_ends(min, is_least=True),
            why_lost=_none_counts,
            other="greatest",
        ),
        Aggregate(
            "greatest",
            _extreme(max),
            "None",
            ("if {result} is None or {term} > {result}: {result} = {term}",),
            ends=_extreme_ends(max, is_least=False),
            why_lost=_none_counts,
            other="least",
        ),
    )
}
"""Functions over the items of a list, by name."""
