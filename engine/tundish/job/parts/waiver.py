"""Waivers: a rule that someone answerable sets aside for this job."""

from tundish.job.model import types as t
from tundish.job.model.part import Part, fact


class Waiver(Part, found_in="From the note that sets the rule aside."):
    """One waiver; it holds only where it is whole, which a finding says if it is not."""

    rule: t.Text = fact(
        "Which rule is set aside?",
        "Its name, as a finding shows it.",
        example="clearances/wind-into-fan",
    )
    item: t.Text = fact(
        "For which item alone, if not for all?",
        "Its name, as a finding shows it.",
        example="kitchen window",
    )
    reason: t.Text = fact(
        "Why may it be set aside?", example="The maker agreed to this place in writing."
    )
    by: t.Text = fact(
        "In which role does someone answer for it?",
        label="role that answers for it",
        example="designer",
    )
    person: t.Text = fact(
        "Which competent person, by name, answers for a danger that is set aside?",
        label="competent person",
        example="R. Invented, structural engineer",
    )
    since: t.Day = fact("From which day on does it hold?", label="first day", example="2026-11-02")
    until: t.Day = fact("Until which day does it hold?", label="last day", example="2027-11-02")

    def check(self) -> None:
        """Refuse a waiver of no rule, or of a time that ends before it begins."""
        if self.rule is None:
            raise ValueError("A waiver needs 'rule', the name of the rule that it sets aside.")
        if self.since is not None and self.until is not None and self.until < self.since:
            raise ValueError(f"The waiver ends on {self.until}, before it begins on {self.since}.")
