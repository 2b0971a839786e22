"""The whole form: the conditions of many rules as one Python function, for speed.

What is read is read once, quantities of the whole job are worked out once and in an order that
serves those that need them, and arithmetic and comparisons stand in the open instead of behind a
call. It must give the value that the compiled form gives; property tests hold them together.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass

from tundish.language import tree as t
from tundish.language.compiled import function_of
from tundish.language.emitter import Emitter
from tundish.language.session import Item, Session

MET, BREACHED, UNDECIDED, NOT_APPLICABLE = 1, 0, 2, 3
"""What a rule comes to, as numbers."""

Outcome = int | list[int] | None
"""What a rule comes to; of one that is asked of each item of a list, for each; None where the list
is not known."""

Whole = Callable[[Item, Session], list[Outcome]]
"""Takes the facts of a job and a session; gives what each rule comes to, in their order."""


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


def compile_whole(rules: Sequence[Conditions], quantities: Sequence[tuple[str, t.Node]]) -> Whole:
    """Compile the conditions of many rules into one function.

    Args:
        rules: The conditions, in the order of the outcomes.
        quantities: Quantities of the whole job by name, each behind all it is made of.

    Returns:
        The function.
    """
    writer = _WholeEmitter(rules, quantities)
    whole: Whole = function_of("facts, session", writer.written())
    return whole


class _WholeEmitter(Emitter):
    """Writes the one function."""

    def __init__(
        self, rules: Sequence[Conditions], quantities: Sequence[tuple[str, t.Node]]
    ) -> None:
        super().__init__({})
        self._rules = rules
        self._formulas = quantities
        self._reads: dict[str, str] = {}
        self._derivations: dict[str, str] = {}
        self._item_reads: dict[tuple[str, str], str] = {}
        self._item_derivations: dict[tuple[str, str], str] = {}

    def written(self) -> list[str]:
        """Return the statements."""
        self._line("get, derive, begin = facts.get, session.derive, session.begin_rule")
        self._hoist()
        for name, root in self._formulas:
            self._line("begin()")
            self._derivations[name] = self.emit(root)
            self._line(f"session.remember({name!r}, {self._derivations[name]})")
        outcomes = [self._set("None") for _ in self._rules]
        for at, rule in enumerate(self._rules):
            if not rule.path:
                self._judge(rule, outcomes[at] + " = ")
        for path in dict.fromkeys(rule.path for rule in self._rules if rule.path):
            self._items_of(path, outcomes)
        self._line(f"return [{', '.join(outcomes)}]")
        return self.lines

    def _hoist(self) -> None:
        """Read every fact of the whole job once."""
        roots: list[t.Node] = [root for _, root in self._formulas]
        for rule in self._rules:
            roots += [rule.applies, rule.requires]
        for root in roots:
            for node, _ in t.walk(root, {}):
                if isinstance(node, t.Read) and node.item is None and node.path not in self._reads:
                    self._reads[node.path] = self._set(f"get({node.path!r})")

    def _judge(self, rule: Conditions, target: str, end: str = "") -> None:
        """Write what a rule comes to behind a target, such as ``v7 = ``."""
        self._line("begin()")
        applies = self.emit(rule.applies)
        self._line(f"if {applies} is True:")
        with self._deeper():
            met = self.emit(rule.requires)
            self._line(f"{target}{UNDECIDED} if {met} is None else {met} + 0{end}")
        self._line(f"else: {target}{UNDECIDED} if {applies} is None else {NOT_APPLICABLE}{end}")

    def _items_of(self, path: str, outcomes: Sequence[str]) -> None:
        """Write the rules that are asked of each item of one list."""
        rules = [(at, rule) for at, rule in enumerate(self._rules) if rule.path == path]
        items = self._set(f"get({path!r})")
        self._line(f"if {items}.__class__ is list:")
        with self._deeper():
            for at, _ in rules:
                self._line(f"{outcomes[at]} = []")
            item = self._new_name()
            self._line(f"for {item} in {items}:")
            with self._deeper():
                self._read_item(item, path, [rule for _, rule in rules])
                for at, rule in rules:
                    self._variables[rule.variable] = (item, path)
                    self._judge(rule, f"{outcomes[at]}.append(", ")")
                    del self._variables[rule.variable]

    def _read_item(self, item: str, path: str, rules: Iterable[Conditions]) -> None:
        """Read every fact of an item, and work out every quantity of it, once."""
        self._item_reads, self._item_derivations = {}, {}
        reads, derivations = dict[str, str](), dict[str, str]()
        for rule in rules:
            for root in (rule.applies, rule.requires):
                for node, _ in t.walk(root, {}):
                    if isinstance(node, t.Read) and node.item == rule.variable:
                        name = reads.setdefault(node.path, "") or self._set(
                            f"{item}.get({node.path!r})"
                        )
                        reads[node.path] = name
                        self._item_reads[rule.variable, node.path] = name
                    if isinstance(node, t.Derived) and node.item == rule.variable:
                        name = derivations.setdefault(node.name, "") or self._set(
                            f"derive({path!r}, {node.name!r}, {item})"
                        )
                        derivations[node.name] = name
                        self._item_derivations[rule.variable, node.name] = name

    def _read(self, node: t.Read) -> str:
        if node.item is None:
            return self._reads[node.path]
        found = self._item_reads.get((node.item, node.path))
        return found or super()._read(node)

    def _derived(self, node: t.Derived) -> str:
        if node.item is None:
            # One that is asked for before its turn, through a list, is worked out there.
            known = self._derivations.get(node.name)
            return known or super()._derived(node)
        return self._item_derivations.get((node.item, node.name)) or super()._derived(node)
