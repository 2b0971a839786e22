"""Comparing: two assessments, and which facts and figures made them differ."""

from __future__ import annotations

import math
import re
from collections.abc import Iterator, Mapping

from tundish.findings.assess import assessment_of
from tundish.findings.details import label_of
from tundish.findings.finding import Assessment, Finding
from tundish.findings.judged_job import JudgedJob
from tundish.groundwork.dataclass import dataclass
from tundish.job.facts import Facts
from tundish.job.job import Job
from tundish.job.named_file import FILES
from tundish.language.budget.budget import TooManySteps
from tundish.language.evaluate.session import Item
from tundish.rulebook.evaluate.judge import Judgement, Verdict
from tundish.rulebook.model.choices import Severity, Stage
from tundish.rulebook.model.rule import DerivedQuantity
from tundish.rulebook.rulebook import Rulebook
from tundish.units.format import show

_POSITION = re.compile(r"[^\[\]]*\[[0-9]+\]")


@dataclass(frozen=True, slots=True)
class FindingChange:
    """A requirement that is answered otherwise.

    Attributes:
        rule: Its rule.
        item: What it was asked of, or "".
        title: What is required.
        severity: How serious a breach is.
        was: Verdict before, or None where it was not asked.
        now: Verdict after, or None where it is not asked any more.
        statement: What is found now; before, where it is not asked any more.
    """

    rule: str
    item: str
    title: str
    severity: Severity
    was: Verdict | None
    now: Verdict | None
    statement: str


@dataclass(frozen=True, slots=True)
class ValueChange:
    """A fact or a figure that differs; "" where it is not known.

    Attributes:
        path: Its path, list items by their names.
        label: What it is called.
        was: Its value before, as text.
        now: Its value after, as text.
    """

    path: str
    label: str
    was: str
    now: str


@dataclass(frozen=True, slots=True)
class JobComparison:
    """Two assessments and what differs.

    Attributes:
        before: The one.
        after: The other.
        findings: Requirements that are answered otherwise, or breached by another figure.
        inputs: Facts that differ.
        quantities: Figures that were worked out and differ.
    """

    before: Assessment
    after: Assessment
    findings: tuple[FindingChange, ...]
    inputs: tuple[ValueChange, ...]
    quantities: tuple[ValueChange, ...]

    @property
    def gone(self) -> tuple[FindingChange, ...]:
        """Return what was breached and is not any more."""
        return tuple(
            change
            for change in self.findings
            if _is_breach(change.was) and not _is_breach(change.now)
        )

    @property
    def new(self) -> tuple[FindingChange, ...]:
        """Return what is breached and was not."""
        return tuple(
            change
            for change in self.findings
            if _is_breach(change.now) and not _is_breach(change.was)
        )

    @property
    def changed(self) -> tuple[FindingChange, ...]:
        """Return what is answered otherwise in any other way."""
        apart = (*self.gone, *self.new)
        return tuple(change for change in self.findings if change not in apart)


def compare(
    before: Job,
    after: Job,
    before_rules: Rulebook,
    after_rules: Rulebook | None = None,
    *,
    stage: Stage | None = None,
    region: str | None = None,
) -> JobComparison:
    """Compare two jobs, or one job under two rulebooks.

    Args:
        before: The one job.
        after: The other, or the same again.
        before_rules: The rules for the first.
        after_rules: The rules for the second; the same where none are given.
        stage: The stage to judge both at, in place of their own.
        region: The ISO 3166 code to judge both for, in place of their own.
    """
    rules = after_rules or before_rules
    old = JudgedJob(before, before_rules, stage=stage, region=region)
    new = JudgedJob(after, rules, stage=stage, region=region)
    return JobComparison(
        before=assessment_of(old, (Verdict.BREACHED,)),
        after=assessment_of(new, (Verdict.BREACHED,)),
        findings=tuple(_finding_changes(old, new, rules)),
        inputs=tuple(_value_changes(_inputs(old.facts), _inputs(new.facts))),
        quantities=tuple(
            _value_changes(_figures(old.facts, before_rules), _figures(new.facts, rules))
        ),
    )


