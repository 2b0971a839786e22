"""The questions of a form: what findings wait for; groups by the few questions in them."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import field

from tundish.findings.finding import Finding, Open
from tundish.groundwork.dataclass import dataclass
from tundish.job.model.paths import without_positions
from tundish.job.model.schema import Items
from tundish.job.parts.heading import COMPLETE_LISTS
from tundish.report.forms.form import FormLine, decides
from tundish.rulebook.rulebook import Rulebook
from tundish.survey.group_questions import questions_in_group


@dataclass(slots=True)
class Waiting:
    """A fact, group or list that findings wait for.

    Attributes:
        fact: What is not known.
        decides: What waits for it, as a reader is told.
        rules: The names of the rules that wait.
        limits: What it will be held against.
    """

    fact: Open
    decides: list[str] = field(default_factory=list)
    rules: list[str] = field(default_factory=list)
    limits: list[str] = field(default_factory=list)


@dataclass(slots=True)
class FormQuestions:
    """What a form asks.

    Attributes:
        asked: The questions, by path with list positions counted from 1.
        notes: What is said above a group or an item, by its path.
    """

    asked: dict[str, FormLine] = field(default_factory=dict)
    notes: dict[str, str] = field(default_factory=dict)


def waiting_for(pairs: Iterable[tuple[Finding, Open]]) -> dict[str, Waiting]:
    """Return what is waited for, by path.

    Args:
        pairs: Findings, each with a fact that would decide it.
    """
    waiting: dict[str, Waiting] = {}
    for finding, fact in pairs:
        entry = waiting.setdefault(fact.path, Waiting(fact))
        about = f"{finding.title} ({finding.item})" if finding.item else finding.title
        entry.decides.append(about)
        entry.rules.append(finding.rule)
        if fact.limit:
            entry.limits.append(fact.limit)
    return dict(sorted(waiting.items()))


def form_questions(
    pairs: Iterable[tuple[Finding, Open]], rulebook: Rulebook, stage: str
) -> FormQuestions:
    """Return what a form asks, so that findings are decided.

    Args:
        pairs: Findings, each with a fact that would decide it.
        rulebook: The rules, and the facts that packs declare.
        stage: The stage of the job.
    """
    questions = FormQuestions()
    begun: list[Waiting] = []
    for path, waiting in waiting_for(pairs).items():
        entry = rulebook.asked(without_positions(path))
        if isinstance(entry, Items) and waiting.fact.question != entry.question:
            begun.append(waiting)
            continue
        rules = [rulebook.rules[name] for name in dict.fromkeys(waiting.rules)]
        inside = questions_in_group(without_positions(path), rules, rulebook, stage)
        if not inside:
            questions.asked[path] = FormLine(
                waiting.fact.question, waiting.fact.how, entry, waiting.limits, waiting.decides
            )
            continue
        group = f"{path}[1]" if isinstance(entry, Items) else path
        questions.notes[group] = _note(waiting, isinstance(entry, Items))
        for inner in inside:
            below = inner.path.removeprefix(f"{without_positions(path)}.")
            asked = FormLine(inner.question, inner.how, inner)
            questions.asked.setdefault(f"{group}.{below}", asked)
    if begun:
        questions.asked[COMPLETE_LISTS] = _of_begun_lists(begun, rulebook)
    return questions


def _of_begun_lists(begun: Iterable[Waiting], rulebook: Rulebook) -> FormLine:
    """Return the line for lists in which something stands already: are they complete?"""
    lists = sorted({without_positions(waiting.fact.path) for waiting in begun})
    how = f"Add what is missing in {', '.join(lists)}; then name those that are complete."
    entry = rulebook.asked(COMPLETE_LISTS)
    assert entry is not None
    decided = [about for waiting in begun for about in waiting.decides]
    return FormLine(entry.question, how, entry, [], decided)


def _note(waiting: Waiting, is_list: bool) -> str:
    outer, _, key = without_positions(waiting.fact.path).rpartition(".")
    under = f"under [{outer}]" if outer else "at the top"
    if is_list:
        absent = f"If there are none, write {key} = [] {under} in place of this block"
        absent += "; copy it for each further one."
    else:
        absent = f'If there is none, write {key} = "none" {under} in place of this table.'
    return f"{waiting.fact.question} {absent} {decides(waiting.decides)}"
