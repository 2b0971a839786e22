"""Writing accounts: the statements that see to it that no rule takes more steps than it may.

Where a rule's loops go through lists of the job alone, what it can take at most is known from
their lengths: it is looked at once, and paid beforehand. Where they hang on more than that, each
is looked at as it is taken.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence

from tundish.language import tree as t
from tundish.language.branching import BranchingEmitter
from tundish.language.kind import Kind
from tundish.language.sharing import Asked, Sharing

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

    _tables = "tables"

    def __init__(self, sharing: Sharing, lists: Mapping[str, bool]) -> None:
        super().__init__({})
        self._sharing = sharing
        # Whether the lists inside their items count as well, by path.
        self._counted = {**dict.fromkeys(sharing.lists, False), **lists}
        self._lengths: dict[str, str] = {}
        self._share = "most"
        self._was_looked_at = False
        self._asked_of = ""
        self._paid: Counter[tuple[str, str]] = Counter()
        self._paid_at = 0

    def _open_account(self, asked: Iterable[Sequence[t.Node]]) -> None:
        """Write what stands before all else.

        Args:
            asked: The parts of each that is asked of the whole job.
        """
        self._line("spent = limit = 0")
        known = [self._rounds(parts, {}) or () for parts in asked]
        greatest = max((sum(steps for _, steps in rounds) for rounds in known), default=0)
        if greatest:
            self._line(f"if most // {greatest} < few: few = most // {greatest}")
        for path in self._counted:
            items = self._list(path)
            self._lengths[path] = self._set(f"0 if {items} is None else len({items})")
        # As long as all lists together have few items, each has.
        holders = [path for path, holds_lists in self._counted.items() if holds_lists]
        for of, most in ((self._counted, "few"), (holders, "0")):
            together = " + ".join(self._lengths[path] for path in of)
            if together:
                look = f"{SESSION}.look_closer({greatest} * ({together}))"
                self._line(f"if {together} > {most}: {look}")
        self._paid_at = len(self.lines)

    def _close_account(self) -> None:
        """Write what is paid beforehand where it is looked at, and at the end what is not."""
        counts = " + ".join(
            f"{steps} * {' * '.join(self._lengths[one] for one in paths if one)}"
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
        """Write what share of an allowance each item of a list has, and look whether it is enough.

        Args:
            path: Path of the list.
            asked: What is asked of each item.
        """
        taking = [one for one in asked if not self._are_free(one.both, {one.variable: path})]
        if not taking:
            return
        self._share = self._set(f"most // ({self._lengths[path]} or 1)")
        for one in taking:
            rounds = self._rounds(one.both, {one.variable: path})
            if rounds:
                together = " + ".join(f"{steps} * {self._lengths[of]}" for of, steps in rounds)
                self._line(f"if {together} > {self._share}: {SESSION}.stop(spent)")

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

    def _lists(self) -> dict[str, str]:
        return {variable: path for variable, (_, path) in self._variables.items()}
