"""JSON Schemas of dataclasses, made from their fields and docstrings."""

from __future__ import annotations

import dataclasses
import datetime
from enum import Enum
from types import NoneType, UnionType
from typing import Any, Literal, TypeAlias, Union, get_args, get_origin, get_type_hints

from tundish.report.schemas.docstrings import about, attributes

Schema: TypeAlias = dict[str, Any]

DRAFT = "https://json-schema.org/draft/2020-12/schema"

_PLAIN: dict[Any, Schema] = {
    str: {"type": "string"},
    bool: {"type": "boolean"},
    int: {"type": "integer"},
    float: {"type": "number"},
    NoneType: {"type": "null"},
    datetime.date: {"type": "string", "format": "date"},
}


class DataSchemas:
    """Makes a schema of each dataclass that is met, once, under the name of the class."""

    def __init__(self) -> None:
        self.definitions: dict[str, Schema] = {}

    def reference(self, data: type[Any], more: dict[str, Schema] | None = None) -> Schema:
        """Return a reference to the schema of a dataclass.

        Args:
            data: The dataclass.
            more: What its data hold besides its fields, by name.
        """
        name = data.__name__
        if name not in self.definitions:
            self.definitions[name] = {}  # set first, as a class may hold itself
            self.definitions[name] = self._schema_of(data, more or {})
        return {"$ref": f"#/$defs/{name}"}

    def _schema_of(self, data: type[Any], more: dict[str, Schema]) -> Schema:
        kinds, meanings = get_type_hints(data), attributes(data)
        fields = {
            field.name: _described(self.of(kinds[field.name]), meanings.get(field.name, ""))
            for field in dataclasses.fields(data)
            if field.metadata.get("in data", True)
        }
        return closed_to_gaps(about(data), fields | more)

    def of(self, kind: Any) -> Schema:
        """Return the schema of the annotation of a field.

        Raises:
            TypeError: If data of that kind have no schema here.
        """
        if kind in _PLAIN:
            return dict(_PLAIN[kind])
        if dataclasses.is_dataclass(kind) and isinstance(kind, type):
            return self.reference(kind)
        if isinstance(kind, type) and issubclass(kind, Enum):
            return {"enum": [member.value for member in kind]}
        return self._of_several(kind)

    def _of_several(self, kind: Any) -> Schema:
        origin, inner = get_origin(kind), get_args(kind)
        if origin is Literal:
            return {"enum": list(inner)}
        if origin in (Union, UnionType):
            return {"anyOf": [self.of(option) for option in inner]}
        if origin is tuple and inner[1:] == (Ellipsis,):
            return {"type": "array", "items": self.of(inner[0])}
        raise TypeError(f"There is no schema of {kind}.")


def closed_to_gaps(description: str, properties: dict[str, Schema]) -> Schema:
    """Return the schema of an object that has all its properties.

    More than these may stand in it: a later version may add some without a new form.
    """
    return {
        "type": "object",
        "description": description,
        "properties": properties,
        "required": list(properties),
    }


def _described(schema: Schema, description: str) -> Schema:
    return {**schema, "description": description} if description else schema
