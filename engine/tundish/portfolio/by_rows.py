"""The jobs of a table judged row by row, by verdicts alone."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from tundish.groundwork.dataclass import dataclass
from tundish.job.changes import Change, changed
from tundish.job.facts import Facts, Value
from tundish.job.model.paths import outer_paths
from tundish.job.table_columns import NAME, TableColumn
from tundish.portfolio.summary import Summary
from tundish.rulebook.evaluate.completions import early_for_all
from tundish.rulebook.evaluate.judge import Verdict
from tundish.rulebook.link.facts_read import facts_read
from tundish.rulebook.rulebook import Rulebook

Row = Mapping[str, Any]


@dataclass(frozen=True, slots=True)
class JudgedRow:
    """One job of a portfolio.

    Attributes:
        name: Its name.
        breached: Rules that are breached, each once.
        undecided: Rules that are not decided.
        problem: Why it could not be judged, or "".
    """

    name: str
    breached: tuple[str, ...] = ()
    undecided: tuple[str, ...] = ()
    problem: str = ""


class RowPortfolio:
    """Judges the rows of a table over one base job. It can be shared between processes by forking.

    Args:
        base: The facts of the base job.
        columns: The columns of the table, without that of the names.
        rulebook: The rules.
    """

    def __init__(self, base: Facts, columns: Sequence[TableColumn], rulebook: Rulebook) -> None:
        self._base = base
        self._rulebook = rulebook
        self._rules = list(rulebook.rules.values())
        place = {name: at for at, name in enumerate(rulebook.rules)}
        self._evaluator = rulebook.evaluator
        self._places = [place[name] for name in self._evaluator.names]
        self._columns = columns
        self._read: dict[tuple[str, str, str], dict[str, Value]] = {}
        varying = {path for column in columns for path in column.paths}
        early = early_for_all(rulebook, base, varying)
        self._early = {place[name]: verdicts for name, verdicts in early.items()}
        self._facts = [facts_read(rule, rulebook.quantities) for rule in self._rules]

    def judged(self, rows: Iterable[Row], first: int = 1) -> tuple[list[JudgedRow], Summary]:
        """Judge some rows.

        Args:
            rows: The rows.
            first: Number of the first of them in the table, from 1.

        Returns:
            Each job, in the order of the rows, and what they come to.
        """
        judged, summary = [], Summary()
        for number, row in enumerate(rows, start=first):
            name = str(row.get(NAME) or f"row {number}")
            judged.append(self._judge(name, row, summary))
        return judged, summary

    def _judge(self, name: str, row: Row, summary: Summary) -> JudgedRow:
        summary.jobs += 1
        try:
            values = self._values(row)
            self._rulebook.contradictions.check_row(values, self._base)
        except ValueError as error:
            summary.refused += 1
            return JudgedRow(name, problem=str(error))
        breached, undecided = [], []
        for at, verdict in zip(self._places, self._evaluator.verdicts(values), strict=True):
            verdicts = verdict if isinstance(verdict, tuple) else (verdict,)
            verdicts = self._early.get(at, verdicts)
            if Verdict.BREACHED in verdicts:
                breached.append(at)
            elif Verdict.UNDECIDED in verdicts:
                undecided.append(at)
        breached.sort()
        undecided.sort()
        self._count(values, breached, undecided, summary)
        names = [rule.name for rule in self._rules]
        return JudgedRow(
            name, tuple(names[at] for at in breached), tuple(names[at] for at in undecided)
        )

    def _values(self, row: Row) -> dict[str, Any]:
        """Return the facts of a row merged over those of the base job."""
        cells = [
            (column, self._facts_in(column, row.get(column.written))) for column in self._columns
        ]
        changes = [Change(path, value, "") for _, facts in cells for path, value in facts.items()]
        values = dict(changed(self._base, changes).values)
        for column, facts in cells:
            for path in column.paths:
                if path not in facts:
                    values.pop(path, None)
        return values

    def _facts_in(self, column: TableColumn, cell: Any) -> dict[str, Value]:
        key = (column.path, type(cell).__name__, str(cell))
        if key not in self._read:
            try:
                self._read[key] = column.read(cell)
            except ValueError as error:
                raise ValueError(f"{column.written}: {error}") from None
        return self._read[key]

    def _count(
        self,
        values: Mapping[str, Any],
        breached: Sequence[int],
        undecided: Sequence[int],
        summary: Summary,
    ) -> None:
        summary.clean += not breached
        summary.breaches.update(self._rules[at].name for at in breached)
        read = frozenset[str]().union(*(self._facts[at] for at in undecided))
        summary.unknown.update(path for path in read if not _is_known(path, values))
        summary.adjustable.update({path for at in breached for path in self._rules[at].adjust})


def _is_known(path: str, values: Mapping[str, Any]) -> bool:
    """Say whether a fact outside lists is known, or belongs to something known to be absent."""
    return path in values or any(
        values.get(group) is False or isinstance(values.get(group), list)
        for group in outer_paths(path)
    )