def _is_breach(verdict: Verdict | None) -> bool:
    return verdict is Verdict.BREACHED


def _finding_changes(old: JudgedJob, new: JudgedJob, rulebook: Rulebook) -> Iterator[FindingChange]:
    before = {rulebook.name_today(row.rule, row.item): row for row in old.judgements}
    after = {(row.rule, row.item): row for row in new.judgements}
    for key in dict.fromkeys([*after, *before]):
        was, now = before.get(key), after.get(key)
        if not _is_alike(was, now, old, new):
            finding = new.explain(now) if now else old.explain(before[key])
            yield FindingChange(
                *key,
                finding.title,
                finding.severity,
                was.verdict if was else None,
                now.verdict if now else None,
                finding.statement,
            )


def _is_alike(was: Judgement | None, now: Judgement | None, old: JudgedJob, new: JudgedJob) -> bool:
    """Say whether a requirement has the same answer; only of a breach do other figures count."""
    verdicts = [row.verdict if row else Verdict.NOT_APPLICABLE for row in (was, now)]
    if verdicts[0] is not verdicts[1]:
        return False
    if was is None or now is None or was.verdict is not Verdict.BREACHED:
        return True
    return _is_same_breach(old.explain(was), new.explain(now))


def _is_same_breach(was: Finding, now: Finding) -> bool:
    if was.margin and now.margin and was.margin.share is not None:
        # The share does not hang on the unit that a figure was written in.
        return math.isclose(was.margin.share, now.margin.share or 0.0, rel_tol=1e-9)
    return was.statement == now.statement


_Values = Mapping[str, tuple[str, str, object]]
"""By path with item names: label, text and value."""


def _value_changes(before: _Values, after: _Values) -> Iterator[ValueChange]:
    for path in dict.fromkeys([*before, *after]):
        was, now = before.get(path), after.get(path)
        if (was and was[2]) != (now and now[2]):
            label = (now or was or ("",))[0]
            yield ValueChange(path, label, was[1] if was else "", now[1] if now else "")


def _inputs(facts: Facts) -> dict[str, tuple[str, str, object]]:
    return {
        _named(facts, path): (label_of(path), text, _comparable(facts, path, text))
        for path, text in facts.written.items()
        if path not in FILES
    }


def _comparable(facts: Facts, path: str, text: str) -> object:
    """Return what two facts are compared by: their values, so that 15 cm is 150 mm."""
    from tundish.job.changes import value_at

    value = value_at(facts, path)
    return float(f"{value:.9g}") if isinstance(value, float) else (value, text)


def _figures(facts: Facts, rulebook: Rulebook) -> dict[str, tuple[str, str, object]]:
    session = rulebook.session(facts.values)
    figures = {}
    for quantity in rulebook.quantities.values():
        for place, item in _places(quantity, facts):
            session.budget.begin()
            try:
                value = quantity.calculate(session.values, session, *item)
            except TooManySteps:
                continue
            if value is not None:
                path = f"{_named(facts, place)}.{quantity.name}".removeprefix(".")
                number = float(f"{value:.9g}") if isinstance(value, float) else value
                figures[path] = (quantity.label, _shown(quantity, value), number)
    return figures


def _places(quantity: DerivedQuantity, facts: Facts) -> Iterator[tuple[str, tuple[Item, ...]]]:
    if quantity.each is None:
        yield "", ()
        return
    items = facts.values.get(quantity.each.path)
    for position, item in enumerate(items if isinstance(items, list) else [], start=1):
        yield f"{quantity.each.path}[{position}]", (item,)


def _shown(quantity: DerivedQuantity, value: object) -> str:
    if isinstance(value, float) and quantity.unit is not None:
        return show(value, quantity.unit)
    if isinstance(value, bool):
        return "yes" if value else "no"
    return str(value)


def _named(facts: Facts, path: str) -> str:
    """Return a path with list items by their names, which stay when others come or go."""
    place, named = "", ""
    for piece in _POSITION.findall(path):
        place += piece
        named += f"{piece.partition('[')[0]}[{facts.names.get(place, piece)}]"
    return named + path.removeprefix(place)
