"""The README's Python runs as it stands there."""

import re
from pathlib import Path

import pytest

from tundish.reading import bounds

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


def test_the_readme_quotes_the_bounds() -> None:
    assert f"{bounds.LONGEST_EXPRESSION:,} characters" in README
    assert f"{bounds.MOST_TOKENS:,} words and signs" in README
    assert f"nesting {bounds.DEEPEST_NESTING}" in README
    assert f"lists of {bounds.LONGEST_LIST:,}" in README
    assert f"{bounds.LARGEST_FILE // 2**20} MiB" in README
    assert f"{bounds.MOST_STEPS:,} loop rounds" in README
