"""What is said of proving a rulebook by its cases."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from tundish.report.page.line import GAP, Line
from tundish.report.tell.phrases import counted, listed

if TYPE_CHECKING:
    from tundish.rulebook.prove.prove import Failure, Proof


_KINDS = {"rule": "rules", "quantity": "quantities", "part": "parts", "constraint": "constraints"}


def is_proved(proof: Proof) -> bool:
    """Say whether something has cases and all of them hold."""
    return proof.cases > 0 and not proof.failures


def proof_lines(proofs: Sequence[Proof]) -> Iterator[Line]:
    """Give each case that does not hold or is missing, and a summary.

    Args:
        proofs: What came out for each rule and quantity.
    """
    for proof in proofs:
        if proof.failures:
            yield Line("question", f"{proof.kind} {proof.name}")
            yield from (Line("item", _failure_text(failure)) for failure in proof.failures)
            yield GAP
    yield Line("words", _summary(proofs))


def _failure_text(failure: Failure) -> str:
    """Return which case fails, what it was to show, what came out and where it stands."""
    case = f"case {failure.case}" if failure.case else ""
    named = ", ".join(part for part in (case, failure.why) if part)
    return f"{named}: {failure.sentence} ({failure.place})".removeprefix(": ")


def _summary(proofs: Sequence[Proof]) -> str:
    cases = sum(proof.cases for proof in proofs)
    failures = [failure for proof in proofs for failure in proof.failures]
    broken = sum(failure.case > 0 for failure in failures)
    proved = listed(
        [
            counted(sum(proof.kind == kind for proof in proofs), kind, nouns)
            for kind, nouns in _KINDS.items()
            if kind == "rule" or any(proof.kind == kind for proof in proofs)
        ]
    )
    text = f"{counted(cases, 'case')} of {proved}: "
    text += f"{counted(broken, 'case does', 'cases do')} not hold" if broken else "all hold"
    missing = len(failures) - broken
    if missing:
        text += f"; {counted(missing, 'case is', 'cases are')} missing"
    return text[:1].upper() + text[1:] + "."
