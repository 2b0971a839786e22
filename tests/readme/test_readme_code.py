"""The README's Python runs as it stands there."""

import re
from pathlib import Path

import pytest

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
