"""Targets that read files of a job: TOML, jobs with their sheets, tables of jobs."""

from __future__ import annotations

import json
import tempfile
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from random import Random
from typing import Any

import tomli_w

from fuzzing.mutating import NUMBERS, STRANGE, VALUES, mutated, thinned
from fuzzing.target import Target, as_files, as_text, in_short, told_well
from rulebook.packs import RULE, load
from tundish import Job, Refused, Rulebook
from tundish.findings.assess import assess, digest_of
from tundish.job.model.schema import Fact, Record
from tundish.job.schema import job_schema
from tundish.job.table_columns import read_table_columns
from tundish.portfolio.by_rows import RowPortfolio
from tundish.results.as_data import as_data, as_json
from tundish.text.bundled_folders import bundled_folder
from tundish.text.place import Places
from tundish.text.row_file import read_rows
from tundish.text.toml_file import read_toml

_HOME = bundled_folder("sample_jobs")
_JOBS = [path.read_text() for path in sorted(_HOME.glob("*.toml"))]
_TYPES = [path.read_text() for path in sorted(_HOME.glob("house_types/*.toml"))]
_SHEETS = [path.read_text() for path in sorted(_HOME.glob("unit_sheets/*.toml"))]
_FACTS = list(job_schema().facts())
_PATHS = [fact.path for fact in _FACTS]
_KEYS = sorted({step for path in _PATHS for step in path.split(".")})
_FACT_WORDS = [*_KEYS, *_PATHS]
_TOML = (
    "a = 1\n[b]\nc.d = '5 mm'\n[[e]]\nf = [1, 2.5, true]\ng = { h = 1979-05-27, i = '' }\n",
    '\ufeffa = \'\'\'\nx\n\'\'\'\r\n"b c" = """\ny \\\n  z"""\r\n# remark\r\n[a-b.\'c.d\'."e"]\r\n',
    "a = [\n  1, # one\n  { b = [ {}, { c = 0x1F } ] },\n]\nt = 10:00:00\nn = nan\ni = -inf\n",
    "[[a]]\n[[a.b]]\nc = 1\n[[a.b]]\n[a.b.d]\n[[a]]\n",
)


@cache
def scratch() -> Path:
    """Return a folder of this process alone, for files that are read."""
    # In memory, where there is such a place: a disk takes longer than most readers.
    memory = "/dev/shm" if Path("/dev/shm").is_dir() else None
    folder = tempfile.TemporaryDirectory(prefix="fuzzing-", dir=memory)
    _KEPT.append(folder)
    return Path(folder.name)


_KEPT: list[Any] = []


def write(name: str, text: str) -> Path:
    """Write a file into the scratch folder; a surrogate stands for the byte it came from."""
    path = scratch() / name
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_bytes(text.encode("utf-8", "surrogateescape"))
    return path


_MISTAKES = (
    *("yes", "True", "none", "copper", "120 mm", "3,5", "3,5 m", "30.11.2026", "11/30/2026", ".5"),
    *("“x”", "„x“", "’", ":", ":=", "//", ";", "\u00a0", "\u200b", "[a", "[[a]", "a b", "[b]"),
    *('"C:\\jobs"', '"x', "'x", '"""', "(1, 2)", "- a", "{ a = 1, }", "[[e]]", "[e]", "a..b"),
)


# -- TOML --------------------------------------------------------------------------------------


def _toml(chance: Random) -> str:
    text = (
        chance.choice(_TOML) if chance.random() < 0.6 else thinned(chance, chance.choice(_JOBS), 2)
    )
    return mutated(chance, text, _TOML, (*STRANGE, *VALUES, *NUMBERS, *_MISTAKES))


def _hold_toml(text: str) -> str:
    path = write("any.toml", text)
    try:
        file = read_toml(path)
    except Refused as refused:
        return told_well(refused, {str(path): text})
    places, lines = Places(file.text), file.text.split("\n")
    for way in _ways(file.data, ()):
        for line, column in (places.of(way), places.value_of(way)):
            assert 1 <= line <= len(lines) and 1 <= column <= len(lines[line - 1]) + 1, (way, line)
        assert places.has(way), way
    again = read_toml(write("again.toml", tomli_w.dumps(file.data))).data
    assert _in_order(again) == _in_order(file.data)
    return "accepted"


