"""The page of limits quotes every bound, and the one that holds."""

from pathlib import Path

import pytest

from tundish.text import bounds

PAGE = (Path(__file__).parents[2] / "engine" / "LIMITS.md").read_text(encoding="utf-8")

QUOTED = {
    "LARGEST_FILE": "| any file | {mebibytes} MiB",
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
    "GREATEST_COUNT": "counts of {bound:,}",
    "MOST_COMPLETIONS": "at most {bound} completions of the job",
    "MOST_COMPLETION_STEPS": "all rules together for {bound:,} steps",
    "MOST_EXPLAINED_STEPS": "more than {bound:,} steps to explain",
    "MOST_EXPLAINED_STEPS_OF_ALL": "all together take at most {bound:,}, and of findings",
    "MOST_EXPLAINED_FINDINGS": "the first {bound:,} are explained",
    "MOST_TRIED_STEPS": "looked for during {bound:,} steps",
    "MOST_PROBLEMS": "{bound} problems are told",
    "LONGEST_TEXT": "texts of {bound:,} characters",
    "LONGEST_DEPENDENCE": "computed one from the other {bound} deep",
    "MOST_PACKS": "| packs of rules | {bound} read together",
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
INSIDE = {"MOST_CACHED_STEPS", "PARTS_AT_ONCE"}
"""Bounds of what is held in memory, which change nothing that anyone is told."""

BOUNDS = {name: value for name, value in vars(bounds).items() if name.isupper()}


def test_the_page_quotes_every_bound() -> None:
    assert set(QUOTED) == set(BOUNDS) - INSIDE


@pytest.mark.parametrize("name", QUOTED)
def test_the_page_quotes_the_bound_that_holds(name: str) -> None:
    bound = BOUNDS[name]
    said = QUOTED[name].format(bound=bound, mebibytes=bound // 2**20)
    assert said in " ".join(PAGE.split())
