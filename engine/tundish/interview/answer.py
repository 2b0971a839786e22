"""Reading an answer by the kind of the fact asked for, or saying what would be right."""

from __future__ import annotations

import datetime
import re
from collections.abc import Callable, Sequence
from typing import Any

from tundish.groundwork.dataclass import dataclass
from tundish.interview.question import Question
from tundish.job.model.kinds import (
    ChoiceKind,
    DateKind,
    FactKind,
    NumberKind,
    QuantityKind,
    TextKind,
    TextsKind,
    TruthKind,
    WholeKind,
)
from tundish.text.nearest import nearest
from tundish.text.quoted import quoted
from tundish.units.quantity import parse_quantity

NONE = "none"
NO_ITEMS = (NONE, "[]")
YES = ("y", "yes", "true")
NO = ("n", "no", "false")

_NUMBER = re.compile(r"[+\-\u2212]?[0-9]+(?:[.,][0-9]+)?")
_DAY = re.compile(r"([0-9]{1,2})\.([0-9]{1,2})\.([0-9]{4})")


@dataclass(frozen=True, slots=True)
class Answer:
    """An answer that was understood.

    Attributes:
        value: What is written into the file: text, number, truth, day, list; {} for a group or
            an item that is there; None where nothing more is to be written.
    """

    value: Any


@dataclass(frozen=True, slots=True)
class Misread:
    """An answer that was not understood.

    Attributes:
        sentence: Why, and what would be right.
        offer: What may have been meant, to be taken on a yes; or an empty text.
    """

    sentence: str
    offer: str = ""


def read_answer(text: str, question: Question, literal: bool = False) -> Answer | Misread:
    """Read an answer to a question.

    Args:
        text: What was answered, without space around it; not empty.
        question: The question.
        literal: Whether "none" is the text itself, as it stood in quotes.
    """
    match question.form:
        case "group":
            return _group(text, question)
        case "list" | "another":
            return _item(text, question, literal)
    kind = question.kind
    assert kind is not None
    if text.lower() == NONE and not literal and not _knows_none(kind):
        quotes = ", or put it in quotes if that is the text" if isinstance(kind, TextKind) else ""
        return Misread(
            f"'none' is no answer here; press Enter alone while it is not known{quotes}."
        )
    try:
        return _fact(text, kind, question)
    except ValueError as error:
        return Misread(str(error))


def _knows_none(kind: FactKind) -> bool:
    return isinstance(kind, TextsKind) or (isinstance(kind, ChoiceKind) and NONE in kind.choices)


def _group(text: str, question: Question) -> Answer | Misread:
    word = text.lower()
    if word in YES:
        return Answer({})
    if not question.can_be_absent:
        return Misread("Answer yes; its facts are asked for next.")
    if word == NONE or word in NO:
        return Answer(NONE)
    return Misread("Answer yes or none; if yes, its facts are asked for next.")


def _item(text: str, question: Question, literal: bool) -> Answer | Misread:
    word = text.lower()
    noun = question.of_one
    if not literal and (word in NO_ITEMS or word in NO):
        if question.form == "another":
            return Answer(None)
        # A bare no may mean anything, and an empty list settles many rules.
        first = "the name of the first" if question.named else "yes for the first"
        wrong = Misread(f"Write none if there are none, or {first}.")
        return Answer([]) if word in NO_ITEMS else wrong
    if not question.named:
        return Answer({}) if word in YES else Misread(f"Answer yes for one {noun} more, or none.")
    if not literal and (word in YES or word.isdigit()):
        return Misread(
            f"Give the {noun} a name, such as '{noun} 1'; the others are asked for next."
        )
    try:
        return Answer({"name": TextKind().read(text)})
    except ValueError as error:
        return Misread(str(error))


def _fact(text: str, kind: FactKind, question: Question) -> Answer | Misread:
    """Read a fact.

    Raises:
        ValueError: If it is none; the text says what would be right.
    """
    for of, read in _READERS.items():
        if isinstance(kind, of):
            return read(text, kind, question)
    kind.read(text)
    return Answer(text)


def _quantity(text: str, kind: Any, question: Question) -> Answer | Misread:
    if not any(character.isdigit() for character in text[:3]):
        raise ValueError(f"{quoted(text)} is not {kind.noun}; write one such as '{kind.example}'.")
    if not _NUMBER.fullmatch(text):
        return Answer(str(kind.read(text)))
    unit = unit_for(kind, question.limits)
    meant = str(kind.read(f"{text} {unit}"))
    return Misread(f"{quoted(text)} has no unit. Did you mean '{meant}'?", meant)


