"""A portfolio: many jobs that differ from a base job in some facts, judged in haste.

Each row of a table is a job; its columns are paths of facts. A cell takes the place of what the
base job says, an empty one leaves the fact not known.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from tundish.job.changing import Change, changed, kind_at
from tundish.job.facts import Facts, value_and_text
from tundish.job.kinds import Kind
from tundish.job.schema import Items, job_schema
from tundish.reading.nearest import did_you_mean
from tundish.reading.problem import Problem, Refused
from tundish.reading.shown import shown
from tundish.rulebook.judging import Verdict
from tundish.rulebook.reads import facts_read
from tundish.rulebook.rulebook import Rulebook
from tundish.rulebook.swift import Swift

NAME = "job"
"""The column that names each job; the number of its row stands in where there is none."""

Row = Mapping[str, Any]


@dataclass(frozen=True, slots=True)
class Judged:
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


@dataclass(slots=True)
class Summary:
    """What a portfolio comes to.

    Attributes:
        jobs: How many jobs there are.
        refused: How many could not be judged.
        clean: How many breach nothing.
        breaches: How many jobs breach each rule.
        unknown: In how many jobs each fact is not known that an undecided rule reads.
        remedies: For each fact that mending may change, in how many jobs it could clear a breach.
    """

    jobs: int = 0
    refused: int = 0
    clean: int = 0
    breaches: Counter[str] = field(default_factory=Counter)
    unknown: Counter[str] = field(default_factory=Counter)
    remedies: Counter[str] = field(default_factory=Counter)

    def add(self, other: Summary) -> None:
        """Add what another part of the portfolio came to."""
        self.jobs += other.jobs
        self.refused += other.refused
        self.clean += other.clean
        self.breaches += other.breaches
        self.unknown += other.unknown
        self.remedies += other.remedies


class Portfolio:
    """Judges the rows of a table over one base job. It can be shared between processes by forking.

    Args:
        base: The facts of the base job.
        columns: The paths of facts that the table has, without the column of names.
        rulebook: The rules.

    Raises:
        Refused: If a column is no fact of a job.
    """

    def __init__(self, base: Facts, columns: Sequence[str], rulebook: Rulebook) -> None:
        self._base = base
        self._rulebook = rulebook
        self._swift = Swift(rulebook)
        self._rules = list(rulebook.rules.values())
        self._kinds = _kinds(columns)
        self._read: dict[tuple[str, str], Change] = {}
        self._facts = [facts_read(rule, rulebook) for rule in self._rules]

    def judged(self, rows: Iterable[Row], first: int = 1) -> tuple[list[Judged], Summary]:
        """Judge some rows.

        Args:
            rows: The rows.
            first: Number of the first of them in the table, from 1.

        Returns:
            Each job, in the order of the rows, and what they come to.
        """
        found, summary = [], Summary()
        for number, row in enumerate(rows, start=first):
            name = str(row.get(NAME) or f"row {number}")
            found.append(self._one(name, row, summary))
        return found, summary

    def _one(self, name: str, row: Row, summary: Summary) -> Judged:
        summary.jobs += 1
        try:
            values = self._values(row)
        except ValueError as error:
            summary.refused += 1
            return Judged(name, problem=str(error))
        breached, undecided = [], []
        for at, verdict in enumerate(self._swift.verdicts(values)):
            told = verdict if isinstance(verdict, list) else [verdict]
            if Verdict.BREACHED in told:
                breached.append(at)
            elif Verdict.UNDECIDED in told:
                undecided.append(at)
        self._count(values, breached, undecided, summary)
        names = [rule.name for rule in self._rules]
        return Judged(
            name, tuple(names[at] for at in breached), tuple(names[at] for at in undecided)
        )

    def _values(self, row: Row) -> dict[str, Any]:
        """Return the facts of a row laid over those of the base job."""
        changes, unknown = [], []
        for path in self._kinds:
            cell = row.get(path)
            if cell is None or cell == "":
                unknown.append(path)
            else:
                changes.append(self._change(path, cell))
        values = dict(changed(self._base, changes).values)
        for path in unknown:
            values.pop(path, None)
        return values

    def _change(self, path: str, cell: Any) -> Change:
        key = (path, str(cell))
        if key not in self._read:
            try:
                kind = self._kinds[path]
                value, text = value_and_text(kind.read(_plain(cell, kind)))
            except ValueError as error:
                raise ValueError(f"{path}: {error}") from None
            self._read[key] = Change(path, value, text)
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
        remedies = {path for at in breached for path in self._rules[at].adjust}
        summary.remedies.update(remedies)


def _is_known(path: str, values: Mapping[str, Any]) -> bool:
    """Say whether a fact outside lists is known, or belongs to something known to be absent."""
    steps = path.split(".")
    groups = [".".join(steps[:depth]) for depth in range(1, len(steps))]
    return path in values or any(
        values.get(group) is False or isinstance(values.get(group), list) for group in groups
    )


def _kinds(columns: Iterable[str]) -> dict[str, Kind]:
    found, problems = {}, []
    for column in columns:
        kind = kind_at(column) if _is_outside_lists(column) else None
        if kind is None:
            hint = did_you_mean(column, [fact.path for fact in job_schema().facts()])
            sentence = f"The column {shown(column)} is no fact outside a list.{hint}"
            problems.append(Problem("", None, None, sentence, column))
            continue
        found[column] = kind
    if problems:
        raise Refused(problems)
    return found


def _is_outside_lists(path: str) -> bool:
    """Say whether a path leads to something of a job without passing through a list."""
    steps = path.split(".")
    around = [job_schema().find(".".join(steps[:depth])) for depth in range(1, len(steps) + 1)]
    return "[" not in path and not any(one is None or isinstance(one, Items) for one in around)


def _plain(cell: Any, kind: Kind) -> Any:
    """Return a cell as a job file would have it: tables know texts where files know truths."""
    from tundish.job.kinds import NumberKind, TextsKind, TruthKind, WholeKind

    if not isinstance(cell, str):
        return cell
    text = cell.strip()
    if isinstance(kind, TruthKind):
        return {"true": True, "false": False, "yes": True, "no": False}.get(text.lower(), text)
    if isinstance(kind, WholeKind | NumberKind):
        try:
            return int(text) if text.lstrip("+-").isdecimal() else float(text)
        except ValueError:
            return text
    if isinstance(kind, TextsKind):
        return [] if text == "none" else [word.strip() for word in text.split(";")]
    return text
