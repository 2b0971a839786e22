"""Writing the whole form: what every rule comes to, of the job or of each item of a list."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from contextlib import ExitStack

from tundish.groundwork.dataclass import dataclass
from tundish.language.codegen.branches import Way
from tundish.language.codegen.budget_checks import SESSION, AccountingEmitter
from tundish.language.codegen.common_subexpressions import CommonSubexpressions
from tundish.language.codegen.value_numbering import ValueNumbering
from tundish.language.tree import tree as t


@dataclass(frozen=True, slots=True)
class Conditions:
    """The two conditions of a rule.

    Attributes:
        applies: When it is asked.
        requires: What it asks.
        variable: The name of an item in them, or "".
        path: The list whose every item it is asked of, or "".
    """

    applies: t.Node
    requires: t.Node
    variable: str = ""
    path: str = ""

    @property
    def both(self) -> tuple[t.Node, t.Node]:
        """Return both conditions."""
        return self.applies, self.requires


class FusedEmitter(AccountingEmitter):
    """Writes the one function.

    Args:
        rules: The conditions, in the order of the outcomes.
        sharing: What they share.
        lists: Paths of the lists of which a job may have too many items, and whether those have
            lists inside that count as well.
    """

    def __init__(
        self, rules: Sequence[Conditions], sharing: CommonSubexpressions, lists: Mapping[str, bool]
    ) -> None:
        super().__init__(sharing, lists)
        self._rules = rules
        self._numbering = ValueNumbering(self._variables, sharing.free)

    def written(self) -> list[str]:
        """Return the statements."""
        self._line("late = False")
        for path in self._sharing.paths:
            self._read_ahead(path)
        formulas = [(self._sharing.formula(name),) for name in self._sharing.names]
        of_job = [rule.both for rule in self._rules if not rule.path]
        self._open_account([*formulas, *of_job], [rule for rule in self._rules if rule.path])
        for name in self._sharing.names:
            self._work_out(name)
        # What is asked most often comes first, as Python reaches what stands in front fastest.
        for path in dict.fromkeys(rule.path for rule in self._rules if rule.path):
            self._ask_of_items(path)
        self._ask_of_the_job()
        self._close_account()
        outcomes = ", ".join(f"r{at}" for at in range(len(self._rules)))
        self._line(f"return late, [{outcomes}]")
        return self.lines

    def _read_ahead(self, path: str) -> None:
        """Read a fact of the whole job that several look at."""
        self.emit(self._sharing.paths[path])

    def _work_out(self, name: str) -> None:
        """Work out a quantity of the whole job before those that need it."""
        root = self._sharing.formula(name)
        self._begin(root)
        value = self.emit(root)
        key = self._numbering.key(self._sharing.names[name])
        assert key is not None, name
        self._keep(key, value)
        if name in self._sharing.asked_by_items:
            self._line(f"{SESSION}.remember({name!r}, {value})")

    # -- rules of the whole job ---------------------------------------------------------------

    def _ask_of_the_job(self) -> None:
        """Write the rules of the whole job."""
        members = [at for at, rule in enumerate(self._rules) if not rule.path]
        for alike in self._asked_alike(members):
            self._ask(alike)

    def _asked_alike(self, members: Iterable[int]) -> Iterable[list[int]]:
        """Return rules of one job or item, those together that are asked under one condition."""
        groups: dict[object, list[int]] = {}
        for at in members:
            key = self._numbering.key(self._rules[at].applies)
            groups.setdefault(at if key is None else ("alike", key), []).append(at)
        return groups.values()

    def _ask(self, members: Sequence[int]) -> None:
        """Write what rules with one `applies` come to."""

        def all_are(answer: str) -> Way:
            return Way(lambda: self._tell(members, answer), is_short=len(members) < 3)

        def require() -> None:
            for at in members:
                self._require(at)

        rule = self._rules[members[0]]
        applies = rule.applies
        if not self._sharing.is_free(applies, self._lists()):
            self._begin(*rule.both)  # it is asked alone, and both conditions share one allowance
        require_all = Way(require, is_short=False)
        self.branch(applies, require_all, all_are("not_applicable"), all_are("undecided"))

    def _require(self, at: int) -> None:
        def answer(word: str) -> Way:
            return Way(lambda: self._tell([at], word))

        rule = self._rules[at]
        if self._sharing.is_free(rule.applies, self._lists()):
            self._begin(rule.requires)
        self.branch(rule.requires, answer("met"), answer("breached"), answer("undecided"))

    def _tell(self, members: Iterable[int], answer: str) -> None:
        """Write what rules come to, of the job or of one item."""
        if answer == "met" and not self._variables:
            self._line("pass")  # they are until they are found not to be
            return
        for at in members:
            self._line(f"r{at} = {answer}")

    # -- rules of items -----------------------------------------------------------------------

    def _ask_of_items(self, path: str) -> None:
        """Write the rules that are asked of each item of one list."""
        members = [at for at, rule in enumerate(self._rules) if rule.path == path]
        items = self._list(path)
        self._line(f"if {items}.__class__ is list:")
        with self._deeper(items):
            for part in self._sharing.loop_invariant([self._rules[at] for at in members]):
                self.emit(part)
            self._share_among(path, [self._rules[at] for at in members])
            told = self._set("[]")
            item = self._new_name()
            self._asked_of = path
            self._line(f"for {item} in {items}:")
            with self._deeper():
                self._ask_of_item(members, item, path)
                self._line(f"{told}.append(({''.join(f'r{at}, ' for at in members)}))")
            self._share, self._asked_of = "most", ""
            self._line(f"if {told}: {''.join(f'r{at}, ' for at in members)} = zip(*{told})")
            self._line(f"else: {' = '.join(f'r{at}' for at in members)} = ()")
        self._line("else:")
        with self._deeper():
            self._line(f"{' = '.join(f'r{at}' for at in members)} = None")
            self._line("late = True")

    def _ask_of_item(self, members: Sequence[int], item: str, path: str) -> None:
        """Write the rules that are asked of an item."""
        rules = [self._rules[at] for at in members]
        with ExitStack() as bound:
            for variable in dict.fromkeys(rule.variable for rule in rules):
                bound.enter_context(self._bound(variable, item, path))
            for part in self._sharing.of_several(rules):
                self.emit(part)
            for alike in self._asked_alike(members):
                self._ask(alike)

    # -- facts and quantities -----------------------------------------------------------------

    def _derived(self, node: t.Derived) -> str:
        if node.item is None:
            # It takes no loop rounds, or it would have been worked out before.
            return self.emit(self._sharing.formula(node.name))
        item, path = self._variables[node.item]
        if (path, node.name) not in self._sharing.written_out:
            return self._derived_elsewhere(path, node.name, item)
        root, variable = self._sharing.formula_of_item(path, node.name)
        with self._bound(variable, item, path):
            return self.emit(root)
