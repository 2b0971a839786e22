"""Waivers: a rule that someone answerable sets aside for this job."""

from __future__ import annotations

from pydantic import model_validator

from tundish.job.part import Day, Part, Text, fact

_NEEDED = ("rule", "reason", "by", "until")


class Waiver(Part):
    """One waiver; unlike a fact it says nothing unless it is whole."""

    rule: Text = fact("Which rule is set aside?", "Its name, as a finding shows it.")
    item: Text = fact("For which item alone, if not for all?", "Its name, as a finding shows it.")
    reason: Text = fact("Why may it be set aside?")
    by: Text = fact("In which role does someone answer for it?", label="role that answers for it")
    since: Day = fact("From which day on does it hold?", label="first day")
    until: Day = fact("Until which day does it hold?", label="last day")

    @model_validator(mode="after")
    def _is_whole(self) -> Waiver:
        missing = [name for name in _NEEDED if getattr(self, name) is None]
        if missing:
            needed = ", ".join(f"'{name}'" for name in missing)
            raise ValueError(f"A waiver also needs {needed}, so that someone answers for it.")
        return self

    @model_validator(mode="after")
    def _ends_after_it_begins(self) -> Waiver:
        if self.since is not None and self.until is not None and self.until < self.since:
            raise ValueError(f"The waiver ends on {self.until}, before it begins on {self.since}.")
        return self
