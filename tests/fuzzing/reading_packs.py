"""Targets that read files of a rulebook: a rule, a table, a whole pack."""

from __future__ import annotations

from pathlib import Path
from random import Random

from fuzzing.expressions import WORDS, an_expression
from fuzzing.mutating import STRANGE, VALUES, mutated
from fuzzing.reading_files import scratch
from fuzzing.target import Target, as_files, as_text, told_well
from rulebook.packs import PROVISIONS, QUANTITY, RULE, SOURCES, TABLE
from tundish import Job, Refused, Rulebook
from tundish.job.schema import job_schema
from tundish.language.budget.budget import TooManySteps
from tundish.rulebook.evaluate.judge import judge
from tundish.rulebook.files.faults import Faults
from tundish.rulebook.files.pack import Pack
from tundish.rulebook.files.read_file import RuleFile
from tundish.rulebook.files.table_files import CitedTable, read_table
from tundish.rulebook.link.expressions import Linker
from tundish.rulebook.link.rules import link_rules
from tundish.rulebook.prove.prove import prove
from tundish.text.bundled_folders import bundled_folder
from tundish.text.toml_file import parse_toml

_RULES = bundled_folder("rules")
_NO_RULE = ("quantities", "provisions", "constraints", "tables")
_NO_RULE += ("sources", "facts", "sizes", "pack")


def _texts(*patterns: str) -> list[str]:
    return [path.read_text() for pattern in patterns for path in sorted(_RULES.glob(pattern))]


_RULE_TEXTS = [
    path.read_text()
    for path in sorted(_RULES.glob("*/*.toml"))
    if not set(_NO_RULE) & {path.stem, path.parent.name}
]
_TABLE_TEXTS = _texts("tables/*.toml", "national/*/tables/*.toml")
_QUANTITY_TEXTS = _texts("*/quantities.toml", "*/quantities/*.toml")
_PATHS = [fact.path for fact in job_schema().facts()]
_KEYS = (
    *("title", "applies", "requires", "severity", "stage", "because", "remedy", "breach", "adjust"),
    *("cite", "reviewed", "case", "why", "given", "outcome", "unknown", "each", "regions", "note"),
    *("formula", "unit", "of", "gives", "label", "about", "value", "item", "replaces", "formerly"),
    *("overrides", "overrides_because"),
    *(
        "keys",
        "rows",
        "read",
        "name",
        "recall",
        "at",
        "source",
        "retire",
        "rule",
        "format",
        "basis",
    ),
    *("part", "needed", "number", "supplier", "with_unit", "choices", "kind", "question", "report"),
    *("unnoticed", "change", "edition", "of_table", "holds_from", "holds_until", "also_called"),
)
_WORDS = (*_KEYS, *WORDS, *STRANGE, *_PATHS[::5], "water.run as run", "{a.b}", "{", "}}", "fault")


# -- one rule, in the built-in rulebook ----------------------------------------------------------


def _rule(chance: Random) -> str:
    text = chance.choice(_RULE_TEXTS)
    head, *cases = text.split("\n[[case]]")
    kept = [case for case in cases if chance.random() < 0.3]
    return mutated(chance, "\n[[case]]".join([head, *kept]), _RULE_TEXTS, _WORDS)


def _hold_rule(text: str) -> str:
    book = Rulebook.built_in()
    name = "fuzzed/rule"
    try:
        file = parse_toml(text, "rule.toml")
    except Refused as refused:
        return told_well(refused, {"rule.toml": text})
    problems = Faults()
    linker = Linker(book.scope, book.sources, problems)
    found = link_rules([Pack(Path(), rules={name: RuleFile.of(file)})], linker)
    if problems:
        return told_well(Refused(problems), {"rule.toml": text})
    rule = found[name]
    jobs = [Job.from_data({})]
    for case in rule.cases:
        try:
            jobs.append(Job.from_data(dict(case.given)))
        except Refused as refused:
            told_well(refused)
    for job in jobs:
        try:
            facts = book.facts(job)
        except Refused as refused:
            told_well(refused)
            continue
        assert list(judge(rule, facts, book.session(facts.values)))
    return "accepted"


# -- one table -----------------------------------------------------------------------------------


def _table(chance: Random) -> str:
    text = chance.choice((*_TABLE_TEXTS, TABLE, TABLE))
    lines = text.split("\n")
    if len(lines) > 25:  # a few of its rows do
        lines = [line for at, line in enumerate(lines) if at < 12 or chance.random() < 0.2]
        text = "\n".join([*lines, "" if "]" in lines[-1:] else "]"])
    return mutated(chance, text, [TABLE, *_TABLE_TEXTS[:4]], (*_WORDS, *VALUES))


