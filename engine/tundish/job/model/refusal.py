"""The sentence that refuses a fact, with what would be written in its place."""

from __future__ import annotations

from typing import Any

from tundish.job.model.fields import Member
from tundish.job.model.kinds import TextKind
from tundish.text.not_known import says_not_known
from tundish.text.quoted import shown


def refusal_of(member: Member, value: Any, error: ValueError) -> str:
    """Return why what was written for a member is refused.

    Args:
        member: The member.
        value: What was written for it.
        error: Why it is refused, as whatever stands in it says.

    Returns:
        The sentence, with the fact's own example in place of that of its kind.
    """
    is_text = isinstance(value, str)
    if is_text and says_not_known(value) and not isinstance(member.kind, TextKind):
        return f"{shown(value)} is no fact. Leave the line out while it is not known."
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
