"""A data class of ours is one of the standard library's, but for what defining it takes."""

from __future__ import annotations

import copy
import dataclasses as standard
import pickle
from dataclasses import field
from typing import Any

import pytest

from tundish.groundwork import dataclass as ours


def a_point(decorate: Any) -> Any:
    """Return the same class, made by one or the other."""

    @decorate(frozen=True, slots=True)
    class Point:
        """A point."""

        x: float
        y: float = 2.0
        marks: list[str] = field(default_factory=list)
        note: str = field(default="", compare=False, repr=False)
        later: int = field(init=False, compare=False, repr=False)
        kept: int = field(init=False, default=7)

    return Point


Point, StandardPoint = a_point(ours.dataclass), a_point(standard.dataclass)


@ours.dataclass(frozen=True)
class Place(Point):
    """A point with a name."""

    name: str = "here"


@ours.dataclass(frozen=True, slots=True)
class One:
    """Something with one field."""

    only: object


@ours.dataclass(frozen=True, slots=True)
class Nothing:
    """Something without fields."""


BOTH = pytest.mark.parametrize("kind", [Point, StandardPoint])


@BOTH
def test_it_is_made_of_values_in_order_or_by_name(kind: Any) -> None:
    made = [kind(1.0), kind(1.0, 2.0), kind(x=1.0), kind(1.0, y=2.0, marks=[])]
    assert all(one == made[0] for one in made)
    assert (made[0].x, made[0].y, made[0].marks, made[0].kept) == (1.0, 2.0, [], 7)
    assert made[0].marks is not made[1].marks
    assert not hasattr(made[0], "later")


@BOTH
@pytest.mark.parametrize(
    ("values", "named"),
    [
        ((), {}),
        ((), {"y": 1.0}),
        ((1.0, 2.0, [], "", 5), {}),
        ((1.0,), {"x": 1.0}),
        ((1.0,), {"z": 1.0}),
        ((1.0,), {"later": 1}),
        ((), {"": 1.0}),
    ],
)
def test_values_that_do_not_fit_are_refused(kind: Any, values: Any, named: Any) -> None:
    with pytest.raises(TypeError):
        kind(*values, **named)


def test_it_says_which_values_do_not_fit() -> None:
    made: Any = Point
    with pytest.raises(TypeError, match=r"^Point: 'x' is missing$"):
        made()
    with pytest.raises(TypeError, match=r"^Point: 'x' is missing; there is no field 'z'$"):
        made(z=1.0)
    with pytest.raises(TypeError, match=r"^Point: 'x' is given twice$"):
        made(1.0, x=1.0)
    with pytest.raises(TypeError, match=r"^Point: 5 values are given for 4 fields$"):
        made(1.0, 2.0, [], "", 5)


@BOTH
def test_it_stays_as_it_is(kind: Any) -> None:
    made = kind(1.0)
    with pytest.raises(standard.FrozenInstanceError):
        made.x = 2.0
    with pytest.raises(standard.FrozenInstanceError):
        del made.x
    # The standard library's stumbles over what is no field of a class with slots.
    with pytest.raises((standard.FrozenInstanceError, AttributeError, TypeError)):
        made.other = 2.0
    assert made.x == 1.0


@BOTH
def test_it_is_equal_to_one_of_its_class_with_the_same_values(kind: Any) -> None:
    assert kind(1.0) == kind(1.0, note="of no account")
    assert kind(1.0) != kind(1.5)
    assert kind(1.0) != (1.0, 2.0, [], 7)
    same = float("nan")
    assert kind(same) == kind(same)


def test_those_of_two_classes_differ_whatever_their_values() -> None:
    assert Place(1.0) != Point(1.0)
    assert Point(1.0) != StandardPoint(1.0)
    assert One(None) != Nothing()
    assert Nothing() == Nothing()


def test_it_can_be_a_key() -> None:
    assert len({One(1), One(1.0), One("1"), Nothing(), Nothing()}) == 3
    with pytest.raises(TypeError):
        hash(Point(1.0))  # of which a list is part


def test_it_shows_its_values() -> None:
    assert repr(Point(1.0)).endswith("Point(x=1.0, y=2.0, marks=[], kept=7)")
    assert repr(StandardPoint(1.0)) == repr(Point(1.0))
    assert (repr(One("a")), repr(Nothing())) == ("One(only='a')", "Nothing()")


@BOTH
def test_the_standard_library_takes_it_for_its_own(kind: Any) -> None:
    made = kind(1.0, marks=["a"])
    assert standard.is_dataclass(kind)
    assert [one.name for one in standard.fields(kind)] == [*"xy", "marks", "note", "later", "kept"]
    assert standard.replace(made, y=3.0) == kind(1.0, 3.0, ["a"])
    assert kind.__match_args__ == ("x", "y", "marks", "note")
    assert not hasattr(made, "__dict__")
    match made:
        case Point(x, y) | StandardPoint(x, y):
            assert (x, y) == (1.0, 2.0)


def test_it_has_the_fields_of_what_it_is_built_on() -> None:
    place = Place(1.0, 2.0, [], "", "there")
    assert (place.name, place.x, place.kept) == ("there", 1.0, 7)
    assert repr(place) == "Place(x=1.0, y=2.0, marks=[], kept=7, name='there')"
    assert hasattr(place, "__dict__")


@pytest.mark.parametrize("made", [One("a"), Nothing(), One(One(1.0))], ids=repr)
def test_it_can_be_copied_and_sent(made: Any) -> None:
    assert copy.copy(made) == copy.deepcopy(made) == made
    assert pickle.loads(pickle.dumps(made)) == made


@pytest.mark.parametrize("slots", [False, True])
def test_what_is_not_frozen_may_be_changed(slots: bool) -> None:
    @ours.dataclass(slots=slots)
    class Open:
        """Something open."""

        x: int = 1
        marks: list[str] = field(default_factory=list)

    opened: Any = Open()
    opened.x = 2
    del opened.marks
    opened.marks = ["a"]
    assert opened == Open(2, ["a"]) != Open()
    assert repr(opened).endswith("Open(x=2, marks=['a'])")
    assert copy.deepcopy(opened) == opened
    with pytest.raises(TypeError):
        hash(opened)


def test_what_else_it_may_be_the_standard_library_makes() -> None:
    @ours.dataclass(frozen=True, order=True)
    class Ordered:
        """Something in an order."""

        x: int = 1

    assert Ordered(1) < Ordered(2)


def test_a_method_of_its_own_is_kept() -> None:
    @ours.dataclass(frozen=True, slots=True)
    class Loud:
        x: int

        def __repr__(self) -> str:
            return "LOUD"

    assert repr(Loud(1)) == "LOUD"