def _in_order(data: Any) -> str:
    """Return data as a text, as nan is not equal to itself; the order of keys means nothing."""
    if isinstance(data, dict):
        return repr(sorted((key, _in_order(value)) for key, value in data.items()))
    return repr([_in_order(item) for item in data] if isinstance(data, list) else data)


def _ways(data: Any, way: tuple[Any, ...]) -> list[tuple[Any, ...]]:
    inner = (
        list(data.items())
        if isinstance(data, dict)
        else list(enumerate(data))
        if isinstance(data, list)
        else []
    )
    found = [way] if way else []
    for key, value in inner:
        found.extend(_ways(value, (*way, key)))
    return found


# -- jobs --------------------------------------------------------------------------------------


def _job(chance: Random) -> str:
    text = thinned(chance, chance.choice(_JOBS), chance.choice((1, 2, 4, 9)))
    for _ in range(chance.choice((0, 1, 3))):
        fact = chance.choice(_FACTS)
        value = _as_value(fact) if chance.random() < 0.7 else chance.choice(VALUES)
        text = f"{fact.path} = {value}\n{text}"
    return text if chance.random() < 0.3 else mutated(chance, text, _JOBS, _FACT_WORDS)


def _as_value(fact: Fact) -> str:
    """Return how a fact may stand in a file."""
    if fact.kind in ("truth", "number", "date"):
        return fact.example
    if fact.kind == "texts" and not fact.choices:
        return fact.example
    written = chosen_or(fact.choices, fact.example)
    return f'["{written}"]' if fact.kind == "texts" else f'"{written}"'


def chosen_or(choices: tuple[str, ...], example: str) -> str:
    """Return the last of some words, or an example where there are none."""
    return choices[-1] if choices else example


def _hold_job(text: str) -> str:
    path = write("job.toml", text)
    try:
        job = Job.from_file(path)
        facts = Rulebook.built_in().facts(job)
    except Refused as refused:
        return told_well(refused, {str(path): text})
    return _hold_whole(job, text, facts.values)


def _hold_whole(job: Job, text: str, values: Any) -> str:
    book = Rulebook.built_in()
    assert job.source is not None
    data = job.source.as_one_file(scratch())
    again = Job.from_file(write("again.toml", tomli_w.dumps(data)))
    assert digest_of(book.facts(again)) == digest_of(book.facts(job))
    book.evaluator.verdicts(values)
    if Random(repr(text)).random() < 0.02:
        try:
            found = assess(job)
        except Refused as refused:  # it waives a rule that is not there
            return told_well(refused)
        json.loads(as_json(as_data(found)))
    return "accepted"


def _sheets(chance: Random) -> str:
    job = 'unit_sheet = "sheet.toml"\n' + thinned(chance, chance.choice(_JOBS[:3]), 3).replace(
        "unit_sheet = ", "# "
    )
    base = thinned(chance, chance.choice([*_JOBS, *_TYPES]), 3).replace("unit_sheet = ", "# ")
    if chance.random() < 0.5:
        job = 'based_on = "base.toml"\n' + job
    over = 'of_job = "job.toml"\n' + thinned(chance, chance.choice(_JOBS), 2).replace(
        "unit_sheet = ", "# "
    )
    files = {
        "job.toml": job,
        "base.toml": base,
        "sheet.toml": thinned(chance, chance.choice(_SHEETS), 4),
        "over.toml": over.replace("of_job = ", "# ", over.count("of_job") - 1),
    }
    name = chance.choice([*files, "over.toml"])
    files[name] = mutated(
        chance, files[name], [*_JOBS, *_SHEETS], [*_FACT_WORDS, '""', "of_job", "based_on"]
    )
    return as_text(files)


def _hold_sheets(text: str) -> str:
    files = as_files(text)
    for name in ("job.toml", "base.toml", "sheet.toml", "over.toml"):
        write(name, files.get(name, ""))
    try:
        job = Job.from_file(scratch() / "over.toml")
        values = Rulebook.built_in().facts(job).values
    except Refused as refused:
        return told_well(refused, {str(scratch() / name): one for name, one in files.items()})
    return _hold_whole(job, text, values)


# -- tables of jobs ----------------------------------------------------------------------------


def _outside_lists(record: Record) -> Iterator[Fact]:
    for entry in record.fields.values():
        if isinstance(entry, Record):
            yield from _outside_lists(entry)
        elif isinstance(entry, Fact):
            yield entry


