"""Linking: the shapes of all packs into checked and compiled quantities and rules."""

from __future__ import annotations

import re

from tundish.groundwork.dataclass import dataclass
from tundish.language.check.checker import check_expression
from tundish.language.check.scope import Meaning
from tundish.language.evaluate.explained import Formula
from tundish.language.operations.functions import CONSTANTS
from tundish.language.syntax.tokens import RESERVED
from tundish.language.tree.kind import TRUTH, Kind, quantity_kind, text_kind
from tundish.language.tree.tree import Logic, Node
from tundish.rulebook.files.cases import linked_cases
from tundish.rulebook.files.file_shapes import CitationShape, QuantityShape, RuleShape
from tundish.rulebook.files.sources_file import cited
from tundish.rulebook.link.editions import held_between
from tundish.rulebook.link.expressions import ExpressionLinker
from tundish.rulebook.link.overrides import stated_override
from tundish.rulebook.model.definition import variables_of
from tundish.rulebook.model.rule import DerivedQuantity, Rule
from tundish.rulebook.model.rule_file import RuleFile
from tundish.text.bounds import MOST_ADJUSTED
from tundish.text.nearest import did_you_mean
from tundish.text.place import Path
from tundish.units.dimension import LEVEL
from tundish.units.unit import MeasureError, Unit, read_unit

NAME = re.compile(r"[a-z][a-z0-9_]*")


@dataclass(slots=True)
class Linker(ExpressionLinker):
    """Turns shapes into rules; notes every problem and goes on."""

    # -- quantities -------------------------------------------------------------------------

    def meaning_of(
        self, name: str, shape: QuantityShape, file: RuleFile
    ) -> tuple[tuple[str, str], Meaning] | None:
        """Return how a quantity is known in expressions, before its formula is read."""
        at: Path = (name,)
        if not NAME.fullmatch(name):
            self.note(file, at, f"'{name}' is no name: small letters, digits and '_'.")
            return None
        if name in RESERVED or name in CONSTANTS:
            self.note(file, at, f"'{name}' is a word of the language.")
            return None
        if name in self.scope.facts:
            self.note(file, at, f"'{name}' already names a part of the job.")
            return None
        kind_and_unit = self._kind(shape, file, at)
        each = self.each(shape.of, file, (*at, "of"))
        if kind_and_unit is None or (shape.of is not None and each is None):
            return None
        kind, unit = kind_and_unit
        if each is not None and f"{each.path}.{name}" in self.scope.facts:
            self.note(file, at, f"'{name}' already names a fact of {each.path}.")
            return None
        return (each.path if each else "", name), Meaning(kind, shape.label, unit)

    def quantity(
        self,
        name: str,
        topic: str,
        shape: QuantityShape,
        meaning: Meaning,
        file: RuleFile,
        region: str = "",
    ) -> DerivedQuantity | None:
        """Check and compile a quantity's formula."""
        each = self.each(shape.of, file, (name, "of"), quiet=True)
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
            overrides=stated_override(name, shape, file, (name,), region, self.problems),
            overridden=(),
            source=file,
        )

    def _kind(
        self, shape: QuantityShape, file: RuleFile, at: Path
    ) -> tuple[Kind, Unit | None] | None:
        if (shape.unit is None) == (shape.gives is None):
            self.note(file, at, "A quantity has either a 'unit' or 'gives' (truth or text).")
            return None
        if shape.unit is None:
            kind = TRUTH if shape.gives == "truth" else text_kind(tuple(shape.choices))
            return kind, None
        try:
            unit = read_unit(shape.unit)
        except MeasureError as error:
            self.note(file, (*at, "unit"), str(error))
            return None
        if shape.difference and unit.dimension != LEVEL:
            self.note(file, (*at, "difference"), "Only levels in dB need 'difference'.")
            return None
        return quantity_kind(unit.dimension, unit.point and not shape.difference), unit

    # -- rules ------------------------------------------------------------------------------

    def rule(self, name: str, shape: RuleShape, file: RuleFile, region: str = "") -> Rule | None:
        """Check and compile a rule; in a national pack it holds in that region alone."""
        if region and shape.regions:
            self.note(file, ("regions",), f"In the pack of {region} a rule holds in {region}.")
        regions = (region,) if region else tuple(shape.regions)
        each = self.each(shape.each, file, ("each",))
        variables = variables_of(each) if each else self.refused_item(shape.each)
        asked_where = self.checked(shape.applies, file, ("applies",), variables, TRUTH)
        applies = asked_where and held_between(
            self.in_regions(asked_where, regions), shape.holds_from, shape.holds_until
        )
        requires = self.checked(shape.requires, file, ("requires",), variables, TRUTH)
        breach = self.template(shape.breach, file, variables)
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
            overrides=stated_override(name, shape, file, (), region, self.problems),
            overridden=(),
            source=file,
        )

    def check_texts(self, file: RuleFile) -> None:
        """Check the conditions of a rule that is refused already, to tell all of it at once."""
        texts = {
            key: text
            for key in ("each", "applies", "requires", "breach")
            if isinstance(text := file.file.data.get(key), str) and text
        }
        each = self.each(texts.get("each"), file, ("each",))
        variables = variables_of(each) if each else self.refused_item(texts.get("each"))
        for key in ("applies", "requires"):
            if key in texts:
                self.checked(texts[key], file, (key,), variables, TRUTH)
        self.template(texts.get("breach"), file, variables)
        cited(_citations(file.file.data.get("cite")), self.sources, file, (), self.problems)

    def in_regions(self, condition: Node, regions: tuple[str, ...]) -> Node:
        """Join the regions and a condition: an unknown region leaves both open."""
        if not regions:
            return condition
        codes = ", ".join(f"'{code}'" for code in regions)
        region = check_expression(f"job.region in [{codes}]", self.scope)
        return Logic(TRUTH, 0, condition.end, "and", (region, condition))

    def _adjust(self, shape: RuleShape, file: RuleFile) -> tuple[str, ...]:
        paths = [shape.adjust] if isinstance(shape.adjust, str) else shape.adjust
        if len(paths) > MOST_ADJUSTED:
            sentence = f"'adjust' has {len(paths):,} entries; the most is {MOST_ADJUSTED:,}."
            self.note(file, ("adjust",), sentence)
            return ()
        for path in paths:
            meaning = self.scope.facts.get(path)
            if meaning is None and self.scope.was_refused(path):
                continue
            if meaning is None or meaning.kind.name in ("record", "items"):
                hint = did_you_mean(path, list(self.scope.facts))
                self.note(file, ("adjust",), f"'{path}' is no fact of a job.{hint}")
        return tuple(paths)


def _citations(cite: object) -> list[CitationShape]:
    """Return what is cited, where every citation names a source at least."""
    entries = cite if isinstance(cite, list) else []
    names = [entry.get("source") for entry in entries if isinstance(entry, dict)]
    texts = [name for name in names if isinstance(name, str)]
    return [CitationShape(source=name) for name in texts] if len(texts) == len(entries) else []
