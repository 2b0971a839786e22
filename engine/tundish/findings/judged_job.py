"""A judged job: a plain row for each rule and item, and what explains a row when asked."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from dataclasses import replace
from functools import cached_property
from itertools import chain
from typing import TYPE_CHECKING

from tundish.findings.finding import STAGES, Finding
from tundish.findings.finding_builder import FindingBuilder, is_due
from tundish.findings.verdicts import completions_of
from tundish.job.changes import without as facts_without
from tundish.job.facts import Facts
from tundish.job.job import Job
from tundish.job.parts.heading import Heading
from tundish.rulebook.evaluate.judge import Judgement, Verdict
from tundish.rulebook.model.choices import Stage
from tundish.rulebook.rulebook import Rulebook

if TYPE_CHECKING:
    from tundish.findings.tolerances import Tolerances
    from tundish.findings.waivers import Waivers

VERDICTS = (
    Verdict.BREACHED,
    Verdict.UNDECIDED,
    Verdict.WAIVED,
    Verdict.MET,
    Verdict.NOT_APPLICABLE,
)
"""In the order they are told in."""


class JudgedJob:
    """What every rule says of one job. Judging is cheap; explaining takes a hundred times longer.

    It is for one thread; the findings it gives are frozen and may be shared.

    Args:
        job: The job; nothing in it is changed.
        rulebook: The rules; the built-in ones where none is given.
        stage: The stage to judge at, in place of the job's own.
        region: The ISO 3166 code of the region to judge for, in place of the job's own.
        without: Paths of facts that are taken as not known, as they contradict each other.

    Attributes:
        facts: The job's facts, with the stage and region asked for put over its own.
        stage: The stage it was judged at, or "".
        judgements: A row for each rule and item: breached, undecided, waived, met and not
            applicable; among these those first that are most serious, but what is undecided and
            not due behind what is.
        explained: The findings that `explain` gave so far, by their rows.

    Raises:
        ValueError: If there is no such stage.
        Refused: If the job waives a rule that is not there, a tolerance names no figure, or the
            region is no ISO 3166 code.

    Example:
        >>> judged = JudgedJob(Job.from_data({"job.stage": "design"}))
        >>> judged.explain(judged.judgements[0]).verdict
        <Verdict.UNDECIDED: 'undecided'>
    """

    def __init__(
        self,
        job: Job,
        rulebook: Rulebook | None = None,
        *,
        stage: Stage | None = None,
        region: str | None = None,
        without: Collection[str] = (),
    ) -> None:
        self.job = job
        self.rulebook = rulebook or Rulebook.built_in()
        self.facts = assessed_facts(job, self.rulebook, stage, region, without)
        self.stage = str(self.facts.values.get("job.stage") or "")
        self.explained: dict[Judgement, Finding] = {}
        self._tolerances = _tolerances(job, self.facts, self.rulebook)
        rows = self.rulebook.evaluator.judgements(self.facts)
        self._completions = completions_of(rows, self.facts, self.rulebook)
        rows = self._completions.judged(rows) if self._completions else rows
        self._waivers = _waivers(job, self.rulebook)
        self.judgements = self._worst_first(self._waivers.applied(rows) if self._waivers else rows)

    def waiting(self, judgement: Judgement) -> Finding:
        """Return what an undecided row waits for, without what the finding rests on.

        That is left empty: margin, inputs, workings, assumed and sources. A row that no fact would
        decide is explained as a whole.

        Args:
            judgement: One of the `judgements` that are undecided.
        """
        finding = self.explained.get(judgement)
        return finding or self._builder.build(judgement, with_grounds=False)

    def explain(self, judgement: Judgement) -> Finding:
        """Return what is to be said of one row; it is worked out once and cached in `explained`.

        Args:
            judgement: One of the `judgements`.
        """
        finding = self.explained.get(judgement)
        if finding is None:
            finding = self._builder.build(judgement)
            doubtful = self._tolerances.doubt(judgement, finding.inputs) if self._tolerances else ""
            waiver = self._waivers.text_of(judgement) if self._waivers else ""
            if doubtful or waiver:
                finding = replace(finding, doubtful=doubtful, waiver=waiver)
            self.explained[judgement] = finding
        return finding

    def is_doubtful(self, judgement: Judgement) -> bool:
        """Say whether a row may come out otherwise within the tolerances that the job states."""
        tolerances = self._tolerances
        if tolerances is None or not tolerances.can_turn(judgement):
            return False
        return bool(self.explain(judgement).doubtful)

    @cached_property
    def _builder(self) -> FindingBuilder:
        facts, rulebook = self.facts, self.rulebook
        return FindingBuilder(facts, rulebook, self.stage, self.job, self._completions)

    def _worst_first(self, judgements: Iterable[Judgement]) -> tuple[Judgement, ...]:
        by_verdict: dict[Verdict, list[Judgement]] = {verdict: [] for verdict in VERDICTS}
        for judgement in judgements:
            by_verdict[judgement.verdict].append(judgement)
        if self.stage and self.stage != STAGES[-1]:
            # What can wait comes after what is due; a breach never waits.
            rules = self.rulebook.rules
            due = {stage for stage in STAGES if is_due(stage, self.stage)}
            by_verdict[Verdict.UNDECIDED].sort(key=lambda row: rules[row.rule].stage not in due)
        return tuple(chain.from_iterable(by_verdict.values()))


def _tolerances(job: Job, facts: Facts, rulebook: Rulebook) -> Tolerances | None:
    if not job.tolerance:
        return None
    # Loaded here, as few jobs state tolerances.
    from tundish.findings.tolerances import Tolerances

    return Tolerances(job, facts, rulebook)


def _waivers(job: Job, rulebook: Rulebook) -> Waivers | None:
    if not job.waiver:
        return None
    # Loaded here, as few jobs waive anything.
    from tundish.findings.waivers import Waivers

    return Waivers(job, rulebook)


def assessed_facts(
    job: Job,
    rulebook: Rulebook,
    stage: str | None,
    region: str | None,
    without: Collection[str] = (),
) -> Facts:
    """Return the job's facts, with the stage and region asked for put over its own.

    Args:
        job: The job.
        rulebook: Knows the facts that packs declare.
        stage: The stage to put in place of its own, or None.
        region: The ISO 3166 code to put in place of its own, or None.
        without: Paths of facts that are taken as not known, as they contradict each other.

    Raises:
        ValueError: If there is no such stage.
        Contradicted: If facts that are left contradict each other.
        Refused: If the region is no ISO 3166 code.
    """
    facts = rulebook.facts(job, may_contradict=bool(without))
    if without:
        facts = facts_without(facts, without)
    if stage is not None and stage not in STAGES:
        raise ValueError(f"There is no stage '{stage}'; there are {', '.join(STAGES)}.")
    if stage is None and region is None:
        return facts
    Heading(region=region)
    asked = {"job.stage": stage, "job.region": region}
    over: Mapping[str, str] = {path: value for path, value in asked.items() if value is not None}
    return Facts({**facts.values, **over}, {**facts.written, **over}, facts.names)