def _hold_table(text: str) -> str:
    try:
        file = RuleFile.of(parse_toml(text, "table.toml"))
    except Refused as refused:
        return told_well(refused, {"table.toml": text})
    problems = Faults()
    sources = {**Rulebook.built_in().sources}
    for name in ("code", "practice"):
        sources.setdefault(name, next(iter(sources.values())))
    table = read_table("fuzzed", file, sources, problems)
    if problems or table is None:
        return told_well(Refused(problems), {"table.toml": text})
    _read_about(table)
    return "accepted"


def _read_about(cited: CitedTable) -> None:
    table, chance = cited.table, Random(len(cited.table.tree))
    for column in table.columns:
        for _ in range(10):
            keys = [
                chance.choice((0.0, 1.0, 1e-9, -1e9, 300.0, 1e300))
                if key.kind.name == "quantity"
                else chance.choice(("", "copper", *map(str, list(table.tree)[:3])))
                for key in table.keys
            ]
            reading = table.read(column, keys)
            assert (reading.value is None) == bool(reading.why)


# -- a whole pack --------------------------------------------------------------------------------


_FILES = {
    "sources.toml": SOURCES,
    "snow/base.toml": RULE,
    "snow/quantities.toml": QUANTITY,
    "tables/ratings.toml": TABLE,
    "order/provisions.toml": PROVISIONS,
    "pack.toml": "format = 1\nretire = []\n",
    "facts.toml": '[mast]\nquestion = "How high is the mast?"\nunit = "m"\n',
    "sizes.toml": '["placement.height_below"]\nsizes = ["100 mm", "300 mm"]\n'
    'cite = [{ source = "practice" }]\nreviewed = 2026-11-25\n',
    "national/GB/snow/deep.toml": RULE.replace(
        "reviewed", 'overrides = "snow/base"\noverrides_because = "So."\nreviewed', 1
    ),
}
_NAMES = (
    *_FILES,
    *("a/b/c.toml", "x.toml", "national/gb/a/b.toml", "national/DE/tables/ratings.toml"),
    *("snow/quantities/a.toml", "é/è.toml", ".hidden/a.toml", "snow/Base.toml", "tables/a/b.toml"),
    *("national/GB/sources.toml", "national/GB/pack.toml", "snow/.toml", "a b/c d.toml"),
)
_ALL_TEXTS = [*_FILES.values(), *_RULE_TEXTS[::9], *_QUANTITY_TEXTS[::5]]


def _pack(chance: Random) -> str:
    names = ["sources.toml", "snow/base.toml"]
    names += [name for name in _FILES if name not in names and chance.random() < 0.4]
    files = {name: _FILES[name] for name in names}
    for _ in range(chance.choice((1, 1, 2))):
        name = chance.choice(names)
        match chance.randint(0, 5):
            case 0:
                files[chance.choice(_NAMES)] = chance.choice(_ALL_TEXTS)
            case 1:
                formula = an_expression(chance, "truth", 2)
                files["snow/base.toml"] = RULE.replace("placement.height_below", formula, 1)
            case 2:
                files["snow/quantities.toml"] = _tangle(chance)
            case _:
                files[name] = mutated(chance, files[name], _ALL_TEXTS, _WORDS)
    return as_text(files)


def _tangle(chance: Random) -> str:
    """Return quantities that are made of each other, in a ring or in a row."""
    count = chance.choice((2, 3, 64, 65, 70))
    last = chance.choice(("q0", "site.snow_depth", f"q{count - 1}"))
    told = []
    for at in range(count):
        formula = f"q{at + 1} + q{at + 1}" if at + 1 < count else last
        told.append(
            QUANTITY.replace("spare_height", f"q{at}").replace(
                "placement.height_below - site.snow_depth", formula
            )
        )
    return "\n".join(told)


def _hold_pack(text: str) -> str:
    folder = scratch() / "pack"
    files = as_files(text)
    for old in sorted(folder.rglob("*"), reverse=True):
        old.unlink() if old.is_file() else old.rmdir()
    folder.mkdir(exist_ok=True)
    for name, content in files.items():
        path = folder / name
        if ".." in Path(name).parts or path.is_dir() or Path(name).is_absolute():
            return "no such input"
        try:
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_bytes(content.encode("utf-8", "surrogateescape"))
        except (OSError, ValueError):  # two of its names cannot both be
            return "no such input"
    try:
        book = Rulebook.load(folder, with_built_in=False)
    except Refused as refused:
        return told_well(refused, {str(folder / name): one for name, one in files.items()})
    assert Rulebook.load(folder, with_built_in=False).digest == book.digest
    try:
        for proof in prove(book):
            for failure in proof.failures:
                assert failure.sentence
    except TooManySteps:
        return "accepted, too many steps"
    book.evaluator.verdicts({})
    return "accepted"


RULES = Target("rules", _rule, _hold_rule)
TABLES = Target("tables", _table, _hold_table)
PACKS = Target("packs", _pack, _hold_pack)
