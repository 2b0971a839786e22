"""Kinds of fact: how each is read from what someone wrote, and the sentence when it cannot be."""

from __future__ import annotations

import datetime
import math
from collections.abc import Iterable
from dataclasses import replace
from fractions import Fraction
from functools import cached_property
from typing import Any, Self

from tundish.groundwork.dataclass import dataclass
from tundish.job.model.written_quantity import no_unit, written_quantity
from tundish.text.bounds import GREATEST_COUNT, LONGEST_LIST, LONGEST_TEXT
from tundish.text.nearest import did_you_mean
from tundish.text.quoted import quoted
from tundish.units.dimension import Dimension
from tundish.units.quantity import Quantity, parse_quantity
from tundish.units.unit import Unit


@dataclass(frozen=True)
class FactKind:
    """What a fact may be; the annotation of each field has an instance."""

    def read(self, value: object) -> Any:
        """Return the fact that was written.

        Args:
            value: What stood in the file, or a value that is already of this kind.

        Returns:
            The fact.

        Raises:
            ValueError: If it is no such fact; the text says what would be right.
        """
        raise NotImplementedError

    def with_example(self, example: str) -> Self:
        """Return this kind with another example in its messages, if they name one.

        Args:
            example: What would usually be written, without quotes around a text.
        """
        changes: dict[str, Any] = {"example": example}
        return replace(self, **changes) if hasattr(self, "example") else self


@dataclass(frozen=True)
class QuantityKind(FactKind):
    """A number with a unit.

    Args:
        noun: What is measured, with its article, as in "a length".
        example: A quantity of the right dimension; a point on a scale if it is one. A fact may
            have a better one; this says in what unit such facts are shown.
        least: The least that can be, or an empty text where nothing bounds it.
        most: The most that can be, or an empty text.
        difference: Whether it is a difference of sound levels. Their unit is written dB too, so
            the text cannot tell, as K and degC do for temperatures.
    """

    noun: str
    example: str
    least: str = ""
    most: str = ""
    difference: bool = False

    @cached_property
    def dimension(self) -> Dimension:
        """Return the dimension that the example has."""
        return self._example.dimension

    @cached_property
    def point(self) -> bool:
        """Return whether a reading is a point on a scale, as of the example."""
        return self.unit.point and not self.difference

    @property
    def unit(self) -> Unit:
        """Return the unit in which facts of this kind are shown where nobody has written one."""
        return self._example.unit

    @cached_property
    def _example(self) -> Quantity:
        return parse_quantity(self.example)

    @cached_property
    def _bounds(self) -> tuple[Fraction | None, Fraction | None]:
        bounds = (self.least, self.most)
        least, most = (parse_quantity(text).exact if text else None for text in bounds)
        return least, most

    @cached_property
    def bounds_in_si(self) -> tuple[float, float]:
        """Return the least and the most that can be [SI units], infinite where nothing bounds."""
        least, most = self._bounds
        return (
            -math.inf if least is None else float(least),
            math.inf if most is None else float(most),
        )

    def read(self, value: object) -> Quantity:
        """Return a quantity of this dimension, within what can be."""
        quantity = value if isinstance(value, Quantity) else self._parsed(value)
        unit = quantity.unit
        if unit.dimension is not self.dimension and unit.dimension != self.dimension:
            was = unit.dimension.name
            raise ValueError(
                f"{quoted(str(quantity))} is not {self.noun} but of the kind {was}; "
                f"write {self.noun} such as '{self.example}'."
            )
        if unit.point != self.point and not self.difference:
            scale = ("difference", "point on a scale")
            has, wanted = scale if self.point else scale[::-1]
            written = quoted(str(quantity))
            raise ValueError(f"{written} is a {has}; write a {wanted} such as '{self.example}'.")
        self._refuse_impossible(quantity)
        return quantity

    def _refuse_impossible(self, quantity: Quantity) -> None:
        low, high = self.bounds_in_si
        # Rounding keeps the order, so only at a bound and beyond do exact values say more.
        if low < quantity.si < high:
            return
        (least, most), exact = self._bounds, quantity.exact
        if least is not None and exact < least:
            raise ValueError(_impossible(quantity, f"least possible is {self.least}"))
        if most is not None and exact > most:
            raise ValueError(_impossible(quantity, f"most possible is {self.most}"))

    def _parsed(self, value: object) -> Quantity:
        if isinstance(value, int | float) and not isinstance(value, bool):
            raise ValueError(no_unit(quoted(value), self.example))
        if not isinstance(value, str):
            raise ValueError(f"Write {self.noun} such as '{self.example}', not {quoted(value)}.")
        return written_quantity(value, self.noun, self.example)


def _impossible(quantity: Quantity, bound: str) -> str:
    return f"{quoted(str(quantity))} cannot be: the {bound}."


