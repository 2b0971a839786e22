"""What is wrong with an expression, and where in it."""

from __future__ import annotations

from tundish.groundwork.dataclass import dataclass


@dataclass(frozen=True, slots=True)
class ExpressionProblem:
    """One thing that is wrong in an expression.

    Attributes:
        start: Index of the first character it concerns, from 0.
        end: Index after the last character it concerns.
        sentence: What is wrong and what would be right.
    """

    start: int
    end: int
    sentence: str

    def __lt__(self, other: ExpressionProblem) -> bool:
        """Sort by where they stand."""
        mine, others = (self.start, self.end), (other.start, other.end)
        return (*mine, self.sentence) < (*others, other.sentence)


class ExpressionError(ValueError):
    """An expression that cannot be used; carries every problem found in it."""

    def __init__(self, problems: list[ExpressionProblem]) -> None:
        self.problems = tuple(sorted(problems))
        super().__init__(" ".join(problem.sentence for problem in self.problems))
