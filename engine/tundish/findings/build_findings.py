"""What a job is judged to be: a finding of each rule, worst first, with little told of it yet."""

from __future__ import annotations

from itertools import chain

from tundish.findings.finding import STAGES, Finding
from tundish.findings.finding_builder import FindingWriter
from tundish.job.facts import Facts
from tundish.rulebook.evaluate.judge import Verdict, judge
from tundish.rulebook.rulebook import Rulebook

VERDICTS = (
    Verdict.BREACHED,
    Verdict.UNDECIDED,
    Verdict.WAIVED,
    Verdict.MET,
    Verdict.NOT_APPLICABLE,
)
"""In the order they are told in."""

_NEW = object.__new__
# A slot's own setter: the class is frozen, and of all ways around that this takes least time.
_SET_PROMISE = Finding._promise.__set__  # type: ignore[attr-defined]


def judged_worst_first(
    facts: Facts, rulebook: Rulebook, stage: str, writer: FindingWriter
) -> list[Finding]:
    """Judge a job by every rule.

    Args:
        facts: The job's facts.
        rulebook: The rules.
        stage: The stage it has reached, or "".
        writer: Supplies what the findings tell.

    Returns:
        The findings: breached, undecided, met and not applicable; among these those first that
        are most serious, but what is undecided and not due behind what is.
    """
    found: dict[Verdict, list[Finding]] = {verdict: [] for verdict in VERDICTS}
    evaluator = rulebook.evaluator
    session = rulebook.session(facts.values)
    # This is done once a rule of every job, so that each name in it is at hand, and the verdicts do
    # not come one by one through `Evaluator.by_item`, by which all this takes a tenth longer.
    of_rule, new, set_promise, kind = writer.of_rule, _NEW, _SET_PROMISE, Finding
    put = {verdict: findings.append for verdict, findings in found.items()}
    for name, quick in zip(evaluator.names, evaluator.ask(facts.values, session)[1], strict=True):
        if isinstance(quick, Verdict):
            finding = new(kind)
            set_promise(finding, (of_rule, name, quick, None))
            put[quick](finding)
        elif quick:
            for position, verdict in enumerate(quick, start=1):
                finding = new(kind)
                set_promise(finding, (of_rule, name, verdict, position))
                put[verdict](finding)
        else:
            for judgement in judge(rulebook.rules[name], facts, session):
                finding = new(kind)
                set_promise(finding, (writer.of_judgement, judgement))
                put[judgement.verdict](finding)
    found[Verdict.UNDECIDED] = _due_first(found[Verdict.UNDECIDED], stage)
    return list(chain.from_iterable(found.values()))


def _due_first(findings: list[Finding], stage: str) -> list[Finding]:
    """Put what can wait until it is due behind the rest; a breach can not wait."""
    if not stage or stage == STAGES[-1]:
        return findings
    due = [finding for finding in findings if finding.due]
    return due + [finding for finding in findings if not finding.due]
