"""Writing accounts: the statements that see to it that no rule takes more steps than it may.

Where a rule's loops go through lists of the job alone, what it can take at most is known from
their lengths: it is looked at once, and paid beforehand. Where they hang on more than that, each
is looked at as it is taken.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence

from tundish.language.codegen.branches import BranchingEmitter
from tundish.language.codegen.common_subexpressions import Asked, CommonSubexpressions
from tundish.language.tree import tree as t
from tundish.language.tree.kind import Kind

SESSION = "(session := session or start(facts))"
"""What stands for the running evaluation, which most jobs need none of."""

Rounds = Sequence[tuple[str, int]]
"""Loops: the path of the list that each goes through, and the steps of a round."""


class AccountingEmitter(BranchingEmitter):
    """Writes what conditions take beside what they come to.

    Args:
        sharing: What the conditions share.
        lists: Paths of the lists of which a job may have too many items, and whether those have
            lists inside that count as well.
    """

    _rows = "rows"

    def __init__(self, sharing: CommonSubexpressions, lists: Mapping[str, bool]) -> None:
        super().__init__({})
        self._sharing = sharing
        # Whether the lists inside their items count as well, by path.
        self._counted = {**dict.fromkeys(sharing.lists, False), **lists}
        self._share = "most"
        self._was_looked_at = False
        self._asked_of = ""
        self._paid: Counter[tuple[str, str]] = Counter()
        self._paid_at = 0

    def _open_account(self, asked: Iterable[Sequence[t.Node]], of_items: Iterable[Asked]) -> None:
        """Write what stands before all else.

        Args:
            asked: The parts of each that is asked of the whole job.
            of_items: What is asked of each item of a list.
        """
        self._line("spent = limit = 0")
        if self._counted:
            self._look_at_lengths((self._rounds(parts, {}) or () for parts in asked), of_items)
        self._paid_at = len(self.lines)

    def _look_at_lengths(self, of_job: Iterable[Rounds], of_items: Iterable[Asked]) -> None:
        """Write what looks closer where all lists together have more than few items."""
        items = self._set(" + ".join(map(self._length, self._counted)))
        shared = dict.fromkeys(
            (one.path, tuple(self._rounds(one.both, {one.variable: one.path}) or ()))
            for one in of_items
        )
        most = _greatest(of_job)
        most_of_item = _greatest(rounds for _, rounds in shared)
        # Where all together are few, so are those of each list, and nobody takes more than this.
        others = f"{most} * {items} > most or {most_of_item} * {items} * {items} > most"
        look_closer = f"{SESSION}.look_closer({most} * {items})"
        self._line(f"if {items} > few or {others}:")
        with self._deeper():
            self._line(look_closer)
            for path, rounds in shared:
                self._look_at_share(path, rounds)
        holders = [path for path, holds_lists in self._counted.items() if holds_lists]
        if holders:
            self._line(f"if {' or '.join(map(self._length, holders))}: {look_closer}")

    def _look_at_share(self, path: str, rounds: Rounds) -> None:
        """Write what stops where an item of a list takes more than its share of an allowance."""
        together = " + ".join(f"{steps} * {self._length(of)}" for of, steps in rounds)
        if together:
            share = f"most // ({self._length(path)} or 1)"
            self._line(f"if {together} > {share}: {SESSION}.stop(spent)")

    def _close_account(self) -> None:
        """Write what is paid beforehand where it is looked at, and at the end what is not."""
        counts = " + ".join(
            f"{steps} * {' * '.join(self._length(one) for one in paths if one)}"
            for paths, steps in self._paid.items()
        )
        if counts:
            paid = f"if session is not None: session.spent += {counts}"
            self.lines.insert(self._paid_at, paid)
        self._line("if session is not None: session.spent += spent")

    def _begin(self, *parts: t.Node) -> None:
        """Give the next one its full allowance of steps; what items share, each its part."""
        if self._are_free(parts, self._lists()):
            return
        self._was_looked_at = self._rounds(parts, self._lists()) is not None
        if not self._was_looked_at:
            self._line(f"limit = spent + {self._share}")

    def _share_among(self, path: str, asked: Sequence[Asked]) -> None:
        """Write what share of an allowance each item of a list has, where that is counted.

        Args:
            path: Path of the list.
            asked: What is asked of each item.
        """
        if any(self._rounds(one.both, {one.variable: path}) is None for one in asked):
            self._share = self._set(f"most // ({self._length(path)} or 1)")

    def _are_free(self, parts: Iterable[t.Node], lists: Mapping[str, str]) -> bool:
        return all(self._sharing.is_free(part, lists) for part in parts)

    def _spend(self, items: t.Read, steps: int) -> None:
        if self._was_looked_at:
            self._paid[self._asked_of, items.path] += steps
            return
        self._line(f"spent += {steps} * len({self.emit(items)})")
        self._line(f"if spent > limit: {SESSION}.stop(spent)")

    def _derived_elsewhere(self, path: str, name: str, item: str) -> str:
        """Write what asks for an item's quantity that is worked out by a function of its own."""
        wanted = f"{path!r}, {name!r}, {item}"
        value = self._set(f"{SESSION}.derive_within(limit, spent, {wanted})")
        self._line("limit = spent + session.steps_left")
        return value

    def _rounds(self, parts: Sequence[t.Node], lists: Mapping[str, str]) -> Rounds | None:
        """Return all loops in parts; None where what they take is not known before."""
        found: list[tuple[str, int]] = []
        for part in parts:
            rounds = self._sharing.rounds(part, lists)
            if rounds is None:
                return None
            found += rounds
        return found

    def _list(self, path: str) -> str:
        """Write what reads a list of the job, unless it was read; return the name of its items."""
        return self.emit(t.Read(Kind("items", record=path), 0, 0, path, path))

    def _length(self, path: str) -> str:
        """Return the text of how many items a list of the job has, none where it is not known."""
        return f"len({self._list(path)} or ())"

    def _lists(self) -> dict[str, str]:
        return {variable: path for variable, (_, path) in self._variables.items()}


def _greatest(asked: Iterable[Rounds]) -> int:
    """Return what the one that takes most takes for an item in each list."""
    return max((sum(steps for _, steps in rounds) for rounds in asked), default=0)
