"""What the template of a rule asks of one fact: a condition, a value that meets it, one that fails.

Both values are ones that the job model takes, so that the template can be proved as it stands.
"""

from __future__ import annotations

import datetime
from collections.abc import Callable, Mapping
from decimal import Decimal

from tundish.groundwork.dataclass import dataclass
from tundish.job.model.kinds import FactKind, NumberKind, QuantityKind, WholeKind
from tundish.job.model.schema import Asked, Fact, Items, Record
from tundish.job.named_file import FILES
from tundish.job.schema import job_schema
from tundish.language.syntax.parser import parse
from tundish.language.syntax.problem import ExpressionError
from tundish.units.display_units import usual_unit
from tundish.units.format import in_unit, show_number
from tundish.units.quantity import Quantity, parse_quantity

ITEMS_NEED: Mapping[str, Mapping[str, object]] = {"waiver": {"rule": "a-topic/a-rule"}}
"""What an item of a list cannot be read without."""


@dataclass(frozen=True, slots=True)
class Requirement:
    """A requirement on one fact.

    Attributes:
        condition: The condition, with ``{name}`` where the fact is named.
        title: What is required, as a clause.
        otherwise: What is the case where it is breached, as a clause.
        remedy: What mends a breach, as a sentence.
        met: A value that meets it, as TOML holds it.
        breached: A value that does not.
        why_met: What the case with the first value shows.
        why_breached: What the case with the second value shows.
        may_change: Whether another value of the fact alone mends a breach.
        beside: Other facts that the condition looks at, by path.
        notes: What else a writer of rules should know, a sentence each.
    """

    condition: str
    title: str
    otherwise: str
    remedy: str
    met: object
    breached: object
    why_met: str
    why_breached: str
    may_change: bool = True
    beside: tuple[tuple[str, object], ...] = ()
    notes: tuple[str, ...] = ()


def requirement(asked: Asked, kind: FactKind | None) -> Requirement | None:
    """Return what a template asks of a fact, a group or a list.

    Args:
        asked: What is asked for; of a pipe size one of its measures.
        kind: The kind of the fact, where it has one.

    Returns:
        The requirement; None where no value could breach it, or no rule can ask for it.
    """
    match asked:
        case _ if asked.path in FILES:
            return None
        case Items():
            return _of_list(asked)
        case Record():
            return _of_group(asked) if asked.can_be_absent else None
        case Fact():
            return _OF_KIND[asked.kind](asked, kind)
        case _:
            return None


def _of_quantity(fact: Fact, kind: FactKind | None) -> Requirement | None:
    assert isinstance(kind, QuantityKind)
    example = _sayable(parse_quantity(fact.example))
    step = _step(example.magnitude, fact.point)
    unit = example.unit

    def written(number: Decimal) -> str:
        # A plain number is shown without its unit, but is not read without one.
        text = str(Quantity(number, unit))
        return f"{text} 1" if unit.symbol == "1" else text

    return _bounded(fact, kind, example.magnitude, step, written, str(example))


def _sayable(example: Quantity) -> Quantity:
    """Return a quantity in a unit that can stand in a condition, where some have no place."""
    try:
        parse(str(example))
    except ExpressionError:
        unit = usual_unit(example.dimension, example.unit.point)
        return Quantity(Decimal(show_number(in_unit(example.si, unit))), unit)
    return example


def _of_number(fact: Fact, kind: FactKind | None) -> Requirement | None:
    limit = Decimal(fact.example)
    if isinstance(kind, WholeKind):
        if kind.options:
            return _of_option(fact, kind, int(limit))
        return _bounded(fact, kind, limit, Decimal(1), int, str(int(limit)))
    assert isinstance(kind, NumberKind)
    return _bounded(fact, kind, limit, _step(limit, False), float, f"{limit:f}")


def _step(limit: Decimal, is_point: bool) -> Decimal:
    """Return how far from a limit the breached case lies: a hundredth, or one on a scale."""
    return Decimal(1) if is_point or not limit else abs(limit) / 100


def _bounded(
    fact: Fact,
    kind: FactKind,
    limit: Decimal,
    step: Decimal,
    written: Callable[[Decimal], object],
    shown: str,
) -> Requirement | None:
    """Ask for no less than a limit; for no more where less cannot be."""
    directions = ((">=", "at least", "less", -1), ("<=", "at most", "more", 1))
    for sign, least, less, way in directions:
        beyond = written(Decimal(show_number(float(limit + way * step), 6)))
        if _can_be(kind, beyond):
            return Requirement(
                f"{{name}} {sign} {shown}",
                f"the {fact.label} must be {least} {shown}",
                f"it is {less} than {shown}",
                f"Bring the {fact.label} to {least} {shown}.",
                written(limit),
                beyond,
                "exactly at the limit",
                f"a little {less} than the limit",
            )
    return None


