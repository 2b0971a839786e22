"""A problem in a file, with its place, and the one exception that carries them."""

from __future__ import annotations

from collections.abc import Iterable

from tundish.groundwork.dataclass import dataclass
from tundish.text.bounds import MOST_PROBLEMS
from tundish.text.quoted import escaped


@dataclass(frozen=True, slots=True)
class Problem:
    """One thing wrong in one file, worded so that its writer can correct it.

    Problems sort by file, then line, then column, so that a report reads down the page; a problem
    without a line concerns the whole file and comes first.

    Args:
        file: Name of the file, as the reader was given it.
        line: Line, counted from 1; None when the whole file is meant.
        column: Character in the line, counted from 1; None when not known.
        sentence: What is wrong and what would be right.
        key: Dotted path of the key that is wrong; empty when no key is meant.
    """

    file: str
    line: int | None
    column: int | None
    sentence: str
    key: str = ""

    def __lt__(self, other: Problem) -> bool:
        """Return whether this problem comes before the other."""
        return self._order() < other._order()

    def __str__(self) -> str:
        """Return `file:line:column: sentence`, leaving out what is not known."""
        place = [self.file, *(str(part) for part in (self.line, self.column) if part is not None)]
        return escaped(f"{':'.join(place)}: {self.sentence}")

    @property
    def place(self) -> str:
        """Return where it is: ``barn.toml, line 3, column 9``."""
        line = "" if self.line is None else f", line {self.line}"
        return self.file + line + ("" if self.column is None else f", column {self.column}")

    def _order(self) -> tuple[str, int, int, str, str]:
        # None cannot be compared with a number, so the whole file counts as line 0.
        return (self.file, self.line or 0, self.column or 0, self.key, self.sentence)


class Refused(Exception):  # noqa: N818 - it reads as the sentence it is: the file is refused
    """Raised when a file or a job cannot be accepted; carries every problem found in one run.

    Args:
        problems: The problems; they are kept in reading order, each once.
    """

    def __init__(self, problems: Iterable[Problem]) -> None:
        self.problems: tuple[Problem, ...] = tuple(sorted(dict.fromkeys(problems)))
        super().__init__("\n".join(str(problem) for problem in self.problems))

    def __reduce__(self) -> tuple[type[Refused], tuple[tuple[Problem, ...]]]:
        """Return what rebuilds the exception, so that it can cross from a worker process."""
        return (Refused, (self.problems,))


def refusal(
    file: str, sentence: str, line: int | None = None, column: int | None = None
) -> Refused:
    """Return the exception for a single problem.

    Args:
        file: Name of the file.
        sentence: What is wrong and what would be right.
        line: Line, counted from 1, or None.
        column: Character in the line, counted from 1, or None.

    Returns:
        The exception, to be raised.
    """
    return Refused([Problem(file, line, column, sentence)])


class Problems(list[Problem]):
    """A list of problems that raises `Refused` past the bound.

    To describe a problem takes time, such as for the nearest name, and an untrusted file may hold
    100,000 wrong names.

    Raises:
        Refused: When one problem more than the bound is added.
    """

    def append(self, problem: Problem, /) -> None:
        """Add a problem."""
        if len(self) >= MOST_PROBLEMS:
            sentence = f"More than {MOST_PROBLEMS} problems; what comes after was not looked at."
            raise Refused([*self, Problem(problem.file, None, None, sentence)])
        super().append(problem)

    def extend(self, problems: Iterable[Problem], /) -> None:
        """Add problems one by one, so that none past the bound is even computed."""
        for problem in problems:
            self.append(problem)
