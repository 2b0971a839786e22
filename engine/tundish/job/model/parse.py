"""Parsing plain data into parts, and noting everything that is wrong with it in one run."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any, cast

from tundish.groundwork.dataclass import dataclass
from tundish.job.model.field_types import NONE, ItemsType, MoreType, OrNoneType
from tundish.job.model.fields import Member, PartClass
from tundish.job.model.kinds import TextKind, checked_list
from tundish.text.not_known import says_not_known
from tundish.text.place import Path
from tundish.text.quoted import escaped, quoted


@dataclass(frozen=True, slots=True)
class Wrong:
    """One thing that is wrong with the data of a part.

    Attributes:
        at: The way to it from the part.
        sentence: What is wrong; empty for an unknown key.
        single: Whether one table stands where a list of them should.
    """

    at: Path
    sentence: str = ""
    single: bool = False


def parse(part: PartClass, data: object, wrong: list[Wrong]) -> Any:
    """Return a part made of plain data.

    Args:
        part: Its class.
        data: A table of what it holds, by name, or such a part itself.
        wrong: Gets everything that is wrong with the data.

    Returns:
        The part; None where anything is wrong.
    """
    instance = _parse(part, data, (), wrong)
    return None if wrong else instance


def _parse(part: PartClass, data: object, at: Path, wrong: list[Wrong]) -> Any:
    if isinstance(data, part):
        return data
    if not isinstance(data, Mapping):
        wrong.append(Wrong(at, f"Write a table with facts in it, not {quoted(data)}."))
        return None
    before = len(wrong)
    try:
        values = _values(part, part.prepared(data), at, wrong)
        if len(wrong) > before:
            return None
        instance: Any = object.__new__(cast("type[Any]", part))
        instance.__dict__.update(values)
        instance.check()
    except ValueError as error:
        wrong.append(Wrong(at, escaped(str(error))))
        return None
    return instance


def _values(
    part: PartClass, data: Mapping[str, Any], at: Path, wrong: list[Wrong]
) -> dict[str, Any]:
    """Return the values of a part by name, in the order of its members; None counts as absent."""
    members, values = part.members, dict[str, Any]()
    for name, member in members.items():
        value = data.get(name)
        if value is not None:
            try:
                values[name] = _value(member, value, (*at, name), wrong)
            except ValueError as error:
                wrong.append(Wrong((*at, name), escaped(_refusal(member, value, error))))
    wrong.extend(Wrong((*at, key)) for key in data if key not in members)
    return values


def _value(member: Member, value: Any, at: Path, wrong: list[Wrong]) -> Any:
    """Return the value of a member.

    Raises:
        ValueError: If it does not belong there.
    """
    if member.kind is not None:
        return member.kind.read(value)
    match member.held:
        case ItemsType():
            return _items(member, value, at, wrong)
        case OrNoneType():
            # Some write false for "none"; both are kept as "none".
            if value is False or value == NONE:
                return NONE
            if not isinstance(value, Mapping | member.part):
                raise ValueError(
                    f"Write a table, or '{NONE}' if there is none, not {quoted(value)}."
                )
        case MoreType():
            if not isinstance(value, dict):
                raise ValueError(f"Write a table of facts, not {quoted(value)}.")
            return value
    return _parse(member.part, value, at, wrong)


def _refusal(member: Member, value: Any, error: ValueError) -> str:
    """Return the sentence that refuses what was written for a member.

    Args:
        member: The member.
        value: What was written for it.
        error: Why its kind refuses it.

    Returns:
        The sentence, with the fact's own example instead of that of its kind.
    """
    is_text = isinstance(value, str)
    if is_text and says_not_known(value) and not isinstance(member.kind, TextKind):
        return f"{quoted(value)} is no fact. Leave the line out while it is not known."
    sentence = _by_example(member, value) or str(error)
    otherwise = member.asking.otherwise
    if otherwise and is_text and not any(character.isdigit() for character in value):
        return f"{sentence} {otherwise}"
    return sentence


def _by_example(member: Member, value: Any) -> str:
    """Return the sentence of the member's kind with the example of the member, if it has one."""
    if member.kind is None or not member.asking.example:
        return ""
    try:
        member.kind.with_example(member.asking.example).read(value)
    except ValueError as error:
        return str(error)
    return ""


def _items(member: Member, value: Any, at: Path, wrong: list[Wrong]) -> tuple[Any, ...]:
    if isinstance(value, dict):
        wrong.append(Wrong(at, "Write a list of tables", single=True))
        return ()
    before = len(wrong)
    items = tuple(
        _parse(member.part, item, (*at, position), wrong)
        for position, item in enumerate(checked_list(value))
    )
    if len(wrong) == before:
        _check_names_differ(items)
    return items


def _check_names_differ(items: Iterable[object]) -> None:
    """Refuse two items of one name, as a finding could not say which of them it means."""
    names: set[str] = set()
    for item in items:
        name = getattr(item, "name", None)
        if name is not None and name in names:
            raise ValueError(f"Two items of this list are named {quoted(name)}; names must differ.")
        if name is not None:
            names.add(name)
