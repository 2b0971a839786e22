"""Filling in forms, sheets and starters as a person does who reads nothing but them."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator
from typing import Any

from sample_jobs.filling import filled

_ABSENT = re.compile(
    r'write (\w+) = ("none"|\[\]) (?:under \[(.+?)\]|at the top) in place of this (?:table|block)'
)


def filled_in(form: str) -> str:
    """Fill in each blank line of a form by what is offered behind it."""
    text = filled(form)
    assert text != form, "Nothing was left to fill in."
    assert not re.search(r'= ""', text)
    return text


def with_none(form: str) -> tuple[str, int]:
    """Say of each group and list of a form that there is none, where and how the form says it.

    Returns:
        The form, and how many groups and lists it said so of.
    """
    blocks = re.split(r"\n\n(?=(?:# [^\n]*\n)*\[)", form)
    kept, absent, gone = [blocks[0]], list[tuple[str, str]](), list[str]()
    for block in blocks[1:]:
        header = re.search(r"^\[+(.+?)\]+$", block, re.MULTILINE)
        assert header is not None
        note = " ".join(block[: header.start()].replace("\n# ", " ").split())
        written = _ABSENT.search(note)
        if header[1].startswith(tuple(f"{path}." for path in gone)):
            continue
        if written:
            gone.append(header[1])
            absent.append((written[3] or "", f"{written[1]} = {written[2]}"))
        else:
            kept.append(block)
    text = "\n\n".join(kept)
    for table, row in absent:
        text = _under(text, table, row)
    return text, len(absent)


def _under(text: str, table: str, row: str) -> str:
    """Put a row under the header of a table, which is written at the end where it is not there."""
    header = f"\n[{table}]\n"
    if not table:
        return f"{row}\n{text}"
    if header in text:
        return text.replace(header, f"{header}{row}\n", 1)
    return f"{text.rstrip()}\n{header}{row}\n"


def blanks(form: str) -> list[str]:
    """Return the paths of the lines of a form that are left empty."""
    return list(_blanks(tomllib.loads(form), ""))


def _blanks(value: Any, path: str) -> Iterator[str]:
    if value == "":
        yield path
    elif isinstance(value, dict):
        for key, inner in value.items():
            yield from _blanks(inner, f"{path}.{key}" if path else key)
    elif isinstance(value, list):
        for at, inner in enumerate(value, start=1):
            yield from _blanks(inner, f"{path}[{at}]")


def marks_off(starter: str) -> str:
    """Take the mark off every line of a starter, as its head says: "# ", and not "## "."""
    return "".join(row.removeprefix("# ") for row in starter.splitlines(keepends=True))
