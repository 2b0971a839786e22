"""Explaining: a judgement made a finding with its statement, margin, inputs and open facts."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from tundish.findings.details import Details, awaited, item_label, label_of, open_facts
from tundish.findings.finding import STAGES, Finding, Input, Margin, Open, Working
from tundish.findings.limits import limits
from tundish.findings.margins import margin
from tundish.findings.phrases import Wording
from tundish.findings.statement import breach_sentence, met_sentence
from tundish.job.facts import Facts
from tundish.job.job import Job
from tundish.job.model.paths import outer_paths, without_positions
from tundish.language.budget.budget import TooManySteps
from tundish.language.evaluate.step import Step
from tundish.rulebook.evaluate.judge import Judgement, Verdict, explain_judgement, item_binding
from tundish.rulebook.model.choices import Stage
from tundish.rulebook.model.rule import Rule
from tundish.rulebook.model.source import Citation
from tundish.rulebook.rulebook import Rulebook

if TYPE_CHECKING:
    from tundish.rulebook.evaluate.completions import Completions

_NOT_APPLICABLE = "This does not apply to the job."


class _Grounds(NamedTuple):
    """What a finding rests on."""

    margin: Margin | None = None
    inputs: tuple[Input, ...] = ()
    workings: tuple[Working, ...] = ()
    assumed: tuple[str, ...] = ()
    sources: tuple[Citation, ...] = ()


class FindingBuilder:
    """Explains the judgements of one job.

    Args:
        facts: The job's facts.
        rulebook: The rules it is judged by.
        stage: The stage it has reached, or "".
        job: The job; it knows where its facts were written.
        completions: The completions of the job by which some rows were decided, if any were.
    """

    def __init__(
        self,
        facts: Facts,
        rulebook: Rulebook,
        stage: str,
        job: Job,
        completions: Completions | None = None,
    ) -> None:
        self._facts = facts
        self._rulebook = rulebook
        self._stage = stage
        self._job = job
        self._completions = completions
        self._wording = Wording(facts)
        self._details = Details(rulebook.quantities, self._wording, self._place, self._item_label)
        self._explainer = rulebook.explainer(facts)
        self._last_item = rulebook.budget.explaining(facts.values).items
        """The last item of a list whose findings are explained."""

    def build(self, judgement: Judgement, with_grounds: bool = True) -> Finding:
        """Walk the conditions of a rule, and return what is to be said of its judgement.

        Args:
            judgement: The judgement.
            with_grounds: Whether to say what a finding rests on that waits for facts.
        """
        rule = self._rulebook.rules[judgement.rule]
        steps = self._steps(rule, judgement)
        requires = steps[1] if len(steps) > 1 else None
        open_paths = self._open_paths(judgement, steps)
        grounds = self._grounds(rule, steps) if with_grounds or not open_paths else _Grounds()
        if judgement.early:
            return self._early(rule, judgement, steps, grounds)
        limits_of = limits(requires, self._wording) if requires and open_paths else {}
        asked = self._rulebook.asked
        to_ask = open_facts(open_paths, self._item_label, limits_of, asked, self._is_begun)
        statement = self._statement(rule, judgement, steps, to_ask)
        return self._finding(rule, judgement, statement, grounds, to_ask)

    def _early(
        self, rule: Rule, judgement: Judgement, steps: list[Step], grounds: _Grounds
    ) -> Finding:
        """Return the finding of a row that was decided though not all is known."""
        from tundish.findings.early import EarlyWording

        assert self._completions is not None
        needs = frozenset[str]().union(*(step.needs for step in steps))
        whatever = tuple(sorted(map(self._labelled, self._outermost(needs))))
        early = EarlyWording(rule, judgement, self._completions.of(judgement), self._wording)
        is_asked = judgement.verdict is not Verdict.NOT_APPLICABLE
        statement = early.statement(whatever) if is_asked else _NOT_APPLICABLE
        workings = early.workings(grounds.workings, steps)
        grounds = grounds._replace(workings=workings)
        return self._finding(rule, judgement, statement, grounds, (), whatever)

    def _finding(
        self,
        rule: Rule,
        judgement: Judgement,
        statement: str,
        grounds: _Grounds,
        to_ask: tuple[Open, ...],
        whatever: tuple[str, ...] = (),
    ) -> Finding:
        return Finding(
            rule=rule.name,
            item=judgement.item,
            verdict=judgement.verdict,
            severity=rule.severity,
            title=rule.title,
            statement=statement,
            because=rule.because,
            remedy=rule.remedy,
            margin=grounds.margin,
            due=is_due(rule.stage, self._stage),
            stage=rule.stage,
            inputs=grounds.inputs,
            workings=grounds.workings,
            open=to_ask,
            assumed=grounds.assumed,
            sources=grounds.sources,
            from_memory=rule.name in self._rulebook.unverified_rules,
            whatever=whatever,
            first_name=rule.first_name(judgement.item) if rule.formerly else None,
        )

    def _grounds(self, rule: Rule, steps: list[Step]) -> _Grounds:
        inputs, workings, assumed = self._details.of(steps)
        return _Grounds(
            margin=margin(steps[1], self._wording) if len(steps) > 1 else None,
            inputs=inputs,
            workings=workings,
            assumed=assumed,
            sources=rule.citations,
        )

    def _steps(self, rule: Rule, judgement: Judgement) -> list[Step]:
        """Walk the conditions, where there is something to walk."""
        if judgement.open_list or judgement.obstacle or (judgement.position or 0) > self._last_item:
            return []
        try:
            applies, requires = explain_judgement(rule, judgement, self._facts, self._explainer)
        except TooManySteps:
            # Judging stops at the first item that decides; explaining walks all of them.
            return []
        return [applies] if requires is None else [applies, requires]

    def _open_paths(self, judgement: Judgement, steps: list[Step]) -> frozenset[str]:
        if judgement.open_list:
            return frozenset((judgement.open_list,))
        if judgement.verdict is not Verdict.UNDECIDED:
            return frozenset()
        return self._outermost(frozenset[str]().union(*(step.needs for step in steps)))

    @staticmethod
    def _outermost(needs: frozenset[str]) -> frozenset[str]:
        """Return what is asked first: whether a group is there, and only then its facts."""
        return frozenset(path for path in needs if not needs & set(outer_paths(path)))

    def _statement(
        self, rule: Rule, judgement: Judgement, steps: list[Step], to_ask: tuple[Open, ...]
    ) -> str:
        # A waiver sets a breach aside; what was found stays the same.
        waived = judgement.verdict is Verdict.WAIVED
        verdict = Verdict.BREACHED if waived else judgement.verdict
        match verdict:
            case Verdict.BREACHED | Verdict.MET if len(steps) < 2:
                return f"This is {verdict}; {self._why_unexplained(judgement)}."
            case Verdict.BREACHED:
                return _sentence(self._breach(rule, judgement, steps[1]))
            case Verdict.MET:
                return _sentence(met_sentence(steps[1], self._wording))
            case Verdict.UNDECIDED:
                return self._undecided(judgement, steps, to_ask)
            case _:
                waits = ", ".join(awaited(steps[0], self._item_label)) if steps else ""
                return f"This is asked once it is known: {waits}." if waits else _NOT_APPLICABLE

    def _why_unexplained(self, judgement: Judgement) -> str:
        if (judgement.position or 0) > self._last_item:
            return f"of so many only the first {self._last_item:,} items are explained"
        return "it looks at too many items to say how"

    def _breach(self, rule: Rule, judgement: Judgement, step: Step) -> str:
        """Fill in the rule's own sentence, or make one from the condition."""
        if not rule.breach:
            return breach_sentence(step, self._wording)
        bindings = item_binding(rule, judgement, self._facts)
        pieces = rule.breach
        roots = [piece for piece in pieces if not isinstance(piece, str)]
        try:
            values = iter(self._explainer.explain_all(roots, bindings))
        except TooManySteps:
            return breach_sentence(step, self._wording)
        return "".join(
            piece if isinstance(piece, str) else self._wording.shown(next(values))
            for piece in pieces
        )

    def _undecided(self, judgement: Judgement, steps: list[Step], to_ask: tuple[Open, ...]) -> str:
        labels = sorted({fact.label for fact in to_ask})
        if labels:
            return f"Not known yet: {', '.join(labels)}.{self._how_to_end(to_ask)}"
        obstacles = frozenset[str]().union(*(step.obstacles for step in steps))
        obstacle = judgement.obstacle or "; ".join(sorted(obstacles))
        obstacle = obstacle or self._why_unexplained(judgement)
        return f"This cannot be worked out: {obstacle}."

    def _how_to_end(self, to_ask: tuple[Open, ...]) -> str:
        """Say how a job tells that a list lacks nothing, where one may."""
        begun = {without_positions(fact.path) for fact in to_ask if self._is_begun(fact.path)}
        lists = " and ".join(sorted(begun))
        return f" If nothing is missing, name {lists} in job.complete_lists." if begun else ""

    def _labelled(self, path: str) -> str:
        item, label = self._item_label(path), label_of(path)
        return f"{label} ({item})" if item else label

    def _item_label(self, path: str) -> str:
        return item_label(self._facts, path)

    def _is_begun(self, path: str) -> bool:
        return f"{path}[1]" in self._facts.names

    def _place(self, path: str) -> str:
        source = self._job.source
        file_and_line = source.place(path) if source else None
        return f"{file_and_line[0]}:{file_and_line[1]}" if file_and_line else ""


def is_due(stage: Stage, reached: str) -> bool:
    """Say whether a job has come to a stage; where it says none, everything is due."""
    return not reached or STAGES.index(stage) <= STAGES.index(reached)


def _sentence(text: str) -> str:
    return text[0].upper() + text[1:] + ("" if text.endswith((".", "!")) else ".")
