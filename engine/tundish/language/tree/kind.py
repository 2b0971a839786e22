"""Kinds: what sort of value a part of an expression has."""

from __future__ import annotations

from dataclasses import replace
from typing import Literal

from tundish.groundwork.dataclass import dataclass
from tundish.units.dimension import LEVEL, NUMBER, TEMPERATURE, Dimension
from tundish.units.display_units import usual_unit

KindName = Literal["quantity", "truth", "text", "texts", "date", "record", "items"]


@dataclass(frozen=True, slots=True)
class Kind:
    """The kind of a value.

    Attributes:
        name: The sort of value; a plain number is a quantity without dimension.
        dimension: Of a quantity, what it measures.
        point: Of a quantity, whether it is a point on a scale (degC, dB), not an amount.
        choices: Of a text or texts, the words it can be; empty where any text may stand.
        record: Of a record or items, the path of the record in the job, without positions.
    """

    name: KindName
    dimension: Dimension = NUMBER
    point: bool = False
    choices: tuple[str, ...] = ()
    record: str = ""

    def __str__(self) -> str:
        """Return the kind as a reader of an error message needs it."""
        if self.name != "quantity":
            return _SPOKEN[self.name]
        if self.dimension == TEMPERATURE:
            return "a temperature (degC)" if self.point else "a temperature difference (K)"
        if self.dimension == LEVEL:
            return "a sound level (dB)" if self.point else "a level difference (dB)"
        if self.dimension.is_number:
            return "a plain number"
        return f"a quantity of {self.dimension.name}"

    @property
    def difference(self) -> Kind:
        """Return the kind of the difference of two such points."""
        return Kind("quantity", self.dimension)


TRUTH = Kind("truth")
PLAIN_NUMBER = Kind("quantity")
DATE = Kind("date")


def quantity_kind(dimension: Dimension, point: bool = False) -> Kind:
    """Return the kind of a quantity."""
    return Kind("quantity", dimension, point)


def text_kind(choices: tuple[str, ...] = ()) -> Kind:
    """Return the kind of a text, of any words or of the given ones."""
    return Kind("text", choices=choices)


def fits(kind: Kind, wanted: Kind) -> bool:
    """Say whether a value of one kind may stand where another is asked for."""
    return (kind.name, kind.dimension, kind.point, kind.record) == (
        wanted.name,
        wanted.dimension,
        wanted.point,
        wanted.record,
    )


def with_words_of(first: Kind, second: Kind) -> Kind:
    """Return the kind of any text that either of two kinds can be."""
    words = (*first.choices, *(word for word in second.choices if word not in first.choices))
    return replace(first, choices=words if first.choices and second.choices else ())


def missing_unit(first: Kind, second: Kind) -> str:
    """Hint at a forgotten unit where one side is a plain number, with an example of the right form.

    Args:
        first: The kind of one side.
        second: The kind of the other.
    """
    both = first.name == second.name == "quantity"
    if not both or first.dimension.is_number == second.dimension.is_number:
        return ""
    wanted = second if first.dimension.is_number else first
    unit = usual_unit(wanted.dimension, wanted.point)
    return f" Is a unit missing? It stands right after the number, as in 5 {unit}."


def capital(kind: Kind) -> str:
    """Return the kind as a sentence begins with it; units keep their letters."""
    text = str(kind)
    return text[0].upper() + text[1:]


_SPOKEN: dict[KindName, str] = {
    "quantity": "a quantity",
    "truth": "a condition (true or false)",
    "text": "a text",
    "texts": "a list of texts",
    "date": "a date",
    "record": "a group of facts",
    "items": "a list of items",
}
