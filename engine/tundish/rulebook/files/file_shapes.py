"""The shapes of the files in a rulebook, as pydantic models."""

from __future__ import annotations

import datetime
from typing import Annotated, Any, Literal

from pydantic import AfterValidator, BaseModel, ConfigDict, Field

from tundish.job.model.regions import REGIONS, read_region
from tundish.rulebook.model.choices import FORMAT, Outcome, Section, Severity, Stage, Supplier
from tundish.rulebook.model.source import Basis
from tundish.text.bounds import (
    LONGEST_TEXT,
    MOST_CITATIONS,
    MOST_COLUMNS,
    MOST_KEYS,
    MOST_REGIONS,
    MOST_ROWS,
)

Sentence = Annotated[str, Field(min_length=1, max_length=LONGEST_TEXT)]
Text = Annotated[str, Field(max_length=LONGEST_TEXT)]
Region = Annotated[
    str, AfterValidator(read_region), Field(json_schema_extra={"enum": sorted(REGIONS)})
]
Expression = Annotated[str, Field(min_length=1)]


class Shape(BaseModel):
    """The base of every shape: nothing beyond what is named here."""

    model_config = ConfigDict(extra="forbid", frozen=True)


class CitationShape(Shape):
    """A place in a source."""

    source: Text
    at: Text = ""
    recall: bool = False
    note: Text = ""


Citations = Annotated[list[CitationShape], Field(min_length=1, max_length=MOST_CITATIONS)]


class ExcuseShape(Shape):
    """A mutant that no case can notice, as it makes no difference, and why."""

    change: Text
    because: Sentence


class CaseShape(Shape):
    """What every case has: a reason, and the facts of its job."""

    why: Sentence
    given: dict[str, Any]
    item: int | None = Field(default=None, ge=1)
    unknown: list[Text] | None = None


class RuleCaseShape(CaseShape):
    """A case of a rule."""

    outcome: Outcome


class QuantityCaseShape(CaseShape):
    """A case of a quantity; without a value, it must come out unknown."""

    value: Text | bool | None = None
    within: Text = "0.000001 %"


class RuleShape(Shape):
    """A rule file."""

    title: Sentence
    applies: Expression = "true"
    each: Expression | None = None
    until_known: list[Expression] = []
    once_known: list[Expression] = []
    requires: Expression
    severity: Severity
    stage: Stage
    regions: Annotated[list[Region], Field(max_length=MOST_REGIONS)] = []
    holds_from: datetime.date | None = None
    holds_until: datetime.date | None = None
    because: Sentence
    remedy: Sentence
    breach: Sentence | None = None
    adjust: str | list[str] = []
    cite: Citations
    reviewed: datetime.date
    formerly: list[Text] = []
    replaces: Sentence | None = None
    overrides: Text | None = None
    overrides_because: Sentence | None = None
    unnoticed: list[ExcuseShape] = []
    case: list[RuleCaseShape] = []


class QuantityShape(Shape):
    """One quantity of a topic's quantities.toml."""

    label: Sentence
    about: Sentence
    formula: Expression
    unit: Text | None = None
    difference: bool = False
    gives: Literal["truth", "text"] | None = None
    choices: list[Text] = []
    of: Expression | None = None
    at_least: Text | None = None
    at_most: Text | None = None
    range_because: Sentence | None = None
    report: Section | None = None
    overrides: Text | None = None
    overrides_because: Sentence | None = None
    cite: Citations
    reviewed: datetime.date
    unnoticed: list[ExcuseShape] = []
    case: list[QuantityCaseShape] = []


class ProvisionCaseShape(CaseShape):
    """A case of a provision; `number` is what must come out where it is needed."""

    outcome: Literal["needed", "not needed", "with the unit", "undecided"]
    number: Text | None = None


class ProvisionShape(Shape):
    """One part of a topic's provisions.toml."""

    part: Sentence
    needed: Expression
    with_unit: Expression = "false"
    number: Expression = "1"
    unit: Text = "1"
    supplier: Supplier
    because: Sentence
    also_called: list[Text] = []
    cite: Citations
    reviewed: datetime.date
    unnoticed: list[ExcuseShape] = []
    case: list[ProvisionCaseShape] = []


class FactShape(Shape):
    """One fact of a facts.toml, which a job states under [more]."""

    kind: Literal["truth", "quantity", "number", "count", "text", "texts", "date"]
    question: Sentence
    label: Text = ""
    how: Text = ""
    who: Literal["customer", "surveyor", "designer", "electrician", "installer", "maker"] = (
        "installer"
    )
    unit: Text | None = None
    choices: list[Text] = []
    example: Any = None


class ConstraintCaseShape(CaseShape):
    """A case of a constraint."""

    outcome: Literal["possible", "impossible", "undecided"]


class ConstraintShape(Shape):
    """One constraint of a topic's constraints.toml."""

    of: Expression | None = None
    applies: Expression = "true"
    requires: Expression
    because: Sentence
    cite: Citations
    reviewed: datetime.date
    unnoticed: list[ExcuseShape] = []
    case: list[ConstraintCaseShape] = []


class SizesShape(Shape):
    """One entry of sizes.toml: the values that some facts can practically have."""

    facts: Annotated[list[Text], Field(min_length=1)]
    sizes: list[Text] = []
    step: Text | None = None
    cite: Citations
    reviewed: datetime.date


class KeyShape(Shape):
    """A key of a table."""

    name: Text
    unit: Text | None = None
    read: Literal["exact", "next up", "linear"] = "exact"


class ColumnShape(Shape):
    """A column that a table gives."""

    name: Text
    unit: Text | None = None


class TableShape(Shape):
    """A table file."""

    title: Sentence
    keys: Annotated[list[KeyShape], Field(min_length=1, max_length=MOST_KEYS)]
    gives: Annotated[list[ColumnShape], Field(min_length=1, max_length=MOST_COLUMNS)]
    cite: Citations
    reviewed: datetime.date
    edition_of: Text | None = None
    holds_from: datetime.date | None = None
    holds_until: datetime.date | None = None
    rows: Annotated[
        list[list[int | float | Text | bool]], Field(min_length=1, max_length=MOST_ROWS)
    ]


class SourceShape(Shape):
    """An entry of sources.toml."""

    title: Sentence
    basis: Basis
    edition: Text = ""


class SheetRowShape(Shape):
    """A row of a table that makers publish, and the facts it states."""

    row: Sentence
    symbol: Text = ""
    facts: Annotated[list[Text], Field(min_length=1)]
    note: Text = ""


class SheetSectionShape(Shape):
    """A section of forms/unit-sheet.toml: rows of a table, or facts alone."""

    heading: Sentence
    cite: Citations
    reviewed: datetime.date
    rows: list[SheetRowShape] = []
    facts: list[Text] = []


class RetirementShape(Shape):
    """A rule of another pack that this one takes out of use."""

    rule: Text
    because: Sentence


class PackShape(Shape):
    """A pack.toml, which a pack of its own may have."""

    title: Sentence
    format: int = FORMAT
    retire: list[RetirementShape] = []
