"""The jobs of a table judged by columns, many at once."""

from __future__ import annotations

import threading
from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from functools import cached_property, reduce

import numpy as np

from tundish.groundwork.dataclass import dataclass
from tundish.job.facts import Facts
from tundish.job.model.paths import outer_paths
from tundish.job.table_columns import NAME, TableColumn
from tundish.language.evaluate.columns.column import FALSE, Array, known_in
from tundish.portfolio.fact_columns import FactColumns, varying_paths
from tundish.portfolio.summary import Summary
from tundish.rulebook.evaluate.columns import BREACHED, UNDECIDED, ColumnJudge
from tundish.rulebook.link.facts_read import facts_read
from tundish.rulebook.rulebook import Rulebook
from tundish.text.columns import Coded, RowsByColumn


@dataclass(frozen=True, slots=True)
class JudgedColumns:
    """Some jobs of a table, judged.

    Attributes:
        names: What each is called.
        open: Positions of the rules whose verdicts differ between jobs.
        verdicts: Those verdicts as numbers: a row a rule, a column a job.
        judged: Which jobs could be judged.
        problems: Why the others could not, by place.
        summary: What they come to.
    """

    names: list[str]
    open: Sequence[int]
    verdicts: Array
    judged: Array
    problems: Mapping[int, str]
    summary: Summary


class ColumnPortfolio:
    """Judges tables of jobs by columns.

    Args:
        base: The facts of the base job.
        columns: The columns of the table, without that of the names.
        rulebook: The rules.

    Attributes:
        rules: The names of the rules, in their order.
        settled: The verdict that all jobs share, by position of the rule.
    """

    def __init__(self, base: Facts, columns: Sequence[TableColumn], rulebook: Rulebook) -> None:
        self.base, self.columns, self.rulebook = base, tuple(columns), rulebook
        self.rules = list(rulebook.rules)
        self.judge = ColumnJudge(rulebook, base, varying_paths(columns))
        self.settled = self.judge.settled
        constraints = list(rulebook.constraints.values())
        words = self.judge.words
        self._constraints = ColumnJudge(rulebook, base, varying_paths(columns), words, constraints)
        self.facts = facts_of(self.judge, base, columns, rulebook)
        self._tally = _Tally(self.judge, base, rulebook)
        self._lock = threading.Lock()

    def judged(self, part: RowsByColumn, named: bool = True) -> JudgedColumns:
        """Judge some rows. One thread at a time does; others wait.

        Args:
            part: The rows.
            named: Whether their names are wanted even where all could be judged.
        """
        with self._lock:
            facts, problems = self.facts.read(part)
            self._add_contradictions(part.rows, facts, problems)
            verdicts = self.judge.verdicts(part.rows, facts)
        judged = np.ones(part.rows, bool)
        judged[list(problems)] = False
        summary = self._tally.summed(verdicts, judged, facts)
        names = names_in(part) if named or problems else []
        return JudgedColumns(names, self.judge.open, verdicts, judged, problems, summary)

    def _add_contradictions(
        self, rows: int, facts: Mapping[str, Array], problems: dict[int, str]
    ) -> None:
        broken = (self._constraints.verdicts(rows, facts) == BREACHED).any(axis=0)
        for row in np.flatnonzero(broken).tolist():
            try:
                values = self._constraints.values_of(row, facts)
                self.rulebook.contradictions.check_row(values, self.base)
            except ValueError as error:
                problems.setdefault(row, str(error))


def facts_of(
    judge: ColumnJudge, base: Facts, columns: Sequence[TableColumn], rulebook: Rulebook
) -> FactColumns:
    """Return what makes cells into the columns that a judge takes."""
    kinds = {path: meaning.kind for path, meaning in rulebook.scope.facts.items()}
    return FactColumns(columns, base, kinds, judge.words)


def names_in(part: RowsByColumn) -> list[str]:
    """Return what the jobs of some rows are called: as they say, or by their number."""
    cells = part.columns.get(NAME)
    if isinstance(cells, Coded):
        cells = [cells.distinct[place] for place in cells.places.tolist()]
    elif isinstance(cells, np.ndarray):
        cells = [None if cell != cell else f"{cell:g}" for cell in cells.tolist()]
    elif cells is None:
        cells = [None] * part.rows
    return [
        str(cell) if cell not in (None, "") else f"row {part.first + at}"
        for at, cell in enumerate(cells)
    ]


