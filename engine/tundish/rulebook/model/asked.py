"""What is asked of a job in two conditions: when it is asked, and what must hold then."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field
from typing import Any

from tundish.groundwork.dataclass import dataclass
from tundish.language.evaluate.compiled import compile_function
from tundish.language.evaluate.session import Function
from tundish.language.tree.tree import Constant, Node, part_of_job
from tundish.rulebook.model.definition import Definition


@dataclass(frozen=True, slots=True)
class Asked(Definition):
    """A rule or a constraint; its conditions are compiled when first used.

    Attributes:
        topic: The topic it stands in.
        applies: When it is asked at all.
        requires: What is asked.
        because: Why.
        asked_where: When it is asked, its regions left aside.
        written: `applies` and `requires` as written.
        applies_where: `asked_where`, compiled.
        does_apply: `applies`, compiled.
        could_apply: What `applies` asks of the job as a whole, compiled.
        is_met: `requires`, compiled.
    """

    applies: Node
    requires: Node
    because: str
    asked_where: Node
    written: Mapping[str, str]
    applies_where: Function = field(compare=False, repr=False, init=False)
    does_apply: Function = field(compare=False, repr=False, init=False)
    could_apply: Function = field(compare=False, repr=False, init=False)
    is_met: Function = field(compare=False, repr=False, init=False)

    @property
    def topic(self) -> str:
        """Return the topic, the first part of the name."""
        return self.name.partition("/")[0]

    @property
    def roots(self) -> tuple[Node, ...]:
        """Return the trees of its two conditions."""
        return self.applies, self.requires

    @property
    def expressions(self) -> Mapping[str, tuple[Node, str]]:
        """Return its conditions as written; `applies` only where there is anything to it."""
        keys = {"applies": self.asked_where, "requires": self.requires}
        if isinstance(self.asked_where, Constant):
            del keys["applies"]
        return {key: (root, self.written[key]) for key, root in keys.items()}

    @property
    def functions(self) -> Mapping[str, Function]:
        """Return its conditions, compiled, its regions left aside."""
        return {"applies": self.applies_where, "requires": self.is_met}

    def _compiled_from(self, name: str) -> Node | None:
        match name:
            case "applies_where":
                return self.asked_where
            case "does_apply":
                return self.applies
            case "is_met":
                return self.requires
        return None

    @property
    def asked_of_job(self) -> Node:
        """Return what `applies` asks of the job as a whole, whatever the items of a list are."""
        return part_of_job(self.applies, self.variables)

    def _worked_out(self, name: str) -> Mapping[str, Any]:
        if name == "could_apply":
            return {name: compile_function(self.asked_of_job)}
        return Definition._worked_out(self, name)
