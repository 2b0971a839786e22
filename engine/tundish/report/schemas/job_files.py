"""The JSON Schemas of job files and unit sheets, made from the parts that read them."""

from __future__ import annotations

from typing import cast

from tundish.job.job import Job
from tundish.job.model.field_types import NONE, ItemsType, MoreType, OrNoneType
from tundish.job.model.fields import Member
from tundish.job.model.part import Part
from tundish.job.model.schema import entry_of, words
from tundish.job.parts.placement import OPEN, Clearance
from tundish.job.parts.unit import OutdoorUnit
from tundish.report.schemas.data_schema import DRAFT, Schema
from tundish.report.schemas.docstrings import about
from tundish.report.schemas.kinds import fact_schema
from tundish.text.bounds import LONGEST_LIST

FORM = 1
"""Number of this form of the files; one that old files do not fit gets the next."""

_WORDS: dict[tuple[type[Part], str], str] = {(Clearance, "top"): OPEN}
"""Words that may stand in the place of a fact, to state another."""


def job_file_schema() -> Schema:
    """Return the schema of a job file; as facts may be left out, nothing in it is required."""
    parts = _Parts()
    reference = parts.reference(Job)
    return {
        "$schema": DRAFT,
        "$id": f"urn:tundish:job:{FORM}",
        "title": "Job of tundish",
        **reference,
        "$defs": parts.definitions,
    }


def unit_sheet_schema() -> Schema:
    """Return the schema of a unit sheet, which holds one table."""
    parts = _Parts()
    reference = parts.reference(OutdoorUnit)
    return {
        "$schema": DRAFT,
        "$id": f"urn:tundish:unit:{FORM}",
        "title": "Unit sheet of tundish",
        "description": "The figures of one model of outdoor unit, as its maker states them.",
        "type": "object",
        "properties": {"unit": reference},
        "required": ["unit"],
        "additionalProperties": False,
        "$defs": parts.definitions,
    }


class _Parts:
    """Makes a schema of each part that is met, once."""

    def __init__(self) -> None:
        self.definitions: dict[str, Schema] = {}

    def reference(self, part: type[Part]) -> Schema:
        # Parts of one name stand in several modules.
        name = f"{part.__module__.rpartition('.')[2]}.{part.__name__}"
        if name not in self.definitions:
            self.definitions[name] = {}  # set first, as a part may hold itself
            self.definitions[name] = self._schema_of(part)
        return {"$ref": f"#/$defs/{name}"}

    def _schema_of(self, part: type[Part]) -> Schema:
        return {
            "type": "object",
            "description": about(part),
            "properties": {
                name: self._member(part, member) for name, member in part.members.items()
            },
            "additionalProperties": False,
        }

    def _member(self, part: type[Part], member: Member) -> Schema:
        schema, written = self._shape(part, member)
        word = _WORDS.get((part, member.name))
        if word is not None:
            schema = {"anyOf": [schema, {"const": word}]}
        asking = member.asking
        sentences = [asking.question, asking.how or part.found_in, written]
        described = " ".join(sentence for sentence in sentences if sentence)
        return {"title": asking.label or words(member.name), "description": described, **schema}

    def _shape(self, part: type[Part], member: Member) -> tuple[Schema, str]:
        """Return the schema of what stands in a member, and a sentence on how it is written."""
        if member.kind is not None:
            return fact_schema(member.kind, entry_of(member, member.name, part))
        if isinstance(member.held, MoreType):
            return {"type": "object"}, "A table; which keys it has is for the packs to say."
        table = self.reference(cast("type[Part]", member.part))
        if isinstance(member.held, ItemsType):
            items: Schema = {"type": "array", "items": table, "maxItems": LONGEST_LIST}
            return items, "A list of tables; [] says that there are none."
        if isinstance(member.held, OrNoneType):
            absent = {"enum": [NONE, False], "description": "Known to be absent."}
            return {"anyOf": [table, absent]}, f"A table, or '{NONE}' where it is known absent."
        return table, ""
