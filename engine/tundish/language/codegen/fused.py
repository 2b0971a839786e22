"""The fused form: one function that gives the outcome of every rule, of the job or of each item."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from contextlib import ExitStack
from itertools import accumulate

from tundish.language.codegen.branches import Branch, Branches, emit_branches
from tundish.language.codegen.budget_checks import SESSION, BudgetChecks, items_of
from tundish.language.codegen.common_subexpressions import (
    CommonSubexpressions,
    Conditions,
    loop_invariant,
)
from tundish.language.codegen.conditions import false_test
from tundish.language.codegen.emitter import CodeEmitter
from tundish.language.codegen.expressions import FORMS
from tundish.language.tree import tree as t


class FusedEmitter:
    """Emits the function; it is also how that reaches quantities, tables and the budget.

    Args:
        rules: The conditions, in the order of the outcomes.
        shared: What they have in common.
        lists: Paths of the lists of which a job may have too many items, and whether lists inside
            these items count as well.
    """

    rows = "rows"
    quantities_first = True

    def __init__(
        self,
        rules: Sequence[Conditions],
        shared: CommonSubexpressions,
        lists: Mapping[str, bool],
    ) -> None:
        self._rules = rules
        self._shared = shared
        self._budget = BudgetChecks(shared, lists)
        self._emitter = CodeEmitter(FORMS, self, loop_free=shared.loop_free)
        self._code = self._emitter.code

    def lines(self) -> list[str]:
        """Return the statements."""
        self._code.line("deferred = False")
        for fact in self._shared.facts.values():
            self._emitter.emit(fact)
        formulas = [(self._shared.formula(name)[0],) for name in self._shared.quantities]
        of_job = [rule.both for rule in self._rules if not rule.path]
        of_items = [rule for rule in self._rules if rule.path]
        self._budget.emit_start(self._emitter, [*formulas, *of_job], of_items)
        for name, node in self._shared.quantities.items():
            self._compute(name, node)
        # Python reaches code at the front fastest, so what runs most often comes first.
        for path in dict.fromkeys(rule.path for rule in of_items):
            self._ask_of_items(path)
        self._ask_all([at for at, rule in enumerate(self._rules) if not rule.path])
        self._budget.emit_end(self._emitter)
        self._code.line(f"return deferred, [{', '.join(_names(range(len(self._rules))))}]")
        return self._code.lines

    def _compute(self, name: str, node: t.Node) -> None:
        """Compute a quantity of the whole job before what needs it."""
        root, _ = self._shared.formula(name)
        self._budget.begin(self._emitter, root)
        value = self._emitter.emit(root)
        number = self._emitter.numbering.number(node)
        assert number is not None, name
        self._code.make_available(number, value)
        if name in self._shared.needed_by_items:
            self._code.line(f"{SESSION}.remember({name!r}, {value})")

    # -- rules, by their position ---------------------------------------------------------------

    def _ask_all(self, members: Iterable[int]) -> None:
        """Ask rules of the job or of one item, those together that have the same `applies`."""
        groups: dict[object, list[int]] = {}
        for at in members:
            number = self._emitter.numbering.number(self._rules[at].applies)
            groups.setdefault((at, None) if number is None else (None, number), []).append(at)
        for group in groups.values():
            self._ask(group)

    def _ask(self, members: Sequence[int]) -> None:
        """Ask rules that have the same `applies`."""
        rule = self._rules[members[0]]
        if not self._shared.is_loop_free(rule.applies, self._emitter.lists):
            # It is asked alone, and both conditions share one budget.
            self._budget.begin(self._emitter, *rule.both)

        def require() -> None:
            for at in members:
                self._require(at)

        is_short = len(members) < 3
        branches = Branches(
            Branch(require, is_short=False),
            Branch(lambda: self._answer(members, "not_applicable"), is_short),
            Branch(lambda: self._answer(members, "undecided"), is_short),
        )
        emit_branches(self._emitter, rule.applies, branches)

    def _require(self, at: int) -> None:
        rule = self._rules[at]
        if self._shared.is_loop_free(rule.applies, self._emitter.lists):
            self._budget.begin(self._emitter, rule.requires)
        branches = Branches(
            Branch(lambda: self._answer([at], "met")),
            Branch(lambda: self._answer([at], "breached")),
            Branch(lambda: self._answer([at], "undecided")),
        )
        emit_branches(self._emitter, rule.requires, branches)

    def _answer(self, members: Iterable[int], answer: str) -> None:
        """Set the outcome of rules, of the job or of one item."""
        if answer == "met" and not self._budget.path:
            self._code.line("pass")  # rules of the job are met unless something else is set
            return
        for name in _names(members):
            self._code.line(f"{name} = {answer}")

    def _ask_of_items(self, path: str) -> None:
        """Ask the rules that are asked of each item of one list."""
        members = [at for at, rule in enumerate(self._rules) if rule.path == path]
        rules = [self._rules[at] for at in members]
        outcomes = _names(members)
        in_tuple, code = "".join(f"{name}, " for name in outcomes), self._code
        items = items_of(self._emitter, path)
        is_list = f"{items}.__class__ is list or {items}.__class__ is open_list"
        with code.block(f"if {is_list}:", items):
            for part in loop_invariant(rules):
                self._emitter.emit(part)
            self._budget.begin_items(self._emitter, path, rules)
            of_items = code.assign("[]")
            item = code.new_name()
            with code.block(f"for {item} in {items}:"), ExitStack() as bound:
                for variable in dict.fromkeys(rule.variable for rule in rules):
                    bound.enter_context(self._emitter.bound(variable, item, path))
                for fact in self._shared.shared(rules):
                    self._emitter.emit(fact)
                self._ask_all(members)
                code.line(f"{of_items}.append(({in_tuple}))")
            self._budget.end_items()
            code.line(f"if {of_items}: {in_tuple} = zip(*{of_items})")
            code.line(f"else: {' = '.join(outcomes)} = ()")
        with code.block("else:"):
            self._ask_of_unknown_list(path, members)

    def _ask_of_unknown_list(self, path: str, members: Sequence[int]) -> None:
        """Ask rules whose list is not known, or known to belong to something that is absent.

        What they ask of the whole job may rule them out, so that the list need not be known.
        """
        code, emitter = self._code, self._emitter
        # The groups around the list, the outermost first, and the list itself.
        paths = accumulate(path.split("."), "{}.{}".format)
        groups = (items_of(emitter, group) for group in paths)
        absent = " or ".join(f"{group} is False" for group in groups)
        code.line(f"{' = '.join(_names(members))} = not_applicable if {absent} else undecided")
        conditions: dict[object, tuple[t.Logic, list[int]]] = {}
        for at in members:
            condition = t.part_of_job(self._rules[at].applies, (self._rules[at].variable,))
            number = emitter.numbering.number(condition)
            if not self._shared.is_loop_free(condition, emitter.lists):
                code.line(f"r{at}, deferred = None, True")
            elif condition.parts:
                alike = (at, None) if number is None else (None, number)
                conditions.setdefault(alike, (condition, []))[1].append(at)
        for condition, ruled_out in conditions.values():
            with code.block(f"if {false_test(emitter, condition)}:"):
                self._answer(ruled_out, "not_applicable")

    # -- as a runtime ---------------------------------------------------------------------------

    def charge(self, emitter: CodeEmitter, items: t.Read, steps: int) -> None:
        """Emit what charges a loop for its rounds."""
        self._budget.charge(emitter, items, steps)

    def derived(self, emitter: CodeEmitter, node: t.Derived) -> str:
        """Emit what computes a quantity that was not computed first."""
        if node.item is None:
            return emitter.emit(self._shared.formula(node.name)[0])  # it is free of loops
        item, path = emitter.variables[node.item]
        if (path, node.name) not in self._shared.inlined:
            return self._budget.derived(emitter, path, node.name, item)
        root, variable = self._shared.formula(node.name, path)
        with emitter.bound(variable, item, path):
            return emitter.emit(root)


def _names(members: Iterable[int]) -> list[str]:
    """Return the names of the outcomes of rules."""
    return [f"r{at}" for at in members]
