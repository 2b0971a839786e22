"""What came out of a case of the rulebook, in the words of a finding."""

from __future__ import annotations

from tundish.assessment.statement import breach_sentence, met_sentence
from tundish.assessment.wording import Wording
from tundish.language.session import Given
from tundish.language.step import Step


class ProofWords:
    """Puts the numbers of what came out into words, for those who prove rules."""

    def statement(self, step: Step, given: Given) -> str:
        """Say why a condition holds or fails, with its numbers put in."""
        sentence = met_sentence if step.value is True else breach_sentence
        return sentence(step, Wording(given))

    def numbers(self, step: Step, given: Given) -> str:
        """Return a formula with its numbers put in."""
        return Wording(given).numbers(step)
