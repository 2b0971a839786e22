"""The JSON Schemas of rule files and constraints, made from the shapes that read them."""

from __future__ import annotations

from typing import Any

from pydantic.json_schema import GenerateJsonSchema

from tundish.report.schemas.data_schema import DRAFT, Schema
from tundish.report.schemas.docstrings import attributes
from tundish.rulebook.files.file_shapes import ConstraintShape, RuleShape, Shape
from tundish.rulebook.model.constraint import Constraint
from tundish.rulebook.model.definition import Case
from tundish.rulebook.model.rule import Rule
from tundish.rulebook.model.source import Citation

FORM = 1
"""Number of this form of the files; one that old files do not fit gets the next."""

_READ_INTO = {
    "RuleShape": Rule,
    "ConstraintShape": Constraint,
    "CitationShape": Citation,
    "RuleCaseShape": Case,
    "ConstraintCaseShape": Case,
}
"""The class that each shape is read into, whose docstring says what its keys mean."""

_SAID_OTHERWISE = {
    "each": "The list whose every item it is asked of: 'electricity.circuit as circuit'.",
    "until_known": "Facts until which it is asked, and no longer; a finding tells it.",
    "once_known": "Facts before which it is not asked; a finding tells it.",
    "of": "The list in whose every item it holds: 'unit.rating as rating'.",
    "breach": "The sentence of a breach, with expressions in {braces} that become numbers.",
    "cite": "On whose authority.",
    "case": "What proves it: small jobs and what must come out of each.",
    "holds_from": "The first day on which it holds; always, if left out.",
    "holds_until": "The last day on which it holds; for ever, if left out.",
    "overrides": "Of a country: the international rule that it takes the place of there.",
    "overrides_because": "Why it takes that place.",
    "replaces": "Why it takes the place of the rule of this name in the pack below.",
}
"""What keys mean that a rule, once read, does not have under that name or holds otherwise."""


class _WithoutTitles(GenerateJsonSchema):
    """Leaves out the titles that would only say the name of each key again."""

    def field_title_should_be_set(self, schema: Any) -> bool:
        """Return that none should."""
        return False


def rule_file_schema() -> Schema:
    """Return the schema of a rule file."""
    return _file_schema("rule", "Rule of tundish", RuleShape)


def constraints_file_schema() -> Schema:
    """Return the schema of a file of constraints, each in a table under its own name."""
    schema = _file_schema("constraints", "Constraints of tundish", ConstraintShape)
    table = {key: schema.pop(key) for key in list(schema) if key[0] != "$" and key != "title"}
    return {**schema, "type": "object", "additionalProperties": table}


def _file_schema(name: str, title: str, shape: type[Shape]) -> Schema:
    schema = shape.model_json_schema(schema_generator=_WithoutTitles)
    inner = schema.pop("$defs", {})
    for called, part in [(shape.__name__, schema), *inner.items()]:
        _describe(called, part)
    return {
        "$schema": DRAFT,
        "$id": f"urn:tundish:{name}:{FORM}",
        **schema,
        "title": title,
        "$defs": inner,
    }


def _describe(name: str, part: Schema) -> None:
    """Put what the keys of a shape mean into its schema."""
    part.pop("title", None)
    meanings = attributes(_READ_INTO.get(name)) | _SAID_OTHERWISE
    for key, schema in part.get("properties", {}).items():
        _leave_null_out(schema)
        if key in meanings:
            schema["description"] = meanings[key]


def _leave_null_out(schema: Schema) -> None:
    """Take out what no TOML file can hold; a key without a value is left out there."""
    options = [option for option in schema.get("anyOf", []) if option.get("type") != "null"]
    if len(options) == 1:
        schema.pop("anyOf")
        schema.update(options[0])
    elif options:
        schema["anyOf"] = options
    if schema.get("default", "") is None:
        schema.pop("default")
