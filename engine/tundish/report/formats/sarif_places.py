"""Places and messages in SARIF: files as relative references, each once; text that is no link."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import PurePath
from typing import Any
from urllib.parse import quote

from tundish.findings.finding import Finding
from tundish.text.escape import escape


class Artifacts:
    """The files that results speak of, each with its position in the list of them."""

    def __init__(self, files: Iterable[str]) -> None:
        self._positions = {name: at for at, name in enumerate(sorted(set(files) - {""}))}

    def listed(self) -> list[dict[str, Any]]:
        """Return the list of the files."""
        return [{"location": self.location(name)} for name in self._positions]

    def location(self, file: str) -> dict[str, Any]:
        """Return where a file is, with its position in the list."""
        return {"uri": uri_of(file), "index": self._positions[file]}

    def place(self, file: str, line: int | None, column: int | None = None) -> dict[str, Any]:
        """Return a place in a file.

        Args:
            file: The file.
            line: Its line, counted from 1, or None where the whole file is meant.
            column: Its character in the line, counted from 1, or None.
        """
        physical: dict[str, Any] = {"artifactLocation": self.location(file)}
        if line is not None:
            physical["region"] = {"startLine": line}
            if column is not None:
                physical["region"]["startColumn"] = column
        return {"physicalLocation": physical}


def uri_of(file: str) -> str:
    """Return the name of a file as a reference, relative where the name is.

    Args:
        file: The name, as the command was given it.

    Example:
        >>> uri_of("jobs/north wall.toml")
        'jobs/north%20wall.toml'
    """
    path = PurePath(file)
    if path.is_absolute():
        return path.as_uri()
    # A file name may hold bytes that are no text.
    return quote(path.as_posix(), errors="backslashreplace")


def input_places(finding: Finding) -> list[tuple[str, int, str]]:
    """Return where the facts are written that a finding rests on.

    Args:
        finding: The finding.

    Returns:
        File, line and what is written there, each line once, in the order of the facts.
    """
    figures: dict[tuple[str, int], list[str]] = {}
    for figure in finding.inputs:
        file, _, line = figure.place.rpartition(":")
        if file:
            figures.setdefault((file, int(line)), []).append(f"{figure.label} {figure.value}")
    return [(file, line, "; ".join(texts)) for (file, line), texts in figures.items()]


def locations(finding: Finding, job: str, artifacts: Artifacts) -> list[dict[str, Any]]:
    """Return the places of a finding; the job's file as a whole where no line is known.

    Args:
        finding: The finding.
        job: The job's file, or "".
        artifacts: The files.
    """
    places = input_places(finding)
    if not places:
        return [artifacts.place(job, None)] if job else []
    # What stands in the job itself comes first: it can be changed, a maker's figures cannot.
    ordered = sorted(places, key=lambda place: place[0] != job)
    return [
        {**artifacts.place(file, line), "message": message(text)} for file, line, text in ordered
    ]


def message(text: str) -> dict[str, Any]:
    r"""Return text as a message.

    Args:
        text: Any text.

    Example:
        >>> message("see [here](https://invalid)")["text"]
        'see \\[here\\](https://invalid)'
    """
    escaped = escape(text).replace("{", "{{").replace("}", "}}")
    # Brackets are markup only before a link; escaped apart everywhere, viewers that read messages
    # as plain text would show a backslash in every list.
    if "](" in escaped:
        escaped = escaped.replace("[", "\\[").replace("]", "\\]")
    return {"text": escaped}
