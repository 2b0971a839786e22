"""The verdicts on a portfolio as a file: JSON lines, or columns."""

from __future__ import annotations

import json
from collections.abc import Sequence
from typing import Any

import numpy as np

from tundish.portfolio.by_columns import ColumnPortfolio, JudgedColumns
from tundish.portfolio.summary import made_from
from tundish.rulebook.evaluate.columns import BREACHED, CODES, UNDECIDED

VERDICTS = [str(verdict) for verdict in sorted(CODES, key=lambda verdict: CODES[verdict])]
"""The words for verdicts, each at its number."""


def as_json_lines(portfolio: ColumnPortfolio, judged: JudgedColumns) -> bytes:
    """Return a line of JSON for each job: what it breaches, and what is undecided."""
    names = [json.dumps(name) for name in portfolio.rules]
    lines = []
    origin = json.dumps(made_from(portfolio.base, portfolio.rulebook))[1:]
    lists = [_listed(portfolio, judged, names, code) for code in (BREACHED, UNDECIDED)]
    for at, (job, breached, undecided) in enumerate(zip(judged.names, *lists, strict=True)):
        problem = judged.problems.get(at, "")
        if problem:
            breached = undecided = ""
        lines.append(
            f'{{"job": {json.dumps(job)}, "breached": [{breached}], '
            f'"undecided": [{undecided}], "problem": {json.dumps(problem)}, {origin}\n'
        )
    return "".join(lines).encode()


def _listed(
    portfolio: ColumnPortfolio, judged: JudgedColumns, names: list[str], code: int
) -> list[str]:
    """Return, for each job, the rules with one verdict, in their order."""
    always = [rule for rule, verdict in portfolio.settled.items() if verdict == code]
    has_verdict = judged.verdicts == code
    # Jobs that share a set of verdicts share their text, and there are far fewer of those.
    packed = np.packbits(has_verdict, axis=0).T
    keys = [row.tobytes() for row in packed]
    texts: dict[bytes, str] = {}
    for at, key in enumerate(keys):
        if key not in texts:
            own = [
                rule
                for rule, is_open in zip(judged.open, has_verdict[:, at], strict=True)
                if is_open
            ]
            texts[key] = ", ".join(names[rule] for rule in sorted([*always, *own]))
    return [texts[key] for key in keys]


def as_table(portfolio: ColumnPortfolio, several: Sequence[JudgedColumns]) -> Any:
    """Return a table: a row a job, a column a rule, its verdict out of four words.

    The first columns are `job` and `problem`; a job that could not be judged has no verdicts.
    """
    import pyarrow as pa

    names = [name for part in several for name in part.names]
    problems = [part.problems.get(at) for part in several for at in range(len(part.names))]
    columns = [pa.array(names, pa.string()), pa.array(problems, pa.string())]
    judged = np.concatenate([part.judged for part in several])
    verdicts = np.concatenate([part.verdicts for part in several], axis=1).view(np.int8)
    mask = None if judged.all() else ~judged
    place = {rule: at for at, rule in enumerate(portfolio.judge.open)}
    words = pa.array(VERDICTS, pa.string())
    alike: dict[int, Any] = {}
    for rule in range(len(portfolio.rules)):
        if rule in place:
            places = pa.array(verdicts[place[rule]], mask=mask)
        else:
            code = portfolio.settled[rule]
            if code not in alike:
                alike[code] = pa.array(np.full(len(names), code, np.int8), mask=mask)
            places = alike[code]
        columns.append(pa.DictionaryArray.from_arrays(places, words))
    return pa.Table.from_arrays(columns, schema=schema_of(portfolio.rules))


def schema_of(rules: list[str]) -> Any:
    """Return the schema of the columns: `job`, `problem` and a column for each rule."""
    import pyarrow as pa

    verdict = pa.dictionary(pa.int8(), pa.string())
    fields = [pa.field("job", pa.string()), pa.field("problem", pa.string())]
    return pa.schema([*fields, *(pa.field(name, verdict) for name in rules)])
