"""What came out of a case of the rulebook, in the words of a finding."""

from __future__ import annotations

from tundish.findings.phrases import Wording
from tundish.findings.statement import breach_sentence, met_sentence
from tundish.language.evaluate.session import JobFacts
from tundish.language.evaluate.step import Step


class ProofWords:
    """Puts the numbers of what came out into words, for those who prove rules."""

    def statement(self, step: Step, facts: JobFacts) -> str:
        """Say why a condition holds or fails, with its numbers put in."""
        sentence = met_sentence if step.value is True else breach_sentence
        return sentence(step, Wording(facts))

    def numbers(self, step: Step, facts: JobFacts) -> str:
        """Return a formula with its numbers put in."""
        return Wording(facts).numbers(step)
