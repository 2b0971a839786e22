"""`tundish completion`."""

import shutil
import subprocess

import pytest

from command.conftest import Run


@pytest.mark.parametrize("shell", ["bash", "zsh", "fish"])
def test_a_script_knows_every_command_and_option(run: Run, shell: str) -> None:
    out = run("completion", shell).out
    for word in ("check", "mend", "survey", "completion", "fail-on", "after-rules"):
        assert word in out


@pytest.mark.skipif(shutil.which("bash") is None, reason="there is no bash here")
@pytest.mark.parametrize(
    ("words", "expected"),
    [
        (["tundish", "che"], ["check"]),
        (["tundish", "check", "--fail"], ["--fail-on"]),
        (["tundish", "compare", "--after"], ["--after-rules"]),
        (["tundish", "check", "--nothing"], []),
    ],
)
def test_bash_completes(run: Run, words: list[str], expected: list[str]) -> None:
    script = run("completion", "bash").out
    asked = " ".join(f"'{word}'" for word in words)
    script += f"COMP_WORDS=({asked}); COMP_CWORD={len(words) - 1}; _tundish\n"
    script += 'printf "%s\\n" "${COMPREPLY[@]}"\n'
    done = subprocess.run(["bash", "-c", script], capture_output=True, text=True, check=True)
    assert done.stdout.split() == expected


def test_another_shell_is_a_sentence(run: Run) -> None:
    ran = run("completion", "fisch")
    assert ran.code == 2
    assert "Did you mean 'fish'?" in ran.err
