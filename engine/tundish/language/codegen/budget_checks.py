"""The statements that keep every rule within its budget of steps.

Where the loops of a rule go through lists of the job alone, the lengths of these tell what it costs
at most: it is checked once and paid beforehand. Elsewhere each loop is checked when it is reached.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence

from tundish.language.codegen.common_subexpressions import (
    CommonSubexpressions,
    Conditions,
    Loops,
)
from tundish.language.codegen.emitter import CodeEmitter
from tundish.language.tree import tree as t
from tundish.language.tree.kind import Kind

SESSION = "(session := session or start(facts))"
"""The expression for the running evaluation, which most jobs need none of."""


class BudgetChecks:
    """Emits the checks of one function.

    Args:
        shared: What the rules have in common.
        lists: Paths of the lists of which a job may have too many items, and whether lists inside
            these items count as well.

    Attributes:
        path: The list whose items are being asked about, or "".
    """

    def __init__(self, shared: CommonSubexpressions, lists: Mapping[str, bool]) -> None:
        self.path = ""
        self._shared = shared
        self._nested = {**dict.fromkeys(shared.lists, False), **lists}
        self._budget = "budget"
        self._is_prepaid = False
        self._prepaid: Counter[tuple[str, str]] = Counter()
        self._prepaid_at = 0

    def emit_start(
        self,
        emitter: CodeEmitter,
        of_job: Iterable[Sequence[t.Node]],
        of_items: Iterable[Conditions],
    ) -> None:
        """Emit what stands before all else.

        Args:
            emitter: The emitter.
            of_job: The expressions of each rule and quantity of the whole job.
            of_items: The rules that are asked of each item of a list.
        """
        emitter.code.line("spent = limit = 0")
        if self._nested:
            self._check_lengths(emitter, of_job, of_items)
        self._prepaid_at = len(emitter.code.lines)

    def _check_lengths(
        self,
        emitter: CodeEmitter,
        of_job: Iterable[Sequence[t.Node]],
        of_items: Iterable[Conditions],
    ) -> None:
        """Emit a closer check for where all lists together have many items."""
        code = emitter.code
        items = code.assign(" + ".join(_length(emitter, path) for path in self._nested))
        loops = dict.fromkeys(
            (rule.path, tuple(self._shared.loops(rule.both, {rule.variable: rule.path}) or ()))
            for rule in of_items
        )
        most = _greatest(self._shared.loops(parts, {}) or () for parts in of_job)
        most_of_item = _greatest(loops_of_item for _, loops_of_item in loops)
        # Where all lists together have few items, so has each list, and this is the only check.
        costs = f"{most} * {items} > budget or {most_of_item} * {items} * {items} > budget"
        check = f"{SESSION}.check_lists({most} * {items})"
        with code.block(f"if {items} > few or {costs}:"):
            code.line(check)
            for path, loops_of_item in loops:
                _check_share(emitter, path, loops_of_item)
        holders = [path for path, holds_lists in self._nested.items() if holds_lists]
        if holders:
            code.line(f"if {' or '.join(_length(emitter, path) for path in holders)}: {check}")

    def emit_end(self, emitter: CodeEmitter) -> None:
        """Emit what counts the steps that were spent."""
        costs = " + ".join(
            f"{steps} * {' * '.join(_length(emitter, path) for path in paths if path)}"
            for paths, steps in self._prepaid.items()
        )
        if costs:
            prepaid = f"if session is not None: session.budget.spent += {costs}"
            emitter.code.lines.insert(self._prepaid_at, prepaid)
        emitter.code.line("if session is not None: session.budget.spent += spent")

    def begin(self, emitter: CodeEmitter, *parts: t.Node) -> None:
        """Emit what gives the next rule or quantity its budget.

        Args:
            emitter: The emitter.
            parts: All its expressions.
        """
        if all(self._shared.is_loop_free(part, emitter.lists) for part in parts):
            return
        self._is_prepaid = self._shared.loops(parts, emitter.lists) is not None
        if not self._is_prepaid:
            emitter.code.line(f"limit = spent + {self._budget}")

    def begin_items(self, emitter: CodeEmitter, path: str, rules: Sequence[Conditions]) -> None:
        """Emit how a budget is shared among the items of a list, where steps are counted."""
        self.path, self._budget = path, "budget"
        if any(self._shared.loops(rule.both, {rule.variable: path}) is None for rule in rules):
            self._budget = emitter.code.assign(f"budget // ({_length(emitter, path)} or 1)")

    def end_items(self) -> None:
        """Go back to rules of the whole job."""
        self.path, self._budget = "", "budget"

    def charge(self, emitter: CodeEmitter, items: t.Read, steps: int) -> None:
        """Emit the charge for the rounds of a loop, unless they are paid beforehand."""
        if self._is_prepaid:
            self._prepaid[self.path, items.path] += steps
            return
        emitter.code.line(f"spent += {steps} * len({emitter.emit(items)})")
        emitter.code.line(f"if spent > limit: {SESSION}.budget.stop(spent)")

    def derived(self, emitter: CodeEmitter, path: str, name: str, item: str) -> str:
        """Emit the call for an item's quantity that has a function of its own."""
        quantity = f"{path!r}, {name!r}, {item}"
        value = emitter.code.assign(f"{SESSION}.derive_within(limit, spent, {quantity})")
        emitter.code.line("limit = spent + session.budget.left")
        return value


def items_of(emitter: CodeEmitter, path: str) -> str:
    """Emit what reads a list of the job, unless it was read; return the name of its items."""
    return emitter.emit(t.Read(Kind("items", record=path), 0, 0, path, path))


def _length(emitter: CodeEmitter, path: str) -> str:
    """Return the text of how many items a list of the job has, none where it is not known."""
    return f"len({items_of(emitter, path)} or ())"


def _check_share(emitter: CodeEmitter, path: str, loops: Loops) -> None:
    """Emit the stop for an item of a list that costs more than its share of the budget."""
    cost = " + ".join(f"{steps} * {_length(emitter, of)}" for of, steps in loops)
    if cost:
        share = f"budget // ({_length(emitter, path)} or 1)"
        emitter.code.line(f"if {cost} > {share}: {SESSION}.budget.stop(spent)")


def _greatest(each: Iterable[Loops]) -> int:
    """Return the most that anything costs for an item in each list."""
    return max((sum(steps for _, steps in loops) for loops in each), default=0)
