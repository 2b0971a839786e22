"""Packs at each bound are read; one past it they are refused, with what would be right."""

from pathlib import Path

import pytest

from rulebook.packs import QUANTITY, RULE, TABLE, load, only_problem
from tundish.rulebook.rulebook import Rulebook
from tundish.text.bounds import (
    MOST_ADJUSTED,
    MOST_CITATIONS,
    MOST_COLUMNS,
    MOST_KEYS,
    MOST_PACKS,
    MOST_ROWS,
)
from tundish.text.problem import Problem, Refused

CITE = '[{ source = "practice" }]'


def refusal_of(*folders: Path) -> Problem:
    with pytest.raises(Refused) as caught:
        Rulebook.load(*folders, with_built_in=False)
    (problem,) = caught.value.problems
    return problem


def bound(monkeypatch: pytest.MonkeyPatch, name: str, value: int) -> None:
    """Put a bound where a test reaches it in less than a second."""
    monkeypatch.setattr(f"tundish.rulebook.files.pack_size.{name}", value)


def test_files(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    bound(monkeypatch, "MOST_FILES", 3)  # the rule, its sources, and a file of another kind
    files = {"snow/base.toml": RULE, "snow/photo.jpg": "", ".git/config": "not counted"}
    assert load(tmp_path, files).rules
    (tmp_path / "snow" / "letter.txt").write_text("")
    assert refusal_of(tmp_path).sentence == (
        "There are more than 3 files in the folders of rules; name a folder that holds rules and "
        "nothing else."
    )


def test_bytes_of_all_packs_together(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    load(tmp_path / "one", {"snow/base.toml": RULE})
    (tmp_path / "two" / "snow").mkdir(parents=True)
    (tmp_path / "two" / "snow" / "second.toml").write_text(RULE)
    folders = tmp_path / "one", tmp_path / "two"
    size = sum(file.stat().st_size for folder in folders for file in folder.rglob("*.toml"))
    bound(monkeypatch, "LARGEST_RULEBOOK", size)
    assert len(Rulebook.load(*folders, with_built_in=False).rules) == 2
    bound(monkeypatch, "LARGEST_RULEBOOK", size - 1)
    problem = refusal_of(*folders)
    assert problem.file == str(tmp_path / "two")
    assert "All rules together hold more than" in problem.sentence
    assert "use fewer packs at once" in problem.sentence


def test_packs(tmp_path: Path) -> None:
    load(tmp_path / "base", {"snow/base.toml": RULE})
    folders = [tmp_path / "base"]
    for number in range(MOST_PACKS):
        folders.append(tmp_path / f"pack-{number}")
        folders[-1].mkdir()
        (folders[-1] / "pack.toml").write_text('title = "Nothing yet"\n')
    assert Rulebook.load(*folders[:-1], with_built_in=False).rules
    assert refusal_of(*folders).sentence == (
        "There are 301 packs, national ones counted; at most 300 are read together."
    )


def test_rules_quantities_and_parts(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    bound(monkeypatch, "MOST_RULES", 2)
    files = {"snow/base.toml": RULE, "snow/quantities.toml": QUANTITY}
    assert load(tmp_path, files).rules
    (tmp_path / "snow" / "more.toml").write_text(RULE)
    assert refusal_of(tmp_path).sentence == (
        "There are more than 2 rules, quantities and parts, those of the packs beneath counted; "
        "use fewer packs at once."
    )


def test_parts_of_all_conditions(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    # Two facts compared are three parts, and that it always applies is one.
    files = {"snow/a.toml": RULE, "snow/b.toml": RULE, "snow/c.toml": RULE}
    monkeypatch.setattr("tundish.rulebook.link.expressions.MOST_PARTS", 12)
    assert len(load(tmp_path / "n", files).rules) == 3
    monkeypatch.setattr("tundish.rulebook.link.expressions.MOST_PARTS", 11)
    problem = only_problem(tmp_path / "more", files)
    assert (problem.file, problem.key) == ("snow/c.toml", "requires")
    assert "All conditions and formulas up to here have more than" in problem.sentence


def test_citations(tmp_path: Path) -> None:
    def rule(count: int) -> dict[str, str]:
        cite = ", ".join(f'{{ source = "code", at = "{at}" }}' for at in range(count))
        return {"snow/base.toml": RULE.replace(CITE, f"[{cite}]")}

    assert load(tmp_path / "n", rule(MOST_CITATIONS)).rules
    problem = only_problem(tmp_path / "more", rule(MOST_CITATIONS + 1))
    assert problem.sentence == "'cite' has 13 entries; the most is 12."


def test_facts_to_adjust(tmp_path: Path) -> None:
    def rule(count: int) -> dict[str, str]:
        adjust = ", ".join(['"site.snow_depth"'] * count)
        return {"snow/base.toml": RULE.replace("cite  ", f"adjust = [{adjust}]\ncite  ")}

    assert load(tmp_path / "n", rule(MOST_ADJUSTED)).rules
    problem = only_problem(tmp_path / "more", rule(MOST_ADJUSTED + 1))
    assert problem.sentence == "'adjust' has 13 entries; the most is 12."


def test_rows_of_a_table(tmp_path: Path) -> None:
    def files(count: int) -> dict[str, str]:
        rows = ", ".join(f"[{at}, 1]" for at in range(count))
        table = TABLE.replace("[10, 16],\n  [6, 10.5],", rows)
        return {"snow/base.toml": RULE, "tables/ratings.toml": table}

    table = load(tmp_path / "n", files(MOST_ROWS)).scope.tables["ratings"]
    assert len(table.tree) == MOST_ROWS
    problem = only_problem(tmp_path / "more", files(MOST_ROWS + 1))
    assert problem.sentence == "'rows' has 10,001 entries; the most is 10,000."


@pytest.mark.parametrize(("key", "most"), [("keys", MOST_KEYS), ("gives", MOST_COLUMNS)])
def test_columns_of_a_table(tmp_path: Path, key: str, most: int) -> None:
    def files(count: int) -> dict[str, str]:
        names = {"keys": 1, "gives": 1, key: count}
        listed = {
            one: ", ".join(f'{{ name = "{one}_{at}", unit = "A" }}' for at in range(number))
            for one, number in names.items()
        }
        row = ", ".join(["1"] * sum(names.values()))
        body = "".join(f"{one} = [{names}]\n" for one, names in listed.items())
        table = f'title = "T"\n{body}cite = {CITE}\nreviewed = 2026-11-25\nrows = [[{row}]]\n'
        return {"snow/base.toml": RULE, "tables/ratings.toml": table}

    assert load(tmp_path / "n", files(most)).scope.tables
    problem = only_problem(tmp_path / "more", files(most + 1))
    assert problem.sentence == f"'{key}' has {most + 1:,} entries; the most is {most:,}."