_OUTSIDE = {fact.path: fact for fact in _outside_lists(job_schema())}
_COLUMNS = list(_OUTSIDE)
_CELLS = (
    *(
        "",
        " ",
        "none",
        "true",
        "no",
        "5 mm",
        "-5 mm",
        "0 m",
        "5 kg",
        "20 degC",
        "7",
        "1e400",
        "nan",
    ),
    *("[]", "2026-11-25", "a;b", ";", "'", '"', "x" * 300, "1,5 m", "design", "GB", "outdoor air"),
    *("\x00", "é", "\ud83d\ude00".encode("utf-16", "surrogatepass").decode("utf-16"), "9" * 5000),
)


def _rows(chance: Random) -> str:
    columns = _columns(chance)
    rows = [
        columns,
        *([_cell(chance, one) for one in columns] for _ in range(chance.randint(0, 4))),
    ]
    text = "\n".join(",".join(row) for row in rows)
    if chance.random() < 0.7:
        return text
    return mutated(chance, text, [text, "job,site.snow_depth\na,5 mm"], [*_CELLS, *_COLUMNS, ","])


def _columns(chance: Random) -> list[str]:
    columns = ["job", *chance.sample(_COLUMNS, chance.randint(1, 4))]
    return columns if chance.random() < 0.95 else [*columns, chance.choice(_PATHS)]


def _cell(chance: Random, column: str) -> str:
    fact = _OUTSIDE.get(column)
    right = chance.random() < 0.7 and fact is not None
    cell = chosen_or(fact.choices, fact.example) if right and fact else chance.choice(_CELLS)
    return f'"{cell}"' if chance.random() < 0.3 else cell


def _json_rows(chance: Random) -> str:
    columns = _columns(chance)
    values = (
        *_CELLS,
        None,
        True,
        False,
        0,
        1.5,
        [],
        {},
        [[]],
        ["a"],
        {"a": 1},
        -1,
        10**400,
        "none",
    )
    rows = [
        {
            key: _cell(chance, key) if chance.random() < 0.5 else chance.choice(values)
            for key in columns
        }
        for _ in range(chance.randint(1, 3))
    ]
    text = "\n".join(json.dumps(row) for row in rows)
    if chance.random() < 0.8:
        return text
    words = ("NaN", "Infinity", "null", '{"a"', "[", "]", "{", "}", ":", ",", "1e999", '"\\ud800"')
    return mutated(chance, text, [text], (*words, *_COLUMNS))


def _hold_rows(suffix: str, text: str) -> str:
    path, book, base = write(f"rows{suffix}", text), _few_rules(), _base()
    try:
        columns, rows = read_rows(path)
        portfolio = RowPortfolio(
            base, read_table_columns([one for one in columns if one != "job"]), book
        )
        found, summary = portfolio.judged(list(rows))
    except Refused as refused:
        return told_well(refused, {str(path): text})
    assert summary.jobs == len(found)
    for judged in found:
        json.dumps([judged.name, judged.breached, judged.undecided, judged.problem])
        if judged.problem:
            assert judged.problem[-1:] in (".", "?"), judged.problem
    problem = next((one.problem for one in found if one.problem), "")
    return in_short(problem.partition(": ")[2]) if problem else "accepted"


@cache
def _few_rules() -> Rulebook:
    """Return a small rulebook: the real one takes long to make ready for each table."""
    lists = ("water.run", "hot_water.run", "electricity.circuit")
    rules = {
        f"snow/of-{path.replace('.', '-')}.toml": RULE.replace(
            "placement.height_below >= site.snow_depth",
            f"count({path}) > 1 or site.snow_depth > 1 mm or job.region in ['GB', 'DE']",
        )
        for path in lists
    }
    return load(scratch() / "few", {"snow/base.toml": RULE, **rules})


@cache
def _base() -> Any:
    return Rulebook.built_in().facts(Job.from_data({"job.region": "GB", "job.stage": "design"}))


TOML = Target("toml", _toml, _hold_toml)
JOB = Target("jobs", _job, _hold_job)
SHEETS = Target("sheets", _sheets, _hold_sheets)
ROWS = Target("csv", _rows, lambda text: _hold_rows(".csv", text))
JSON_ROWS = Target("jsonl", _json_rows, lambda text: _hold_rows(".jsonl", text))