def unit_for(kind: QuantityKind, limits: tuple[str, ...]) -> str:
    """Return the unit to offer: that of a limit the quantity is held against, or of the example."""
    for limit in limits:
        match = re.search(r"[0-9][0-9.]* (\S+)$", limit)
        if match is not None:
            try:
                kind.read(f"1 {match[1]}")
            except ValueError:
                continue
            return match[1]
    return str(parse_quantity(kind.example).unit)


def _whole(text: str, kind: Any, _: Question) -> Answer:
    if not re.fullmatch(r"[+-]?[0-9]+", text):
        raise ValueError(f"{quoted(text)} is no whole number; write one, without a unit.")
    return Answer(kind.read(int(text)))


def _number(text: str, kind: Any, _: Question) -> Answer:
    if not _NUMBER.fullmatch(text):
        raise ValueError(f"{quoted(text)} is no plain number; write one, without a unit.")
    return Answer(kind.read(float(text.replace(",", ".").replace("\u2212", "-"))))


def _truth(text: str, _: Any, __: Question) -> Answer:
    word = text.lower()
    if word not in YES + NO:
        raise ValueError(f"{quoted(text)} is neither yes nor no; answer y or n.")
    return Answer(word in YES)


def _day(text: str, kind: Any, _: Question) -> Answer:
    written = _DAY.fullmatch(text)
    if written is None:
        return Answer(kind.read(text))
    day, month, year = (int(part) for part in written.groups())
    try:
        return Answer(datetime.date(year, month, day))
    except ValueError:
        raise ValueError(f"{quoted(text)} is no day of the calendar.") from None


@dataclass(frozen=True, slots=True)
class Choice:
    """What a word stands for.

    Attributes:
        word: The choice; empty where it is none.
        sentence: Why it is none.
        nearest: The choice that may have been meant, or an empty text.
    """

    word: str = ""
    sentence: str = ""
    nearest: str = ""


def chosen(text: str, choices: Sequence[str]) -> Choice:
    """Return the choice that a text stands for.

    Args:
        text: The choice itself, an unambiguous beginning of it, or its number counted from 1.
        choices: The choices.

    Example:
        >>> chosen("2", ["ground", "wall"]).word, chosen("gr", ["ground", "wall"]).word
        ('wall', 'ground')
    """
    word = text.strip().lower()
    if text in choices:
        return Choice(text)
    alike = [choice for choice in choices if choice.lower() == word]
    if not alike and word.isascii() and word.isdecimal() and 1 <= int(word[:9]) <= len(choices):
        return Choice(choices[int(word) - 1])
    alike = alike or [choice for choice in choices if choice.lower().startswith(word)]
    if len(alike) == 1:
        return Choice(alike[0])
    if alike:
        could_be = " or ".join(f"'{choice}'" for choice in alike)
        return Choice(sentence=f"{quoted(text)} could be {could_be}; write more of it.")
    near = nearest(text, choices, most=1)
    if near:
        question = f"{quoted(text)} is not among the choices. Did you mean '{near[0]}'?"
        return Choice(sentence=question, nearest=near[0])
    numbers = f"a number from 1 to {len(choices)}"
    return Choice(sentence=f"{quoted(text)} is not among the choices; write a word or {numbers}.")


def _choice(text: str, kind: Any, _: Question) -> Answer | Misread:
    choice = chosen(text, kind.choices)
    return Answer(choice.word) if choice.word else _misread(choice)


def _texts(text: str, kind: Any, _: Question) -> Answer | Misread:
    if text.lower() == NONE and NONE not in kind.choices:
        return Answer([])
    words = [word.strip() for word in text.split(",") if word.strip()]
    if not kind.choices:
        return Answer(list(kind.read(words)))
    choices = [chosen(word, kind.choices) for word in words]
    wrong = next((choice for choice in choices if not choice.word), None)
    if wrong is not None:
        meant = [choice.word or choice.nearest for choice in choices]
        return _misread(wrong, ", ".join(meant) if all(meant) else "")
    return Answer(list(kind.read([choice.word for choice in choices])))


def _misread(choice: Choice, offer: str | None = None) -> Misread:
    return Misread(choice.sentence, choice.nearest if offer is None else offer)


def _text(text: str, kind: Any, _: Question) -> Answer:
    return Answer(kind.read(text))


_READERS: dict[type[FactKind], Callable[[str, Any, Question], Answer | Misread]] = {
    QuantityKind: _quantity,
    WholeKind: _whole,
    NumberKind: _number,
    TruthKind: _truth,
    DateKind: _day,
    ChoiceKind: _choice,
    TextsKind: _texts,
    TextKind: _text,
}
