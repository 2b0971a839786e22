"""Proving: every rule, quantity and part run on its own cases."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from typing import Literal

from tundish.groundwork.dataclass import dataclass
from tundish.rulebook.model.definition import Case
from tundish.rulebook.prove.case_run import Proved, facts_of, steps_in
from tundish.rulebook.prove.reasons import WithoutNumbers, Wording
from tundish.rulebook.prove.results import case_fault
from tundish.rulebook.rulebook import Rulebook
from tundish.text.problem import Problem, Refused

_MUST_SHOW: dict[str, tuple[str, ...]] = {
    "rule": ("met", "breached", "undecided"),
    "quantity": (),
    "constraint": ("possible", "impossible", "undecided"),
    "part": ("needed", "not needed", "undecided"),
}
"""Outcomes that the cases must show."""


@dataclass(frozen=True, slots=True)
class Failure:
    """A case that does not hold, or one that is missing.

    Attributes:
        case: Its number from 1; 0 where a case is missing.
        why: What the case was to show.
        sentence: What came out instead.
        place: ``file:line`` of the case.
    """

    case: int
    why: str
    sentence: str
    place: str


@dataclass(frozen=True, slots=True)
class Proof:
    """A rule, quantity or part to be ordered, with the cases it fails."""

    name: str
    kind: Literal["rule", "quantity", "part", "constraint"]
    cases: int
    failures: tuple[Failure, ...]


def prove(
    rulebook: Rulebook, wording: Wording | None = None, chosen: Collection[str] | None = None
) -> Iterator[Proof]:
    """Run all cases of a rulebook.

    A case's facts pass the same job model as a real job, so that no rule is proved on an
    impossible one.

    Args:
        rulebook: The rulebook.
        wording: Puts the numbers of what came out into words, as
            `tundish.findings.proof_phrases` does; without it the outcome alone is given.
        chosen: Names of the rules, quantities, parts and constraints to prove; all, where left out.

    Yields:
        A proof for each quantity, constraint, rule and part to be ordered.
    """
    words = wording or WithoutNumbers()
    for proved in rulebook.definitions:
        if chosen is None or proved.name in chosen:
            failures = (*_failures(proved, rulebook, words), *_missing(proved))
            yield Proof(proved.name, proved.noun, len(proved.cases), failures)


def _failures(proved: Proved, rulebook: Rulebook, wording: Wording) -> Iterator[Failure]:
    for number, case in enumerate(proved.cases, start=1):
        facts = facts_of(case, proved, rulebook)
        if isinstance(facts, Refused):
            yield _of_refused(proved, number, case, facts.problems)
        elif sentence := case_fault(proved, case, facts, rulebook, wording):
            yield Failure(number, case.why, sentence, proved.place("case", number - 1))


def _missing(proved: Proved) -> Iterator[Failure]:
    """Report outcomes that no case shows."""
    file, shown = proved.source.file.name, {case.outcome for case in proved.cases}
    if proved.noun == "quantity" and not proved.cases:
        yield Failure(0, "", "It has no case.", file)
    for outcome in _MUST_SHOW[proved.noun]:
        if outcome not in shown:
            yield Failure(0, "", f"No case shows it {outcome}.", file)


def _of_refused(proved: Proved, number: int, case: Case, problems: Sequence[Problem]) -> Failure:
    """Report a case whose facts are no possible job, at the first wrong fact."""
    sentence = "Its facts are refused: " + " ".join(problem.sentence for problem in problems)
    inside = ("given", *steps_in(case.given, problems[0].key))
    return Failure(number, case.why, sentence, proved.place("case", number - 1, *inside))
