"""Writing findings: a judgement with its statement, margin, inputs, workings and open facts."""

from __future__ import annotations

from tundish.assessment.details import inputs_of, item_label, label_of, open_facts, workings_of
from tundish.assessment.finding import STAGES, Finding
from tundish.assessment.limits import limits
from tundish.assessment.margins import margin
from tundish.assessment.statement import breach_sentence, met_sentence
from tundish.assessment.wording import Wording
from tundish.job.facts import Facts
from tundish.job.source import Source
from tundish.language.session import TooManySteps
from tundish.language.step import Step
from tundish.rulebook.judging import Judgement, Verdict, explain_judgement, item_binding
from tundish.rulebook.rulebook import Rulebook


class FindingWriter:
    """Writes the findings of one job. Not for sharing between threads; make one a use."""

    def __init__(self, facts: Facts, rulebook: Rulebook, stage: str, source: Source | None) -> None:
        self._facts = facts
        self._rulebook = rulebook
        self._stage = stage
        self._source = source
        self._wording = Wording(facts)
        self._explainer = rulebook.explainer(facts)

    def finding(self, judgement: Judgement) -> Finding:
        """Write one finding."""
        steps = self._steps(judgement)
        rule = judgement.rule
        requires = steps[1] if len(steps) > 1 else None
        open_paths = self._open_paths(judgement, steps)
        assumed = sorted(frozenset[str]().union(*(step.assumed for step in steps)))
        return Finding(
            rule=rule.name,
            item=judgement.item,
            verdict=judgement.verdict,
            severity=rule.severity,
            title=rule.title,
            statement=self._statement(judgement, steps, open_paths),
            because=rule.because,
            remedy=rule.remedy,
            margin=margin(requires, self._wording) if requires is not None else None,
            due=self._is_due(rule.stage),
            stage=rule.stage,
            inputs=inputs_of(steps, self._wording, self._place),
            workings=workings_of(steps, self._rulebook.quantities, self._wording),
            open=open_facts(
                open_paths,
                self._item_label,
                self._limits(requires, open_paths),
                self._rulebook.asked,
            ),
            assumed=tuple(self._labelled(path) for path in assumed),
            sources=rule.citations,
        )

    def _limits(self, requires: Step | None, open_paths: frozenset[str]) -> dict[str, str]:
        return limits(requires, self._wording) if requires is not None and open_paths else {}

    def _steps(self, judgement: Judgement) -> list[Step]:
        """Walk the conditions, where there is something to walk."""
        whole_list = judgement.rule.each is not None and judgement.position is None
        if whole_list or judgement.obstacle:
            return []
        try:
            applies, requires = explain_judgement(judgement, self._facts, self._explainer)
        except TooManySteps:
            # Judging stops at the first item that settles it; explaining looks at them all.
            return []
        return [applies] if requires is None else [applies, requires]

    def _open_paths(self, judgement: Judgement, steps: list[Step]) -> frozenset[str]:
        if judgement.open_list:
            return frozenset((judgement.open_list,))
        if judgement.verdict is not Verdict.UNDECIDED:
            return frozenset()
        needs = frozenset[str]().union(*(step.needs for step in steps))
        # Whether there is a vessel is asked before how large it is.
        return frozenset(path for path in needs if not needs & set(_groups_above(path)))

    def _statement(
        self, judgement: Judgement, steps: list[Step], open_paths: frozenset[str]
    ) -> str:
        match judgement.verdict:
            case Verdict.BREACHED | Verdict.MET if len(steps) < 2:
                return f"This is {judgement.verdict}; it looks at too many items to say how."
            case Verdict.BREACHED:
                return _sentence(self._breach(judgement, steps[1]))
            case Verdict.MET:
                return _sentence(met_sentence(steps[1], self._wording))
            case Verdict.UNDECIDED:
                return self._undecided(judgement, steps, open_paths)
            case _:
                return "This does not apply to the job."

    def _breach(self, judgement: Judgement, step: Step) -> str:
        """Fill in the rule's own sentence, or make one from the condition."""
        if not judgement.rule.breach:
            return breach_sentence(step, self._wording)
        bindings = item_binding(judgement, self._facts)
        try:
            pieces = [
                piece
                if isinstance(piece, str)
                else self._wording.shown(self._explainer.explain(piece, bindings))
                for piece in judgement.rule.breach
            ]
        except TooManySteps:
            return breach_sentence(step, self._wording)
        return "".join(pieces)

    def _undecided(
        self, judgement: Judgement, steps: list[Step], open_paths: frozenset[str]
    ) -> str:
        labels = sorted({self._labelled(path) for path in open_paths})
        if labels:
            return f"Not known yet: {', '.join(labels)}."
        obstacles = frozenset[str]().union(*(step.obstacles for step in steps))
        told = judgement.obstacle or "; ".join(sorted(obstacles))
        told = told or "it looks at too many items"
        return f"This cannot be worked out: {told}."

    def _is_due(self, stage: str) -> bool:
        """Say whether the job has come to a stage; where it says none, everything is due."""
        return not self._stage or STAGES.index(stage) <= STAGES.index(self._stage)

    def _labelled(self, path: str) -> str:
        item = self._item_label(path)
        return f"{label_of(path)} ({item})" if item else label_of(path)

    def _item_label(self, path: str) -> str:
        return item_label(self._facts, path)

    def _place(self, path: str) -> str:
        found = self._source.place(path) if self._source else None
        return f"{found[0]}:{found[1]}" if found else ""


def _sentence(text: str) -> str:
    return text[0].upper() + text[1:] + ("" if text.endswith((".", "!")) else ".")


def _groups_above(path: str) -> list[str]:
    """Return the paths of all groups that a fact stands in."""
    steps = path.split(".")
    return [".".join(steps[:length]) for length in range(1, len(steps))]
