"""A person at the command line, who types what was printed and reads what came of it."""

from __future__ import annotations

import re
import shlex
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path

JUDGED = (0, 1)
"""What a check ends with when it could read everything."""

_NEXT = re.compile(r"(?:\bNext: |, then: |^ +next +)(tundish .+)$", re.MULTILINE)
_WRITTEN = re.compile(r"^Written: (.+?\.\w+)[.,](?: |$)", re.MULTILINE)
_ENTRY = re.compile(r"^  (?P<label>[a-z][a-z ]*?)  +(?P<text>\S.*(?:\n {8,}\S.*)*)", re.MULTILINE)


@dataclass(frozen=True)
class Printed:
    """What a command printed, and what it ended with."""

    line: str
    code: int
    out: str
    err: str

    @property
    def text(self) -> str:
        """All that was printed, as if in one row: rows end where the terminal does."""
        return " ".join(f"{self.out}\n{self.err}".split())

    @property
    def next(self) -> str:
        """The command that it says to run next."""
        commands = _NEXT.findall(f"{self.err}\n{self.out}")
        assert len(commands) == 1, f"{self.line}\n{self.out}{self.err}"
        return str(commands[0])

    @property
    def written(self) -> list[str]:
        """The files that it says it has written."""
        return _WRITTEN.findall(self.err)

    def entries(self, label: str) -> list[str]:
        """What stands behind a label, such as all that is "written in"."""
        entries = [(each["label"], each["text"]) for each in _ENTRY.finditer(self.out)]
        return [" ".join(text.split()) for own, text in entries if own == label]


Start = Callable[[Sequence[str], str], Printed]
"""Runs the program with arguments, and with a text on its standard input."""


@dataclass(frozen=True)
class Walk:
    """The way of one person through the program, in an empty folder.

    Attributes:
        folder: Where the commands are typed.
        start: Runs the program there.
    """

    folder: Path
    start: Start

    def __call__(self, line: str, typed: str = "", ends: tuple[int, ...] = (0,)) -> Printed:
        """Type a command.

        Args:
            line: The command, as a shell takes it.
            typed: What stands on standard input, which is no terminal.
            ends: What it may end with.
        """
        program, *arguments = shlex.split(line)
        assert program == "tundish"
        printed = self.start(arguments, typed)
        said = f"{line}\n{printed.out}\n{printed.err}"
        assert printed.code in ends, said
        assert "Something went wrong" not in printed.err, said
        assert "Traceback" not in printed.err, said
        return printed

    def check(self, line: str) -> Printed:
        """Type a command that judges a job, and meet no refusal."""
        printed = self(line, ends=JUDGED)
        assert printed.err == "", f"{line}\n{printed.err}"
        assert "BEFORE YOU ACT ON THIS" in printed.out
        return printed

    def read(self, name: str) -> str:
        """Return what a file says that was printed by its name."""
        return (self.folder / name).read_text(encoding="utf-8")

    def save(self, name: str, text: str) -> None:
        """Save a file, as an editor does."""
        path = self.folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")

    def change(self, name: str, before: str, after: str) -> None:
        """Change one place in a file."""
        text = self.read(name)
        assert text.count(before) == 1, f"{before!r} stands {text.count(before)} times in {name}"
        self.save(name, text.replace(before, after))