@dataclass(frozen=True)
class WholeKind(FactKind):
    """A whole number: a count, or one of a few numbers.

    Args:
        options: The only numbers there are; empty when any from zero up will do.
        example: What would usually be written.
    """

    options: tuple[int, ...] = ()
    example: str = "2"

    def read(self, value: object) -> int:
        """Return a whole number, zero or more."""
        if isinstance(value, bool) or not isinstance(value, int):
            raise ValueError(f"Write a whole number such as {self.example}, not {quoted(value)}.")
        if self.options and value not in self.options:
            options = " or ".join(str(option) for option in self.options)
            raise ValueError(f"{quoted(value)} cannot be; write {options}.")
        if not 0 <= value <= GREATEST_COUNT:
            raise ValueError(f"{quoted(value)} is no count; write a whole number from 0 up.")
        return value


@dataclass(frozen=True)
class NumberKind(FactKind):
    """A plain number without a unit.

    Args:
        least: The least that can be.
        most: The most that can be.
    """

    least: float = 0.0
    most: float = math.inf

    def read(self, value: object) -> float:
        """Return a finite number within what can be."""
        if isinstance(value, bool) or not isinstance(value, int | float):
            raise ValueError(f"Write a plain number without a unit or quotes, not {quoted(value)}.")
        # Compared before it is converted: a huge whole number has no float.
        if not self.least <= value <= self.most or value > 1e300 or math.isnan(value):
            most = "" if math.isinf(self.most) else f" and not above {self.most:g}"
            raise ValueError(f"{quoted(value)} cannot be: not below {self.least:g}{most}.")
        return float(value)


class TruthKind(FactKind):
    """Yes or no."""

    def read(self, value: object) -> bool:
        """Return true or false."""
        if not isinstance(value, bool):
            raise ValueError(f"Write true or false, without quotes, not {quoted(value)}.")
        return value


class TextKind(FactKind):
    """Free text."""

    def read(self, value: object) -> str:
        """Return text that is not blank."""
        if not isinstance(value, str):
            raise ValueError(f"Write text in quotes, not {quoted(value)}.")
        text = value.strip()
        if not text:
            raise ValueError("The text is blank; leave the key out while it is not known.")
        if len(text) > LONGEST_TEXT:
            raise ValueError(f"The text has {len(text)} characters; the most is {LONGEST_TEXT}.")
        # Any other unprintable character could move the cursor on a terminal.
        if not all(character.isprintable() or character in "\n\t" for character in text):
            raise ValueError(f"{quoted(text)} holds control characters; write plain text.")
        return text


@dataclass(frozen=True)
class ChoiceKind(FactKind):
    """One of a few texts.

    Args:
        choices: The texts there are.
    """

    choices: tuple[str, ...] = ()

    def read(self, value: object) -> str:
        """Return one of the choices."""
        if isinstance(value, str) and value in self.choices:
            return value
        near = did_you_mean(value, self.choices) if isinstance(value, str) else ""
        raise ValueError(
            f"{quoted(value)} is not among the choices: {_listed(self.choices)}.{near}"
        )


class DateKind(FactKind):
    """A day."""

    def read(self, value: object) -> datetime.date:
        """Return the day, from a date or from text such as 2026-11-02."""
        if isinstance(value, str):
            try:
                return datetime.date.fromisoformat(value)
            except ValueError:
                pass
        elif isinstance(value, datetime.date) and not isinstance(value, datetime.datetime):
            return value
        raise ValueError(f"Write a date such as 2026-11-02, not {quoted(value)}.")


@dataclass(frozen=True)
class TextsKind(FactKind):
    """A list of texts, each free or out of a few; `[]` says that there are none.

    Args:
        choices: The texts there are; empty when any will do.
    """

    choices: tuple[str, ...] = ()

    def read(self, value: object) -> tuple[str, ...]:
        """Return the texts, in their order."""
        item = ChoiceKind(self.choices) if self.choices else TextKind()
        texts = tuple(item.read(text) for text in checked_list(value))
        repeated = next((text for text in texts if texts.count(text) > 1), None)
        if repeated is not None and self.choices:
            raise ValueError(f"{quoted(repeated)} stands in the list twice.")
        return texts


def checked_list(value: object) -> Iterable[object]:
    """Return a list from a file, if it is one and not too long.

    Args:
        value: What stood in the file.

    Returns:
        The list.

    Raises:
        ValueError: If it is no list, or longer than the bound.
    """
    if not isinstance(value, list | tuple):
        raise ValueError(f"Write a list in square brackets, not {quoted(value)}; [] says none.")
    if len(value) > LONGEST_LIST:
        raise ValueError(f"The list has {len(value)} items; the most is {LONGEST_LIST}.")
    return value


def _listed(choices: tuple[str, ...]) -> str:
    return ", ".join(f"'{choice}'" for choice in choices)
