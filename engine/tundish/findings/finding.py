"""Findings: what a rule says of a job, with everything a reader needs to act on it."""

from __future__ import annotations

import datetime
from dataclasses import field

from tundish.findings.figures import Figure
from tundish.findings.siting import Siting
from tundish.groundwork.dataclass import dataclass
from tundish.rulebook.evaluate.judge import Judgement, Verdict
from tundish.rulebook.model.choices import SEVERITIES, STAGES, Severity, Stage
from tundish.rulebook.model.source import Citation
from tundish.text.problem import Problem

__all__ = [
    "SEVERITIES",
    "STAGES",
    "Affected",
    "Assessment",
    "Finding",
    "Input",
    "Margin",
    "Open",
    "Remedy",
    "Working",
]


NOT_DATA = {"in data": False}
"""Marks a field that is left out where an assessment is put out as data."""


@dataclass(frozen=True, slots=True)
class Input:
    """A fact of the job that a finding rests on.

    Attributes:
        path: Its path, positions in lists counted from 1.
        label: What it is called.
        value: The value as written.
        place: ``file:line``, where the job was read from a file.
    """

    path: str
    label: str
    value: str
    place: str = ""


@dataclass(frozen=True, slots=True)
class Working:
    """A quantity that was computed on the way to a finding.

    Attributes:
        name: Its name in the rulebook, with the item's place before it where it is of one.
        label: What it is called.
        formula: Its formula as written.
        numbers: The formula with the numbers put in.
        result: Its value as text, or "not known".
        sources: Where the formula comes from.
    """

    name: str
    label: str
    formula: str
    numbers: str
    result: str
    sources: tuple[Citation, ...]


@dataclass(frozen=True, slots=True)
class Open:
    """A fact that is not known yet and would decide a finding.

    Attributes:
        path: Its path.
        label: What it is called.
        question: What to ask.
        how: How to find out.
        who: Who can answer.
        limit: What it will be held against, such as "at least 22 L/min", where that is known.
    """

    path: str
    label: str
    question: str
    how: str
    who: str
    limit: str = ""


@dataclass(frozen=True, slots=True)
class Margin:
    """How far a value is from its limit.

    Attributes:
        amount: By how much, in words of the limit's unit ("3.8 L"); never negative.
        share: The distance as a share of the limit: negative where it is breached; None where
            the limit is zero or a point on a scale.
        value: The value as text.
        limit: The limit as text.
    """

    amount: str
    share: float | None
    value: str
    limit: str


@dataclass(frozen=True, slots=True)
class Affected:
    """A requirement that a change would decide otherwise: its rule, title and item."""

    rule: str
    title: str
    item: str


@dataclass(frozen=True, slots=True)
class Remedy:
    """A change of one fact that mends a breach, all else held.

    Attributes:
        path: Path of the fact, positions in lists counted from 1.
        label: What it is called.
        now: Its value as written; "none" where it belongs to something absent.
        then: The value nearest to that which mends the breach, rounded to what can be done.
        mends: What is breached now and would not be, the breach itself left out.
        breaks: What would be breached and is not now.
        opens: What is decided now and would not be.
    """

    path: str
    label: str
    now: str
    then: str
    mends: tuple[Affected, ...]
    breaks: tuple[Affected, ...]
    opens: tuple[Affected, ...]


