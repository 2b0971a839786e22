"""Rules and quantities, linked: checked, compiled and ready to be judged."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from dataclasses import field, replace
from typing import Self

from tundish.groundwork.dataclass import dataclass
from tundish.language.check.scope import Meaning
from tundish.language.evaluate.environment import Formula
from tundish.language.evaluate.session import Function
from tundish.language.tree.kind import Kind
from tundish.language.tree.tree import (
    Choice,
    Logic,
    Node,
)
from tundish.rulebook.model.asked import Asked
from tundish.rulebook.model.choices import SEVERITIES, Section, Severity, Stage
from tundish.rulebook.model.definition import Definition, Override
from tundish.units.unit import Unit


@dataclass(frozen=True, slots=True)
class Rule(Asked):
    """A requirement, ready to be judged.

    Attributes:
        title: What is required, as a sentence.
        severity: How serious a breach is.
        stage: From which stage on it must be decided.
        regions: ISO 3166 codes of where it holds; empty = everywhere.
        remedy: What mends a breach.
        breach: Parts of a sentence with the numbers put in: texts and checked expressions.
        adjust: Paths of the facts that mending may change.
        formerly: Names it had before; "clearances/left as left" was of that item alone.
        overrides: The international rule that it takes the place of in its country, or None.
        overridden: What countries put in its place.
        replaces: Whether it takes the place of the rule of that name in a pack below.
    """

    noun = "rule"

    title: str
    severity: Severity
    stage: Stage
    regions: tuple[str, ...]
    remedy: str
    breach: tuple[str | Node, ...]
    adjust: tuple[str, ...]
    formerly: tuple[str, ...]
    overrides: Override | None
    overridden: tuple[Override, ...]
    replaces: bool

    def may_hold_in(self, region: str) -> bool:
        """Say whether it is a rule of a country, or an international one that holds there."""
        if self.regions:
            return region in self.regions
        return all(override.region != region for override in self.overridden)

    @property
    def former_names(self) -> dict[str, str]:
        """Return the names it had, each with the item that alone it meant; "" for every item."""
        parted = (former.partition(" as ") for former in self.formerly)
        return {name: item for name, _, item in parted}

    def first_name(self, item: str) -> tuple[str, str]:
        """Return the first name under which it judged an item, and the item under that name.

        A name that was of one item alone had no item of its own.
        """
        for former, meant in self.former_names.items():
            if meant in ("", item):
                return former, "" if meant else item
        return self.name, item

    @property
    def as_written(self) -> Self:
        """Return it without what countries put in its place."""
        if not self.overridden:
            return self
        # `link.overrides` joined the countries to what the file says.
        assert isinstance(self.applies, Logic)
        return replace(self, applies=self.applies.parts[1], overridden=())

    @property
    def _steps(self) -> tuple[str, ...]:
        return ()


@dataclass(frozen=True, slots=True)
class DerivedQuantity(Definition):
    """A named formula of the rulebook; it is compiled when first asked for.

    Attributes:
        topic: The topic it stands in.
        label: A short noun phrase for sentences.
        about: What it is and why it is computed so.
        kind: The kind of its value.
        unit: The unit it is shown in.
        written: The formula as written.
        formula: The checked formula.
        at_least: The least that it can be [SI units]; None where nothing bounds it.
        at_most: The most that it can be [SI units]; None where nothing bounds it.
        range_because: Why it cannot be beyond; "" where its kind says so already.
        report: The section of a report that shows it, if one does.
        region: ISO 3166 code of the region it is shown in; "" = everywhere.
        overrides: The international quantity that it takes the place of in its country, or None.
        overridden: What countries put in its place.
        calculate: The formula, compiled.
    """

    noun = "quantity"

    topic: str
    label: str
    about: str
    kind: Kind
    unit: Unit | None
    written: str
    formula: Formula
    at_least: float | None
    at_most: float | None
    range_because: str
    report: Section | None
    region: str
    overrides: Override | None
    overridden: tuple[Override, ...]
    calculate: Function = field(compare=False, repr=False, init=False)

    @property
    def meaning(self) -> Meaning:
        """Return what its name means in expressions."""
        least = -math.inf if self.at_least is None else self.at_least
        return Meaning(self.kind, self.label, self.unit, least)

    @property
    def as_written(self) -> Self:
        """Return it without what countries put in its place."""
        if not self.overridden:
            return self
        root = self.formula.root
        for _ in self.overridden:  # `link.overrides` put a choice around for each
            assert isinstance(root, Choice)
            root = root.otherwise
        return replace(self, formula=Formula(root, self.formula.variable), overridden=())

    @property
    def roots(self) -> tuple[Node, ...]:
        """Return the tree of its formula."""
        return (self.formula.root,)

    @property
    def expressions(self) -> Mapping[str, tuple[Node, str]]:
        """Return its formula."""
        return {"formula": (self.formula.root, self.written)}

    @property
    def functions(self) -> Mapping[str, Function]:
        """Return its formula, compiled."""
        return {"formula": self.calculate}

    def _compiled_from(self, name: str) -> Node | None:
        return self.formula.root if name == "calculate" else None


def worst_first(rules: Iterable[Rule]) -> tuple[str, ...]:
    """Return the names of rules, those first whose breach is most serious, else in their order."""
    ordered = sorted(rules, key=lambda rule: SEVERITIES.index(rule.severity))
    return tuple(rule.name for rule in ordered)
