"""Proving: every rule and quantity run on its own cases."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Iterator, Sequence
from typing import Literal, TypeAlias, TypeVar

from tundish.groundwork.dataclass import dataclass
from tundish.job.facts import Facts
from tundish.rulebook.model.definition import Case
from tundish.rulebook.model.provision import Provision
from tundish.rulebook.model.rule import DerivedQuantity, Rule
from tundish.rulebook.prove.case_facts import facts_of, rulebook_for, steps_in
from tundish.rulebook.prove.provisions import MUST_HAVE, provision_fault
from tundish.rulebook.prove.quantities import quantity_fault
from tundish.rulebook.prove.reasons import WithoutNumbers, Wording
from tundish.rulebook.prove.rules import MUST_HAVE as RULE_MUST_HAVE
from tundish.rulebook.prove.rules import rule_fault
from tundish.rulebook.rulebook import Rulebook
from tundish.text.problem import Problem, Refused

_AnyProved: TypeAlias = Rule | DerivedQuantity | Provision
_Proved = TypeVar("_Proved", Rule, DerivedQuantity, Provision)
_FaultOf: TypeAlias = Callable[[_Proved, Case, Facts, Rulebook, Wording], str]


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
    """A rule, quantity or part to be ordered, with the cases it does not stand up to."""

    name: str
    kind: Literal["rule", "quantity", "part"]
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
            `tundish.findings.proof_phrases` does; without it the outcome alone is told.
        chosen: Names of the rules, quantities and parts to prove; all, where left out.

    Yields:
        A proof for each quantity, each rule and each part to be ordered.
    """
    prover = _Prover(rulebook, wording or WithoutNumbers())
    for quantity in rulebook.quantities.values():
        if chosen is None or quantity.name in chosen:
            yield prover.of_quantity(quantity)
    for name, rule in rulebook.rules.items():
        if chosen is None or name in chosen:
            yield prover.of_rule(rule)
    for name, provision in rulebook.provisions.items():
        if chosen is None or name in chosen:
            yield prover.of_provision(provision)


class _Prover:
    """One run over the cases of one rulebook."""

    def __init__(self, rulebook: Rulebook, wording: Wording) -> None:
        self._rulebook = rulebook
        self._wording = wording

    def of_rule(self, rule: Rule) -> Proof:
        failures = [*self._failures(rule, rule_fault), *_missing(rule, RULE_MUST_HAVE)]
        return Proof(rule.name, "rule", len(rule.cases), tuple(failures))

    def of_quantity(self, quantity: DerivedQuantity) -> Proof:
        failures = self._failures(quantity, quantity_fault)
        if not quantity.cases:
            failures.append(Failure(0, "", "It has no case.", quantity.source.file.name))
        return Proof(quantity.name, "quantity", len(quantity.cases), tuple(failures))

    def of_provision(self, provision: Provision) -> Proof:
        failures = [*self._failures(provision, provision_fault), *_missing(provision, MUST_HAVE)]
        return Proof(provision.name, "part", len(provision.cases), tuple(failures))

    def _failures(self, proved: _Proved, fault_of: _FaultOf[_Proved]) -> list[Failure]:
        failures = []
        for number, case in enumerate(proved.cases, start=1):
            facts = facts_of(case, self._rulebook)
            if isinstance(facts, Refused):
                failures.append(_of_refused(proved, number, case, facts.problems))
                continue
            rulebook = rulebook_for(facts, self._rulebook)
            sentence = fault_of(proved, case, facts, rulebook, self._wording)
            if sentence:
                failures.append(Failure(number, case.why, sentence, _place(proved, number)))
        return failures


def _missing(proved: Rule | Provision, outcomes: Iterable[str]) -> Iterator[Failure]:
    shown = {case.outcome for case in proved.cases}
    for outcome in outcomes:
        if outcome not in shown:
            sentence = f"No case shows it {outcome}."
            yield Failure(0, "", sentence, proved.source.file.name)


def _of_refused(
    proved: _AnyProved, number: int, case: Case, problems: Sequence[Problem]
) -> Failure:
    """Tell a case whose facts are no possible job, at the first of them that is wrong."""
    sentence = "Its facts are refused: " + " ".join(problem.sentence for problem in problems)
    inside = ("given", *steps_in(case.given, problems[0].key))
    return Failure(number, case.why, sentence, _place(proved, number, inside))


def _place(proved: _AnyProved, number: int, inside: tuple[str, ...] = ()) -> str:
    at = () if isinstance(proved, Rule) else (proved.name.replace(" ", "-"),)
    line, _ = proved.source.places.of((*at, "case", number - 1, *inside))
    return f"{proved.source.file.name}:{line}"
