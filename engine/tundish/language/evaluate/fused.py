"""The fused form: the conditions of many rules as one Python function, for speed.

A fact that several rules read is read once, and a quantity that several need is computed once and
before them. Conditions are branches that set an outcome; rules with the same `applies` share it.
It must give what the compiled form gives; property tests hold them together.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import fields
from types import CodeType
from typing import TYPE_CHECKING, Protocol

from tundish.groundwork.dataclass import dataclass
from tundish.language.evaluate.compiled import function_from, function_of
from tundish.language.evaluate.session import Item, Session
from tundish.language.operations.table import RowsOfTables
from tundish.text.bounds import MOST_STEPS

if TYPE_CHECKING:
    from tundish.language.codegen.common_subexpressions import Conditions
    from tundish.language.tree import tree as t

Outcome = object
"""One of the `Answers` for a rule; for one that is asked of each item of a list, a tuple of one for
each, or a single one where the list is not known; None where whoever asks must find it out."""


class FusedFunction(Protocol):
    """The function that asks all rules of a job."""

    def __call__(
        self, facts: Item, rows: RowsOfTables, session: Session | None = None, /
    ) -> tuple[bool, list[Outcome]]:
        """Ask them.

        Args:
            facts: The facts of the job.
            rows: The rows of all tables.
            session: The running evaluation of that job; started where needed if left out.

        Returns:
            Whether any outcome is None, and the outcomes in the order of the rules.

        Raises:
            TooManySteps: If one of them takes more steps than it may.
        """


@dataclass(frozen=True, slots=True)
class Answers:
    """The code of each outcome of a rule."""

    met: object
    breached: object
    undecided: object
    not_applicable: object


_ANSWERS = tuple(field.name for field in fields(Answers))

_ARGUMENTS = ("facts", "rows", "session")
"""Parameters that each call gives."""

_BOUND = ("start", "budget", "few", *_ANSWERS)
"""Parameters whose values all calls share, as defaults."""


def compile_fused(
    rules: Sequence[Conditions],
    quantities: Mapping[tuple[str, str], tuple[t.Node, str]],
    lists: Mapping[str, bool] | None = None,
) -> CodeType:
    """Compile the conditions of many rules into one function.

    Args:
        rules: The conditions, in the order of the outcomes.
        quantities: All quantities that they need, by the list they belong to (or "") and name,
            each behind all it is made of; their formula, and the name of an item in it or "".
        lists: Paths of the lists of which a job may have too many items, and whether those have
            lists inside that count as well.

    Returns:
        The code, for `load_fused`.
    """
    # Loaded here, as what is cached or prebuilt is compiled already.
    from tundish.language.codegen.common_subexpressions import CommonSubexpressions
    from tundish.language.codegen.fused import FusedEmitter

    shared = CommonSubexpressions(rules, quantities)
    lines = FusedEmitter(rules, shared, lists or {}).lines()
    outcomes = [f"r{at}" for at in range(len(rules))]
    code: CodeType = function_of(", ".join((*_ARGUMENTS, *_BOUND, *outcomes)), lines).__code__
    return code


def load_fused(
    code: CodeType,
    answers: Answers,
    start: Callable[[Item], Session],
    budget: int = MOST_STEPS,
    few: int = MOST_STEPS,
) -> FusedFunction:
    """Return the function of its code.

    Args:
        code: What `compile_fused` returned.
        answers: What stands for each outcome.
        start: Starts an evaluation of a job.
        budget: Steps that one rule, and one quantity of the whole job, may take in loops.
        few: How many items each list may have for nothing to be barred.
    """
    function = function_from(code)
    values = (getattr(answers, name) for name in _ANSWERS)
    # A rule is met unless its code sets something else, so that nothing need be done for most.
    outcomes = [answers.met] * (code.co_argcount - len(_ARGUMENTS) - len(_BOUND))
    function.__defaults__ = (None, start, budget, few, *values, *outcomes)
    fused: FusedFunction = function
    return fused
