"""Waivers: a rule that someone answerable sets aside for this job."""

from tundish.job.part import Day, Part, Text, fact


class Waiver(Part):
    """One waiver; it holds only where it is whole, which a finding says if it is not."""

    rule: Text = fact("Which rule is set aside?", "Its name, as a finding shows it.")
    item: Text = fact("For which item alone, if not for all?", "Its name, as a finding shows it.")
    reason: Text = fact("Why may it be set aside?")
    by: Text = fact("In which role does someone answer for it?", label="role that answers for it")
    person: Text = fact(
        "Which competent person, by name, answers for a danger that is set aside?",
        label="competent person",
    )
    since: Day = fact("From which day on does it hold?", label="first day")
    until: Day = fact("Until which day does it hold?", label="last day")

    def check(self) -> None:
        """Refuse a waiver of no rule, or of a time that ends before it begins."""
        if self.rule is None:
            raise ValueError("A waiver needs 'rule', the name of the rule that it sets aside.")
        if self.since is not None and self.until is not None and self.until < self.since:
            raise ValueError(f"The waiver ends on {self.until}, before it begins on {self.since}.")