class _Tally:
    """Counts what verdicts come to; what all jobs share is counted once."""

    def __init__(self, judge: ColumnJudge, base: Facts, rulebook: Rulebook) -> None:
        rules = list(rulebook.rules.values())
        self._judge = judge
        self._base = base
        self._names = [rule.name for rule in rules]
        self._reads = [facts_read(rule, rulebook.quantities) for rule in rules]
        self._adjust = [rule.adjust for rule in rules]
        self._open_by_fact = _by_fact(
            {row: self._reads[rule] for row, rule in enumerate(judge.open)}
        )
        self._open_by_change = _by_fact(
            {row: self._adjust[rule] for row, rule in enumerate(judge.open)}
        )

    def _settled_at(self, code: int) -> list[int]:
        return [rule for rule, verdict in self._judge.settled.items() if verdict == code]

    @cached_property
    def _always_read(self) -> frozenset[str]:
        """Return the facts that a rule reads which is undecided in every job."""
        undecided = self._settled_at(UNDECIDED)
        return frozenset[str]().union(*(self._reads[rule] for rule in undecided))

    def summed(self, verdicts: Array, judged: Array, facts: Mapping[str, Array]) -> Summary:
        """Count the verdicts of some jobs."""
        rows, number = len(judged), int(judged.sum())
        summary = Summary(jobs=rows, refused=rows - number)
        if not number:
            return summary
        breached = (verdicts == BREACHED) & judged
        always = self._settled_at(BREACHED)
        summary.clean = 0 if always else int((~breached.any(axis=0) & judged).sum())
        summary.breaches.update({self._names[rule]: number for rule in always})
        counts = breached.sum(axis=1).tolist()
        summary.breaches.update(
            {
                self._names[rule]: count
                for rule, count in zip(self._judge.open, counts, strict=True)
                if count
            }
        )
        summary.unknown = self._unknown((verdicts == UNDECIDED) & judged, judged, facts)
        everywhere = {path for rule in always for path in self._adjust[rule]}
        summary.adjustable.update(dict.fromkeys(everywhere, number))
        summary.adjustable.update(_counted(breached, self._open_by_change, everywhere))
        return summary

    def _unknown(self, undecided: Array, judged: Array, facts: Mapping[str, Array]) -> Counter[str]:
        counts: Counter[str] = Counter()
        for path in self._always_read | self._open_by_fact.keys():
            known = self._known(path, facts)
            if known is True:
                continue
            asked = judged
            if path not in self._always_read:
                asked = np.any(undecided[self._open_by_fact[path]], axis=0)
            number = int((asked if known is False else asked & ~known).sum())
            if number:
                counts[path] = number
        return counts

    def _known(self, path: str, facts: Mapping[str, Array]) -> Array | bool:
        """Say where a fact is known, or belongs to something known to be absent, or to a list."""
        values = self._base.values
        groups = outer_paths(path)
        if any(isinstance(values.get(group), list) for group in groups):
            return True
        if any(group not in facts and values.get(group) is False for group in groups):
            return True
        if path not in facts and path in values:
            return True
        varying = [facts[group] == FALSE for group in groups if group in facts]
        if path in facts:
            varying.append(known_in(facts[path]))
        return reduce(np.logical_or, varying) if varying else False


def _by_fact(paths: Mapping[int, Iterable[str]]) -> dict[str, list[int]]:
    rows_by_path: dict[str, list[int]] = {}
    for row, several in paths.items():
        for path in several:
            rows_by_path.setdefault(path, []).append(row)
    return rows_by_path


def _counted(where: Array, rows: Mapping[str, list[int]], without: Iterable[str]) -> dict[str, int]:
    """Count, for each fact, the jobs in which one of its rules is marked."""
    counts = {
        path: int(where[some].any(axis=0).sum())
        for path, some in rows.items()
        if path not in without
    }
    return {path: count for path, count in counts.items() if count}
