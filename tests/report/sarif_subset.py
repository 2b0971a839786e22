"""The part of the SARIF 2.1.0 schema that is written here, from memory of the standard.

Objects are closed and enumerations are those of the standard, so that a property that it does not
have, or a value that it does not know, is found.
"""

from __future__ import annotations

from typing import Any

LEVEL = {"enum": ["none", "note", "warning", "error"]}
BAG = {"type": "object"}
TEXT = {"type": "string"}
INDEX = {"type": "integer", "minimum": -1}


def closed(required: tuple[str, ...] = (), **properties: Any) -> dict[str, Any]:
    return {
        "type": "object",
        "properties": {**properties, "properties": BAG},
        "required": list(required),
        "additionalProperties": False,
    }


def listed(name: str, **more: Any) -> dict[str, Any]:
    return {"type": "array", "items": {"$ref": f"#/$defs/{name}"}, **more}


def one(name: str) -> dict[str, Any]:
    return {"$ref": f"#/$defs/{name}"}


SUBSET: dict[str, Any] = {
    "$schema": "https://json-schema.org/draft/2020-12/schema",
    **closed(
        ("version", "runs"),
        **{"$schema": {"type": "string", "format": "uri"}},
        version={"const": "2.1.0"},
        runs=listed("run"),
    ),
    "$defs": {
        "run": closed(
            ("tool",),
            tool=closed(("driver",), driver=one("toolComponent")),
            invocations=listed("invocation", uniqueItems=False),
            columnKind={"enum": ["utf16CodeUnits", "unicodeCodePoints"]},
            artifacts=listed("artifact", uniqueItems=True),
            results=listed("result"),
        ),
        "toolComponent": closed(
            ("name",),
            name=TEXT,
            version=TEXT,
            rules=listed("reportingDescriptor", uniqueItems=True),
        ),
        "reportingDescriptor": closed(
            ("id",),
            id=TEXT,
            shortDescription=one("multiformatMessageString"),
            fullDescription=one("multiformatMessageString"),
            help=one("multiformatMessageString"),
            defaultConfiguration=closed(level=LEVEL),
        ),
        "multiformatMessageString": closed(("text",), text=TEXT, markdown=TEXT),
        "message": closed(("text",), text=TEXT, markdown=TEXT),
        "invocation": closed(
            ("executionSuccessful",),
            executionSuccessful={"type": "boolean"},
            toolExecutionNotifications=listed("notification"),
        ),
        "notification": closed(
            ("message",),
            message=one("message"),
            level=LEVEL,
            locations=listed("location", uniqueItems=True),
        ),
        "artifact": closed(location=one("artifactLocation")),
        "artifactLocation": closed(uri={"type": "string", "format": "uri-reference"}, index=INDEX),
        "location": closed(
            physicalLocation=closed(
                ("artifactLocation",),
                artifactLocation=one("artifactLocation"),
                region=closed(
                    startLine={"type": "integer", "minimum": 1},
                    startColumn={"type": "integer", "minimum": 1},
                ),
            ),
            message=one("message"),
        ),
        "result": closed(
            ("message",),
            ruleId=TEXT,
            ruleIndex=INDEX,
            kind={"enum": ["notApplicable", "pass", "fail", "review", "open", "informational"]},
            level=LEVEL,
            message=one("message"),
            locations=listed("location"),
            partialFingerprints={"type": "object", "additionalProperties": TEXT},
            suppressions=listed("suppression", uniqueItems=True),
        ),
        "suppression": closed(
            ("kind",),
            kind={"enum": ["inSource", "external"]},
            status={"enum": ["accepted", "underReview", "rejected"]},
            justification=TEXT,
        ),
    },
}
