"""The README's Python runs as it stands there."""

import re
from pathlib import Path

import pytest

from tundish.text import bounds

TOP = Path(__file__).parents[2]
README = (TOP / "README.md").read_text(encoding="utf-8")
BLOCKS = re.findall(r"```python\n(.*?)```", README, re.S)


def test_there_is_python_in_the_readme() -> None:
    assert BLOCKS


@pytest.mark.parametrize("code", BLOCKS)
def test_the_readme_code_runs(
    code: str, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(TOP)
    exec(compile(code, "README.md", "exec"), {"__name__": "__main__"})
    shown = re.search(r"# -> (.*)", code)
    assert shown is not None
    assert shown[1] in capsys.readouterr().out


QUOTED = {
    "LARGEST_FILE": "Of any file: {mebibytes} MiB",
    "MOST_VALUES": "{bound:,} keys and entries of lists",
    "LONGEST_NAME": "keys of {bound} characters",
    "LONGEST_LIST": "lists of {bound:,}",
    "MOST_BASES": "based on up to {bound} others, each based on the next",
    "LONGEST_EXPRESSION": "{bound:,} characters",
    "MOST_TOKENS": "{bound:,} words and signs",
    "DEEPEST_NESTING": "nesting {bound}",
    "LONGEST_QUANTITY": "quantities of {bound};",
    "LONGEST_CHAIN": "{bound} terms in a row",
    "DEEPEST_TREE": "{bound} parts inside each other",
    "DEEPEST_LOOPS": "loops nested {bound} deep",
    "MOST_STEPS": "more than {bound:,} steps in loops stays undecided",
    "MOST_STEPS_OF_ALL": "all together take at most {bound:,}, in equal shares",
    "MOST_FINDINGS_OF_ITEMS": "at most {bound:,} findings on items",
    "MOST_EXPLAINED_STEPS": "more than {bound:,} steps to explain",
    "MOST_EXPLAINED_STEPS_OF_ALL": "all together take at most {bound:,}, and of findings",
    "MOST_EXPLAINED_FINDINGS": "the first {bound:,} are explained",
    "MOST_TRIED_STEPS": "looked for during {bound:,} steps",
    "MOST_PROBLEMS": "{bound} problems are told",
    "LONGEST_TEXT": "texts of {bound:,} characters",
    "LONGEST_DEPENDENCE": "computed one from the other {bound} deep",
    "MOST_PACKS": "Of packs: {bound} read together",
    "MOST_FILES": "{bound:,} files",
    "LARGEST_RULEBOOK": "files, {mebibytes} MiB and",
    "MOST_RULES": "{bound:,} rules, quantities and parts",
    "MOST_PARTS": "{bound:,} parts in all their expressions",
    "MOST_CITATIONS": "{bound} citations",
    "MOST_ADJUSTED": "{bound} facts to adjust",
    "MOST_ROWS": "tables of {bound:,} rows",
    "MOST_KEYS": "{bound} keys and",
    "MOST_COLUMNS": "keys and {bound:,} columns",
    "MOST_REGIONS": "rules for more than {bound} regions",
    "LARGEST_RESULT": "results of over {mebibytes} MiB",
    "CHUNK_ROWS": "{bound:,} rows of it are held at a time",
}
INSIDE = {"MOST_KEPT_STEPS", "PARTS_AT_ONCE"}
"""Bounds of what is held in memory, which change nothing that anyone is told."""

BOUNDS = {name: value for name, value in vars(bounds).items() if name.isupper()}


def test_the_readme_quotes_every_bound() -> None:
    assert set(QUOTED) == set(BOUNDS) - INSIDE


@pytest.mark.parametrize("name", QUOTED)
def test_the_readme_quotes_the_bound_that_holds(name: str) -> None:
    bound = BOUNDS[name]
    said = QUOTED[name].format(bound=bound, mebibytes=bound // 2**20)
    assert said in " ".join(README.split())