def _of_option(fact: Fact, kind: WholeKind, wanted: int) -> Requirement | None:
    other = next((option for option in kind.options if option != wanted), None)
    if other is None:
        return None
    return Requirement(
        f"{{name}} == {wanted}",
        f"the {fact.label} must be {wanted}",
        f"it is not {wanted}",
        f"Change the {fact.label} to {wanted}.",
        wanted,
        other,
        f"it is {wanted}",
        f"it is {other}",
    )


def _of_truth(fact: Fact, _: FactKind | None) -> Requirement:
    return Requirement(
        "{name}",
        f"the answer to '{fact.question}' must be yes",
        "the answer is no",
        "Put right what makes the answer no.",
        True,
        False,
        "the answer is yes",
        "the answer is no",
        notes=("A truth is a condition by itself. Where the answer must be no: not {name}",),
    )


def _of_text(fact: Fact, kind: FactKind | None) -> Requirement | None:
    wanted = next((text for text in (fact.example, *_TEXTS) if _fits(text, kind)), "")
    others = [text for text in (*fact.choices, *_TEXTS) if text != wanted and _fits(text, kind)]
    if not wanted or not others:
        return None
    note = "A text must be the same letter by letter. Several may do: {name} in ['one', 'other']"
    return Requirement(
        f"{{name}} == '{wanted}'",
        f"the {fact.label} must be '{wanted}'",
        "it is anything else",
        f"Change the {fact.label} to '{wanted}'.",
        wanted,
        others[0],
        f"it is '{wanted}'",
        "it is something else",
        may_change=bool(fact.choices),
        notes=(f"{note}, one of {_quoted(fact.choices)}." if fact.choices else f"{note}.",),
    )


def _of_texts(fact: Fact, kind: FactKind | None) -> Requirement | None:
    words = (fact.example.strip("[]").split('"')[1:2] or [""])[0]
    wanted = next((text for text in (words, *fact.choices, *_TEXTS) if _fits([text], kind)), "")
    if not wanted:
        return None
    return Requirement(
        f"'{wanted}' in {{name}}",
        f"the {fact.label} must include '{wanted}'",
        f"'{wanted}' is not among them",
        f"Add '{wanted}' to the {fact.label}.",
        [wanted],
        [],
        f"'{wanted}' is among them",
        "there are none",
        may_change=False,
        notes=(f"It can hold {_quoted(fact.choices)}.",) if fact.choices else (),
    )


def _of_day(fact: Fact, _: FactKind | None) -> Requirement | None:
    day = datetime.date.fromisoformat(fact.example)
    other = "job.date" if fact.path != "job.date" else "readings.day"
    beside = job_schema().find(other)
    assert beside is not None
    return Requirement(
        f"{{name}} <= {other}",
        f"the {fact.label} must not be later than the {beside.label}",
        f"it is later than the {beside.label}",
        f"Correct the {fact.label}, or see to it in time.",
        day,
        day + datetime.timedelta(days=1),
        "on the same day",
        "a day later",
        may_change=False,
        beside=((other, day),),
        notes=("A day is compared with another day of the job.",),
    )


def _of_group(group: Record) -> Requirement:
    return Requirement(
        "present({name})",
        f"there must be a {group.label}",
        "there is none",
        f"Provide the {group.label}.",
        {},
        "none",
        "there is one",
        "there is none",
        may_change=False,
    )


def _of_list(items: Items) -> Requirement:
    return Requirement(
        "count({name}) >= 1",
        f"there must be at least one {items.item.label}",
        "there is none",
        f"Provide at least one {items.item.label}.",
        [dict(ITEMS_NEED.get(items.path, {}))],
        [],
        "there is one",
        "there is none",
        may_change=False,
    )


def _can_be(kind: FactKind, value: object) -> bool:
    try:
        kind.read(value)
    except ValueError:
        return False
    return True


def _fits(value: object, kind: FactKind | None) -> bool:
    """Say whether a text, or a list of one, can be written in a condition and read as the fact."""
    text = value[0] if isinstance(value, list) else str(value)
    return bool(text) and "'" not in text and kind is not None and _can_be(kind, value)


def _quoted(words: tuple[str, ...]) -> str:
    return ", ".join(f"'{word}'" for word in words)


_TEXTS = ("as agreed", "something else", "GB", "FR")
"""What stands for a text where nothing else says what it could be."""

_OF_KIND: dict[str, Callable[[Fact, FactKind | None], Requirement | None]] = {
    "quantity": _of_quantity,
    "number": _of_number,
    "truth": _of_truth,
    "text": _of_text,
    "texts": _of_texts,
    "date": _of_day,
}
