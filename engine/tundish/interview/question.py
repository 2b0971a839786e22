"""One question of an interview: what is asked, what may be answered, and what it decides."""

from __future__ import annotations

from typing import Literal

from tundish.findings.finding import SEVERITIES, Finding
from tundish.groundwork.dataclass import dataclass
from tundish.job.facts import Facts
from tundish.job.model.kinds import ChoiceKind, FactKind, TextsKind
from tundish.job.model.schema import Asked, Fact, Items, Record
from tundish.rulebook.model.choices import Severity
from tundish.rulebook.rulebook import Rulebook

Form = Literal["fact", "group", "list", "another"]
"""What is asked for: a fact; whether a group is there; the first item of a list, or one more."""


@dataclass(frozen=True, slots=True)
class Question:
    """One question.

    Attributes:
        form: What is asked for.
        path: Where the answer is written, positions in lists counted from 1.
        asked: The question, how to find out and whom to ask.
        item: What the list item is called that it is about, such as "run 'flow to hall'"; or "".
        group: What the group is called that it is about, such as "second heat source"; or "".
        kind: How an answer is read, where a fact is asked for.
        limits: What the answer will be held against, where that is known.
        findings: The findings that wait for it, worst first.
        file: The file that the answer is written into.
    """

    form: Form
    path: str
    asked: Asked
    item: str = ""
    group: str = ""
    kind: FactKind | None = None
    limits: tuple[str, ...] = ()
    findings: tuple[Finding, ...] = ()
    file: str = ""

    @property
    def choices(self) -> tuple[str, ...]:
        """Return the only texts that there are; empty where any will do."""
        return self.kind.choices if isinstance(self.kind, ChoiceKind | TextsKind) else ()

    @property
    def example(self) -> str:
        """Return how the fact could be given, or an empty text."""
        return self.asked.example if isinstance(self.asked, Fact) else ""

    @property
    def can_be_absent(self) -> bool:
        """Return whether "none" is an answer to a group."""
        return isinstance(self.asked, Record) and self.asked.can_be_absent

    @property
    def of_one(self) -> str:
        """Return what one item of the list is called."""
        return self.asked.item.label if isinstance(self.asked, Items) else ""

    @property
    def named(self) -> bool:
        """Return whether the items of the list have names."""
        return isinstance(self.asked, Items) and "name" in self.asked.item.fields

    @property
    def severity(self) -> Severity:
        """Return the severity of the worst that waits for it."""
        return min(
            (finding.severity for finding in self.findings), key=SEVERITIES.index, default="note"
        )


def form_of(asked: Asked, kind: FactKind | None, is_begun: bool = False) -> Form:
    """Return what is asked for at a place of the schema.

    Args:
        asked: What stands there.
        kind: The kind of the fact, if it is one.
        is_begun: Whether it is a list in which something stands already.
    """
    if kind is not None:
        return "fact"
    if isinstance(asked, Items):
        return "another" if is_begun else "list"
    return "group"


def group_words(path: str, rulebook: Rulebook) -> str:
    """Return what the group is called that a path stands in, or an empty text.

    A question such as "What is it?" needs it. The large parts of a job, such as its site, need no
    naming; nor does a group that its question names itself.
    """
    outer = path.rpartition(".")[0]
    group = rulebook.asked(outer) if outer and not outer.endswith("]") else None
    asked = rulebook.asked(path)
    if not isinstance(group, Record) or asked is None or group.label in asked.question.lower():
        return ""
    return group.label if "." in outer or group.can_be_absent else ""


def item_words(path: str, facts: Facts, rulebook: Rulebook) -> str:
    """Return what the list item is called that a path runs through, or an empty text.

    Example: ``run 'flow to hall'``, or ``circuit 2`` where it has no name.
    """
    place, bracket, _ = path.rpartition("]")
    if not bracket:
        return ""
    name = facts.names.get(place + bracket, "")
    of = rulebook.asked(place.rpartition("[")[0])
    word = of.item.label if isinstance(of, Items) else "item"
    return name if name.startswith(f"{word} ") or not name else f"{word} '{name}'"
