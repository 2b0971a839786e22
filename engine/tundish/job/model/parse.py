"""Making parts of plain data, with everything that is wrong with the data in one go."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import TYPE_CHECKING, Any, TypeVar, cast

from tundish.groundwork.dataclass import dataclass
from tundish.job.model.field_types import NONE, ItemsType, MoreType, OrNoneType
from tundish.job.model.fields import Member
from tundish.job.model.kinds import checked_list
from tundish.text.place import Path
from tundish.text.quoted import escaped, shown

if TYPE_CHECKING:
    from tundish.job.model.part import Part

_Part = TypeVar("_Part", bound="Part")


@dataclass(frozen=True, slots=True)
class Wrong:
    """One thing that is wrong with the data of a part.

    Attributes:
        at: The way to it from the part.
        sentence: What is wrong; empty where the key is none of the part.
        single: Whether one table stands where a list of them should.
    """

    at: Path
    sentence: str = ""
    single: bool = False


class Unreadable(Exception):  # noqa: N818 - it reads as the sentence it is
    """Data that a part cannot be made of.

    Args:
        wrong: All that is wrong with it.
    """

    def __init__(self, wrong: list[Wrong]) -> None:
        super().__init__(wrong)
        self.wrong = wrong


def made_of(part: type[_Part], data: object) -> _Part:
    """Make a part.

    Args:
        part: Its class.
        data: A table of what it holds, by name, or such a part itself.

    Raises:
        Unreadable: If it cannot be made; carries all that is wrong.
    """
    wrong: list[Wrong] = []
    made = _made(part, data, (), wrong)
    if made is None or wrong:
        raise Unreadable(wrong)
    return made


def _made(part: type[_Part], data: object, at: Path, wrong: list[Wrong]) -> _Part | None:
    if isinstance(data, part):
        return data
    if not isinstance(data, Mapping):
        wrong.append(Wrong(at, f"Write a table with facts in it, not {shown(data)}."))
        return None
    before = len(wrong)
    try:
        found = _held(part, part.prepared(data), at, wrong)
        if len(wrong) > before:
            return None
        made = object.__new__(part)
        made.__dict__.update(found)
        made.check()
    except ValueError as error:
        wrong.append(Wrong(at, escaped(str(error))))
        return None
    return made


def _held(
    part: type[Part], data: Mapping[str, Any], at: Path, wrong: list[Wrong]
) -> dict[str, Any]:
    """Return what a part holds, by name in the order of its members; what is None is not given."""
    members, found = part.members, dict[str, Any]()
    for name, member in members.items():
        value = data.get(name)
        if value is not None:
            try:
                found[name] = _read(member, value, (*at, name), wrong)
            except ValueError as error:
                # Loaded here, as only a refused fact pays for it.
                from tundish.job.model.refusal import refusal_of

                wrong.append(Wrong((*at, name), escaped(refusal_of(member, value, error))))
    wrong.extend(Wrong((*at, key)) for key in data if key not in members)
    return found


def _read(member: Member, value: Any, at: Path, wrong: list[Wrong]) -> Any:
    """Return what stands in a member.

    Raises:
        ValueError: If it does not belong there.
    """
    if member.kind is not None:
        return member.kind.read(value)
    match member.held:
        case ItemsType():
            return _items(member, value, at, wrong)
        case OrNoneType():
            # false is how one says so in a language without the word; both are kept as "none".
            if value is False or value == NONE:
                return NONE
            if not isinstance(value, Mapping | cast("type", member.part)):
                raise ValueError(
                    f"Write a table, or '{NONE}' if there is none, not {shown(value)}."
                )
        case MoreType():
            if not isinstance(value, dict):
                raise ValueError(f"Write a table of facts, not {shown(value)}.")
            return value
    return _made(cast("type[Part]", member.part), value, at, wrong)


def _items(member: Member, value: Any, at: Path, wrong: list[Wrong]) -> tuple[Any, ...]:
    if isinstance(value, dict):
        wrong.append(Wrong(at, "Write a list of tables", single=True))
        return ()
    part, before = cast("type[Part]", member.part), len(wrong)
    items = tuple(
        _made(part, item, (*at, position), wrong)
        for position, item in enumerate(checked_list(value))
    )
    if len(wrong) == before:
        _check_names_differ(items)
    return items


def _check_names_differ(items: Iterable[object]) -> None:
    """Refuse two items of one name, as a finding could then not say which it means."""
    seen: set[str] = set()
    for item in items:
        name = getattr(item, "name", None)
        if name is not None and name in seen:
            raise ValueError(f"Two items of this list are named {shown(name)}; names must differ.")
        if name is not None:
            seen.add(name)
