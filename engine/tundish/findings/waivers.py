"""Waivers: breaches that someone answerable sets aside, while the waiver holds."""

from __future__ import annotations

import datetime
from collections.abc import Iterable, Iterator

from tundish.job.job import Job
from tundish.job.parts.waiver import Waiver
from tundish.rulebook.evaluate.judge import Judgement, Verdict
from tundish.rulebook.model.choices import Severity
from tundish.rulebook.rulebook import Rulebook
from tundish.text.nearest import did_you_mean
from tundish.text.problem import Problem, Problems, Refused


class Waivers:
    """The waivers of one job.

    Args:
        job: The job; its date decides whether a waiver holds, or today where it has none.
        rulebook: The rules that can be waived.

    Raises:
        Refused: If a waiver names no rule of the rulebook.
    """

    def __init__(self, job: Job, rulebook: Rulebook) -> None:
        self._rulebook = rulebook
        self._by_rule = _by_rule(job, rulebook)
        self._day = job.date or datetime.date.today()
        self._texts: dict[Judgement, str] = {}

    def applied(self, judgements: Iterable[Judgement]) -> Iterator[Judgement]:
        """Give the judgements, those set aside with the verdict `waived`.

        Args:
            judgements: The judgements.
        """
        for judgement in judgements:
            waivers = self._by_rule.get(judgement.rule, ())
            is_breached = judgement.verdict is Verdict.BREACHED
            yield self._judged(judgement, waivers) if waivers and is_breached else judgement

    def text_of(self, judgement: Judgement) -> str:
        """Return who set it aside until when and why, or why a waiver does not hold; or ""."""
        return self._texts.get(judgement, "")

    def _judged(self, judgement: Judgement, waivers: Iterable[Waiver]) -> Judgement:
        reasons = []
        severity = self._rulebook.rules[judgement.rule].severity
        for waiver in waivers:
            if waiver.item is not None and waiver.item != judgement.item:
                continue
            fault = _missing(waiver, severity) or _fault(waiver, self._day)
            if not fault:
                by = f"{waiver.by} ({waiver.person})" if waiver.person else waiver.by
                text = f"Set aside by the {by} until {waiver.until}: {waiver.reason}"
                waived = judgement._replace(verdict=Verdict.WAIVED)
                self._texts[waived] = text
                return waived
            reasons.append(fault)
        self._texts[judgement] = " ".join(reasons)
        return judgement


def _by_rule(job: Job, rulebook: Rulebook) -> dict[str, list[Waiver]]:
    waivers: dict[str, list[Waiver]] = {}
    problems = Problems()
    for position, waiver in enumerate(job.waiver or (), start=1):
        name = waiver.rule or ""
        try:
            rule = rulebook.rule(name)
            item = rule.former_names.get(name)
            if item and waiver.item not in (None, item):
                continue  # the old name was of one item, and the waiver names another
            of_item = Waiver(**{**waiver.given, "item": item}) if item else waiver
            waivers.setdefault(rule.name, []).append(of_item)
        except KeyError:
            path = f"waiver[{position}].rule"
            place = job.source.place(path) if job.source else None
            file, line, column = place or ("", None, None)
            hint = did_you_mean(name, [*rulebook.rules, *rulebook.renamed])
            problems.append(Problem(file, line, column, f"No rule is called '{name}'.{hint}", path))
    if problems:
        raise Refused(problems)
    return waivers


_NEEDED = {
    "reason": "a reason",
    "by": "the role of who answers for it",
    "until": "a day on which it ends",
}


def _missing(waiver: Waiver, severity: Severity) -> str:
    """Say what a waiver lacks to hold, or nothing where it is whole."""
    lacking = [words for name, words in _NEEDED.items() if getattr(waiver, name) is None]
    if severity == "danger" and waiver.person is None:
        lacking.append("the name of a competent person who answers for a danger")
    if not lacking:
        return ""
    listed = lacking[0] if len(lacking) == 1 else f"{', '.join(lacking[:-1])} and {lacking[-1]}"
    return f"A waiver is written but does not hold: it lacks {listed}."


def _fault(waiver: Waiver, day: datetime.date) -> str:
    """Say why a waiver does not hold on a day, or nothing where it does."""
    if waiver.until is not None and waiver.until < day:
        return f"The waiver by the {waiver.by} ended on {waiver.until}."
    if waiver.since is not None and day < waiver.since:
        return f"The waiver by the {waiver.by} begins on {waiver.since}."
    return ""