@dataclass(frozen=True, slots=True)
class Finding:
    """One rule's answer about one job, or about one item of a list in it, explained.

    Attributes:
        rule: Name of the rule (``topic/rule``).
        item: What the item is called, or "".
        verdict: What came out.
        severity: How serious a breach is.
        title: What is required.
        statement: What was found, in one sentence with its numbers.
        because: Why it is required.
        remedy: What mends a breach.
        margin: How far the value is from the limit, where the rule has one; as with all that a
            finding rests on, not of one that waits for facts where `assess` was asked for no
            grounds.
        due: Whether the job has reached the stage at which this must be decided.
        stage: That stage.
        inputs: The facts it rests on.
        workings: The quantities computed on the way.
        open: The facts that would decide it.
        whatever: Facts that are not known and that change nothing: it comes out so whatever they
            are.
        assumed: What it takes for granted until that is known: each fact nobody has said, and what
            stands in for it.
        sources: On whose authority.
        doubtful: Why it may come out otherwise within the stated tolerances, or "".
        changes: Changes of one fact each that mend a breach, the best first; of a breach whose
            changes `assess` was asked for.
        tried: Labels of the facts for which such a change was looked for.
        stopped: Whether that search was given up, as so much may be tried and no more.
        waiver: Who set it aside until when and why, or why a waiver does not hold; or "".
        from_memory: Whether its rule, or a quantity that this is worked out from, was written
            from memory.
        first_name: The first name of a rule that was renamed, and the item under that name.
    """

    rule: str
    item: str
    verdict: Verdict
    severity: Severity
    title: str
    statement: str
    because: str
    remedy: str
    margin: Margin | None
    due: bool
    stage: Stage
    inputs: tuple[Input, ...]
    workings: tuple[Working, ...]
    open: tuple[Open, ...]
    assumed: tuple[str, ...]
    sources: tuple[Citation, ...]
    waiver: str = ""
    doubtful: str = ""
    changes: tuple[Remedy, ...] = ()
    tried: tuple[str, ...] = ()
    stopped: bool = False
    from_memory: bool = False
    whatever: tuple[str, ...] = ()
    first_name: tuple[str, str] | None = field(default=None, metadata=NOT_DATA, repr=False)


@dataclass(frozen=True, slots=True)
class Assessment:
    """The findings about one job, worst first, and what they were made from.

    Attributes:
        job: The job's title, or "".
        file: The file it was read from, or "".
        stage: The stage it was judged at, or "" where none was said.
        region: The region it was judged for, or "".
        date: The job's date, if it has one.
        figures: What the rulebook wants shown whatever its rules say.
        siting: What stands around the unit, where something is known of it.
        findings: The findings: breached ones first by severity, then undecided, met, others.
        job_digest: SHA-256 of the job's facts.
        rulebook_digest: SHA-256 of the rulebook's files.
        version: The program's version.
        cautions: What a reader must be told whatever came out.
        contradictions: Facts that cannot be so together, which were taken as not known.
        judgements: A row for each rule and item, in the same order, whether explained or not.
        unverified: Names of the rules of which anything was written from memory.
        silent: What a pack replaced and a rule of the job's country takes the place of: sentences.
    """

    job: str
    file: str
    stage: str
    region: str
    date: datetime.date | None
    figures: tuple[Figure, ...]
    siting: Siting | None
    findings: tuple[Finding, ...]
    job_digest: str
    rulebook_digest: str
    version: str
    cautions: tuple[str, ...] = ()
    contradictions: tuple[Problem, ...] = ()
    judgements: tuple[Judgement, ...] = field(default=(), metadata=NOT_DATA)
    unverified: frozenset[str] = field(default=frozenset(), metadata=NOT_DATA, repr=False)
    silent: tuple[str, ...] = field(default=(), metadata=NOT_DATA)

    def of(self, verdict: Verdict) -> tuple[Finding, ...]:
        """Return the findings with one verdict.

        Raises:
            LookupError: If `assess` was not asked to explain them.
        """
        findings = tuple(finding for finding in self.findings if finding.verdict is verdict)
        if len(findings) < self.count(verdict):
            raise LookupError(f"What is {verdict} was not explained; ask `assess` for it.")
        return findings

    def count(self, verdict: Verdict) -> int:
        """Return how many rules and items came out so, whether explained or not."""
        return sum(judgement.verdict is verdict for judgement in self.judgements)

    def worst(self) -> Severity | None:
        """Return the severity of the worst breach, or None where nothing is breached."""
        breached = self.of(Verdict.BREACHED)
        return breached[0].severity if breached else None
