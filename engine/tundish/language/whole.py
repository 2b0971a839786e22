"""The whole form: the conditions of many rules as one Python function, for speed.

What is read by several is read once, a quantity that several need is worked out once and before
them, conditions are branches that set an answer, and rules that are asked under the same condition
stand under it together. It must give what the compiled form gives; property tests hold them
together.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, fields
from types import CodeType

from tundish.language import tree as t
from tundish.language.branching import BranchingEmitter, Way
from tundish.language.compiled import function_from, function_of
from tundish.language.sameness import Sameness
from tundish.language.session import Item, Session
from tundish.language.sharing import Sharing

Outcome = object
"""What a rule comes to, one of the `Answers`; of one that is asked of each item of a list, for
each; None where the list is not known."""

Whole = Callable[[Item, Session], tuple[bool, list[Outcome]]]
"""Takes the facts of a job and a session; gives whether any outcome is None, and the outcomes in
the order of the rules."""


@dataclass(frozen=True, slots=True)
class Answers:
    """What a rule can come to, in the words of whoever asks."""

    met: object
    breached: object
    undecided: object
    not_applicable: object


_ANSWERS = tuple(field.name for field in fields(Answers))


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


def compile_whole(
    rules: Sequence[Conditions],
    quantities: Mapping[tuple[str, str], tuple[t.Node, str]],
) -> CodeType:
    """Compile the conditions of many rules into one function.

    Args:
        rules: The conditions, in the order of the outcomes.
        quantities: All quantities that they need, by the list they belong to (or "") and name,
            each behind all it is made of; their formula, and the name of an item in it or "".

    Returns:
        Its code, for `whole_from`.
    """
    writer = _WholeEmitter(rules, Sharing(rules, quantities))
    function = function_of(f"facts, session, {', '.join(_ANSWERS)}", writer.written())
    code: CodeType = function.__code__
    return code


def whole_from(code: CodeType, answers: Answers) -> Whole:
    """Make the function of its code.

    Args:
        code: What `compile_whole` gave.
        answers: What the outcomes are told as.
    """
    function = function_from(code)
    function.__defaults__ = tuple(getattr(answers, name) for name in _ANSWERS)
    whole: Whole = function
    return whole


class _WholeEmitter(BranchingEmitter):
    """Writes the one function."""

    def __init__(self, rules: Sequence[Conditions], sharing: Sharing) -> None:
        super().__init__({})
        self._rules = rules
        self._sharing = sharing
        self._sameness = Sameness(self._variables, sharing.free)

    def written(self) -> list[str]:
        """Return the statements."""
        self._line("get, begin, late = facts.get, session.begin_rule, False")
        for path in self._sharing.paths:
            self._read_ahead(path)
        for name in self._sharing.names:
            self._work_out(name)
        self._ask_of_the_job()
        for path in dict.fromkeys(rule.path for rule in self._rules if rule.path):
            self._ask_of_items(path)
        self._line(f"return late, [{', '.join(f'r{at}' for at in range(len(self._rules)))}]")
        return self.lines

    def _read_ahead(self, path: str) -> None:
        """Read a fact of the whole job that several look at."""
        self.emit(self._sharing.paths[path])

    def _work_out(self, name: str) -> None:
        """Work out a quantity of the whole job before those that need it."""
        root = self._sharing.formula(name)
        if not self._sharing.is_free(root, {}):
            self._line("begin()")
        value = self.emit(root)
        key = self._sameness.key(self._sharing.names[name])
        assert key is not None, name
        self._keep(key, value)
        if name in self._sharing.asked_by_items:
            self._line(f"session.remember({name!r}, {value})")

    # -- rules of the whole job ---------------------------------------------------------------

    def _ask_of_the_job(self) -> None:
        """Write the rules of the whole job, those together that are asked under one condition."""
        groups: dict[object, list[int]] = {}
        for at, rule in enumerate(self._rules):
            if not rule.path:
                key = self._sameness.key(rule.applies)
                groups.setdefault(at if key is None else ("alike", key), []).append(at)
        for members in groups.values():
            self._ask(members, lambda at, answer: self._line(f"r{at} = {answer}"))

    def _ask(self, members: Sequence[int], tell: Callable[[int, str], None]) -> None:
        """Write what rules with one `applies` come to."""

        def all_are(answer: str) -> Way:
            def way() -> None:
                for at in members:
                    tell(at, answer)

            return way

        def require() -> None:
            for at in members:
                self._require(at, tell)

        applies = self._rules[members[0]].applies
        self._begin(applies)
        self.branch(applies, require, all_are("not_applicable"), all_are("undecided"))

    def _require(self, at: int, tell: Callable[[int, str], None]) -> None:
        def answer(word: str) -> Way:
            return lambda: tell(at, word)

        rule = self._rules[at]
        # Both conditions share one allowance.
        if self._sharing.is_free(rule.applies, self._lists()):
            self._begin(rule.requires)
        self.branch(rule.requires, answer("met"), answer("breached"), answer("undecided"))

    def _begin(self, condition: t.Node) -> None:
        if not self._sharing.is_free(condition, self._lists()):
            self._line("begin()")

    def _lists(self) -> dict[str, str]:
        return {variable: path for variable, (_, path) in self._variables.items()}

    # -- rules of items -----------------------------------------------------------------------

    def _ask_of_items(self, path: str) -> None:
        """Write the rules that are asked of each item of one list."""
        members = [at for at, rule in enumerate(self._rules) if rule.path == path]
        items = self._set(f"get({path!r})")
        self._line(f"if {items}.__class__ is list:")
        with self._deeper():
            for at in members:
                self._line(f"r{at} = []")
                self._line(f"a{at} = r{at}.append")
            item = self._new_name()
            self._line(f"for {item} in {items}:")
            with self._deeper():
                for part in self._sharing.of_several([self._rules[at] for at in members]):
                    assert part.item is not None
                    self._variables[part.item] = (item, path)
                    self.emit(part)
                    del self._variables[part.item]
                for at in members:
                    variable = self._rules[at].variable
                    self._variables[variable] = (item, path)
                    self._ask([at], lambda at, answer: self._line(f"a{at}({answer})"))
                    del self._variables[variable]
        self._line("else:")
        with self._deeper():
            self._line(f"{' = '.join(f'r{at}' for at in members)} = None")
            self._line("late = True")

    # -- facts and quantities -----------------------------------------------------------------

    def _read(self, node: t.Read) -> str:
        if node.item is None:
            return self._set(f"get({node.path!r})")
        return super()._read(node)

    def _derived(self, node: t.Derived) -> str:
        if node.item is None:
            # It takes no loop rounds, or it would have been worked out before.
            return self.emit(self._sharing.formula(node.name))
        item, path = self._variables[node.item]
        if (path, node.name) not in self._sharing.free:
            return super()._derived(node)
        root, variable = self._sharing.formula_of_item(path, node.name)
        around = self._variables.get(variable)
        self._variables[variable] = (item, path)
        value = self.emit(root)
        if around is None:
            del self._variables[variable]
        else:
            self._variables[variable] = around
        return value
