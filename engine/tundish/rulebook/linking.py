"""Linking: the shapes of all packs into checked and compiled quantities and rules."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import field

from tundish.groundwork.dataclass import dataclass
from tundish.language.checker import check_expression
from tundish.language.explained import Formula
from tundish.language.functions import CONSTANTS
from tundish.language.kind import TRUTH, Kind, quantity_kind, text_kind
from tundish.language.problem import ExpressionError
from tundish.language.scope import Meaning, Scope
from tundish.language.tree import Logic, Node, walk
from tundish.language.words import RESERVED
from tundish.measure.dimension import LEVEL
from tundish.measure.unit import MeasureError, Unit, read_unit
from tundish.reading.bounds import MOST_ADJUSTED, MOST_PARTS
from tundish.reading.nearest import did_you_mean
from tundish.reading.place import Path
from tundish.reading.problem import Problem
from tundish.rulebook.bibliography import cited
from tundish.rulebook.cases import linked_cases
from tundish.rulebook.editions import held_between
from tundish.rulebook.file_shapes import QuantityShape, RuleShape
from tundish.rulebook.rule import DerivedQuantity, Each, Rule, variables_of
from tundish.rulebook.rule_source import RuleSource
from tundish.rulebook.source import Source
from tundish.rulebook.templates import split_template

_EACH = re.compile(r"([a-z_]+(?:\.[a-z_]+)*) as ([a-z_]+)")
NAME = re.compile(r"[a-z][a-z0-9_]*")


@dataclass(slots=True)
class Linker:
    """Turns shapes into rules; notes every problem and goes on.

    Attributes:
        scope: What names mean; grows as quantities are declared.
        sources: The bibliography.
        problems: What is wrong so far.
        parts: How many parts the expressions so far have.
    """

    scope: Scope
    sources: Mapping[str, Source]
    problems: list[Problem] = field(default_factory=list)
    parts: int = 0

    # -- quantities -------------------------------------------------------------------------

    def meaning_of(
        self, name: str, shape: QuantityShape, file: RuleSource
    ) -> tuple[tuple[str, str], Meaning] | None:
        """Return how a quantity is known in expressions, before its formula is read."""
        at: Path = (name,)
        if not NAME.fullmatch(name):
            self._note(file, at, f"'{name}' is no name: small letters, digits and '_'.")
            return None
        if name in RESERVED or name in CONSTANTS:
            self._note(file, at, f"'{name}' is a word of the language.")
            return None
        if name in self.scope.facts:
            self._note(file, at, f"'{name}' already names a part of the job.")
            return None
        kind_and_unit = self._kind(shape, file, at)
        each = self._each(shape.of, file, (*at, "of"))
        if kind_and_unit is None or (shape.of is not None and each is None):
            return None
        kind, unit = kind_and_unit
        if each is not None and f"{each.path}.{name}" in self.scope.facts:
            self._note(file, at, f"'{name}' already names a fact of {each.path}.")
            return None
        return (each.path if each else "", name), Meaning(kind, shape.label, unit)

    def quantity(
        self,
        name: str,
        topic: str,
        shape: QuantityShape,
        meaning: Meaning,
        file: RuleSource,
        region: str = "",
    ) -> DerivedQuantity | None:
        """Check and compile a quantity's formula."""
        each = self._each(shape.of, file, (name, "of"), quiet=True)
        variables = variables_of(each)
        root = self.checked(shape.formula, file, (name, "formula"), variables, meaning.kind)
        citations = cited(shape.cite, self.sources, file, (name,), self.problems)
        if root is None:
            return None
        return DerivedQuantity(
            name=name,
            topic=topic,
            label=shape.label,
            about=shape.about,
            kind=meaning.kind,
            unit=meaning.unit,
            written=shape.formula,
            formula=Formula(root, each.variable if each else None),
            each=each,
            report=shape.report,
            region=region,
            citations=citations,
            reviewed=shape.reviewed,
            cases=linked_cases(shape.case, file, (name,), self.problems),
            unnoticed={one.change: one.because for one in shape.unnoticed},
            source=file,
        )

    def _kind(
        self, shape: QuantityShape, file: RuleSource, at: Path
    ) -> tuple[Kind, Unit | None] | None:
        if (shape.unit is None) == (shape.gives is None):
            self._note(file, at, "A quantity has either a 'unit' or 'gives' (truth or text).")
            return None
        if shape.unit is None:
            kind = TRUTH if shape.gives == "truth" else text_kind(tuple(shape.choices))
            return kind, None
        try:
            unit = read_unit(shape.unit)
        except MeasureError as error:
            self._note(file, (*at, "unit"), str(error))
            return None
        if shape.difference and unit.dimension != LEVEL:
            self._note(file, (*at, "difference"), "Only levels in dB need 'difference'.")
            return None
        return quantity_kind(unit.dimension, unit.point and not shape.difference), unit

    # -- rules ------------------------------------------------------------------------------

    def rule(self, name: str, shape: RuleShape, file: RuleSource, region: str = "") -> Rule | None:
        """Check and compile a rule; in a national pack it holds in that region alone."""
        if region and shape.regions:
            self._note(file, ("regions",), f"In the pack of {region} a rule holds in {region}.")
        regions = (region,) if region else tuple(shape.regions)
        each = self._each(shape.each, file, ("each",))
        variables = variables_of(each)
        asked_where = self.checked(shape.applies, file, ("applies",), variables, TRUTH)
        applies = asked_where and held_between(
            self.in_regions(asked_where, regions), shape.holds_from, shape.holds_until
        )
        requires = self.checked(shape.requires, file, ("requires",), variables, TRUTH)
        breach = self._template(shape.breach, file, variables)
        adjust = self._adjust(shape, file)
        citations = cited(shape.cite, self.sources, file, (), self.problems)
        cases = linked_cases(shape.case, file, (), self.problems)
        if (
            asked_where is None
            or applies is None
            or requires is None
            or (shape.each is not None and each is None)
        ):
            return None
        return Rule(
            name=name,
            title=shape.title,
            applies=applies,
            requires=requires,
            severity=shape.severity,
            stage=shape.stage,
            regions=regions,
            because=shape.because,
            remedy=shape.remedy,
            breach=breach,
            adjust=adjust,
            citations=citations,
            reviewed=shape.reviewed,
            formerly=tuple(shape.formerly),
            each=each,
            cases=cases,
            unnoticed={one.change: one.because for one in shape.unnoticed},
            asked_where=asked_where,
            written={"applies": shape.applies, "requires": shape.requires},
            source=file,
        )

    def in_regions(self, condition: Node, regions: tuple[str, ...]) -> Node:
        """Join the regions and a condition: an unknown region leaves both open."""
        if not regions:
            return condition
        codes = ", ".join(f"'{code}'" for code in regions)
        region = check_expression(f"job.region in [{codes}]", self.scope)
        return Logic(TRUTH, 0, condition.end, "and", (region, condition))

    def _template(
        self, text: str | None, file: RuleSource, variables: Mapping[str, str]
    ) -> tuple[str | Node, ...]:
        if text is None:
            return ()
        parts: list[str | Node] = []
        for piece, start in split_template(text):
            if start is None:
                parts.append(piece)
                continue
            node = self.checked(piece, file, ("breach",), variables, None, offset=start)
            if node is not None:
                parts.append(node)
        return tuple(parts)

    def _adjust(self, shape: RuleShape, file: RuleSource) -> tuple[str, ...]:
        paths = [shape.adjust] if isinstance(shape.adjust, str) else shape.adjust
        if len(paths) > MOST_ADJUSTED:
            sentence = f"'adjust' has {len(paths):,} entries; the most is {MOST_ADJUSTED:,}."
            self._note(file, ("adjust",), sentence)
            return ()
        for path in paths:
            meaning = self.scope.facts.get(path)
            if meaning is None or meaning.kind.name in ("record", "items"):
                hint = did_you_mean(path, list(self.scope.facts))
                self._note(file, ("adjust",), f"'{path}' is no fact of a job.{hint}")
        return tuple(paths)

    # -- both -------------------------------------------------------------------------------

    def _each(
        self, text: str | None, file: RuleSource, at: Path, quiet: bool = False
    ) -> Each | None:
        if text is None:
            return None
        match = _EACH.fullmatch(text)
        sentence = ""
        if match is None:
            sentence = f"'{text}' is not of the form 'electricity.circuit as circuit'."
        elif (meaning := self.scope.facts.get(match[1])) is None or meaning.kind.name != "items":
            lists = [path for path, known in self.scope.facts.items() if known.kind.name == "items"]
            sentence = f"'{match[1]}' is no list of a job.{did_you_mean(match[1], lists)}"
        elif self.scope.is_taken(match[2]):
            sentence = f"'{match[2]}' already names something else here."
        if sentence and not quiet:
            self._note(file, at, sentence)
        return None if sentence or match is None else Each(match[1], match[2])

    def checked(
        self,
        expression: str,
        file: RuleSource,
        at: Path,
        variables: Mapping[str, str],
        wanted: Kind | None,
        offset: int = 0,
    ) -> Node | None:
        """Return an expression as a checked tree, or note what is wrong with it.

        Args:
            expression: Its text.
            file: The file it stands in.
            at: Its key there.
            variables: The lists that names of items stand for.
            wanted: The kind it must have, or None where any will do.
            offset: Index of its first character in the text of the key.
        """
        if self.parts > MOST_PARTS:
            return None
        try:
            root = check_expression(expression, self.scope, variables, wanted)
        except ExpressionError as error:
            self.problems.extend(
                file.problem_in_text(
                    at, problem.start + offset, problem.end + offset, problem.sentence
                )
                for problem in error.problems
            )
            return None
        self.parts += sum(1 for _ in walk(root, {}))
        if self.parts > MOST_PARTS:
            self._note(file, at, _TOO_MANY_PARTS)
            return None
        return root

    def _note(self, file: RuleSource, at: Path, sentence: str) -> None:
        self.problems.append(file.problem(at, sentence))


_TOO_MANY_PARTS = (
    f"All conditions and formulas up to here have more than {MOST_PARTS:,} parts; use fewer packs "
    "at once."
)
