"""What a survey asks of a sample job, however much of it is left out."""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import cache
from random import Random
from typing import Any

import pytest

from laws.sample_data import WHOLE, sample_data
from laws.thinning import BOOK
from tundish import Job, Verdict, assess
from tundish.job.hints import is_pipe_size, written_path
from tundish.job.model.paths import without_positions
from tundish.job.model.schema import Fact, Items, Record
from tundish.report.page.line import Line
from tundish.report.tell.survey import survey_lines
from tundish.rulebook.model.choices import STAGES
from tundish.survey.survey import Inquiry, inquiries

each = pytest.mark.parametrize(("at", "stage"), [(at, stage) for at in WHOLE for stage in STAGES])
OF_THE_JUDGING = ("waiver", "tolerance")
"""What is no fact of the house, and cannot be stated in part."""
ANSWERS = {
    "truth": r"yes or no, written true or false$",
    "quantity": r"an? \S.* with its unit, such as -?[\d.]+ [^\s,]+(, not (below|above) .*)?$",
    "number": r"[\d or]+$|a (whole number|number without a unit), such as -?[\d.]+(, not .*)?$",
    "date": r"a day, such as \d{4}-\d\d-\d\d$",
    "texts": r"a list.*, such as \[.*\]; \[\] for none$",
    "choice": r"one of \S.*[,;] \S",
    "text": r"a text, such as \S",
    "pipe": r"a size of pipe, such as \S+ .*\d$",
    "list": r"\[\] if there are none; else for each:$",
    "group": r'"none" if there is none; else:$',
}


def thinner(chance: Random, data: Any, share: float) -> Any:
    """Return data with a share of its facts left out, those of items of lists too."""
    if isinstance(data, list):
        return [thinner(chance, item, share) for item in data]
    if not isinstance(data, dict):
        return data
    groups = {key: isinstance(value, dict) for key, value in data.items()}
    return {
        key: thinner(chance, value, share)
        for key, value in data.items()
        if key == "name" or groups[key] or chance.random() >= share
    }


@cache
def asked(at: int, stage: str) -> tuple[Sequence[Line], Sequence[Inquiry]]:
    """Return the page and the questions of a sample job with some of its facts left out."""
    chance = Random(f"{at} {stage}")
    stated = {key: value for key, value in sample_data(at).items() if key not in OF_THE_JUDGING}
    facts = thinner(chance, stated, chance.choice([0.1, 0.3, 0.6]))
    job, waits = Job.from_data(facts), (Verdict.UNDECIDED,)
    assessment = assess(job, BOOK, stage=stage, region="GB", verdicts=waits)
    found = inquiries(assessment, BOOK)
    return list(survey_lines(assessment, found, BOOK)), found


def kind_of(path: str) -> str:
    entry = BOOK.asked(without_positions(path))
    if isinstance(entry, Fact):
        return "choice" if entry.kind == "text" and entry.choices else entry.kind
    if is_pipe_size(entry):
        return "pipe"
    assert isinstance(entry, Items | Record), path
    assert isinstance(entry, Items) or entry.can_be_absent, path
    return "list" if isinstance(entry, Items) else "group"


def blocks(lines: Sequence[Line]) -> list[list[Line]]:
    """Return the lines of each question, from the question on."""
    found: list[list[Line]] = []
    for line in lines:
        if line.role == "question":
            found.append([])
        if found and line.role in ("question", "entry"):
            found[-1].append(line)
    return found


def labelled(block: Sequence[Line], label: str) -> list[str]:
    """Return the texts of a question under a label; what goes on bears none."""
    texts, inside = list[str](), False
    for line in block:
        inside = line.label == label or (inside and not line.label)
        texts += [line.text] if inside else []
    return texts


@each
def test_every_question_can_be_answered_as_its_page_says(at: int, stage: str) -> None:
    lines, found = asked(at, stage)
    questions = blocks(lines)
    assert [int(block[0].text.partition(". ")[0]) for block in questions] == [
        number for number, _ in enumerate(found, start=1)
    ]
    for block in questions:
        (place, *_), (first, *inside) = labelled(block, "write in"), labelled(block, "answer in")
        kind = kind_of(place)
        assert re.match(ANSWERS[kind], first), (place, first)
        assert bool(inside) == (kind in ("list", "group")), place
        assert "group of facts" not in " ".join(inside).lower()


@each
def test_every_question_is_asked_once_of_facts_that_a_job_has(at: int, stage: str) -> None:
    _, found = asked(at, stage)
    paths = [fact.path for inquiry in found for fact in inquiry.facts]
    assert len(paths) == len(set(paths))
    assert [path for path in paths if BOOK.asked(without_positions(path)) is None] == []
    for inquiry in found:
        assert inquiry.findings and inquiry.asked.question.endswith("?")
        here = without_positions(inquiry.asked.path)
        assert {without_positions(place) for place in inquiry.places} == {here}
        assert all(written_path(place) == place for place in inquiry.places)
        assert bool(inquiry.inside) == (kind_of(here) in ("list", "group"))
        assert all(entry.path.startswith(f"{here}.") for entry in inquiry.inside)
