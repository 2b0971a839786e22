"""A file of a rulebook, and problems at their places in it."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import field
from typing import Any

from tundish.groundwork.dataclass import dataclass
from tundish.groundwork.lazy import Lazy
from tundish.text.place import Path, Places
from tundish.text.problem import Problem
from tundish.text.toml_file import TomlFile


@dataclass(frozen=True)
class RuleFile(Lazy):
    """A file of a rulebook and the places in it."""

    file: TomlFile
    places: Places = field(compare=False, repr=False)  # they follow from the file

    @classmethod
    def of(cls, file: TomlFile) -> RuleFile:
        """Wrap a file that has been read."""
        return cls(file, Places(file.text))

    @classmethod
    def deferred(cls, read: Callable[[], TomlFile]) -> RuleFile:
        """Wrap a file that is read when something of it is first asked for."""

        def both(_: str) -> Mapping[str, Any]:
            file = read()
            return {"file": file, "places": Places(file.text)}

        return cls.of_stored({}, both)

    def problem(self, path: Path, sentence: str) -> Problem:
        """Return a problem at a key."""
        line, column = self.places.of(path)
        return Problem(self.file.name, line, column, sentence, key=_dotted(path))

    def problem_in_text(self, path: Path, start: int, end: int, sentence: str) -> Problem:
        """Return a problem inside a text, with the text and a caret under the place.

        Args:
            path: The key whose value the text is.
            start: Index in the text of the first character it concerns.
            end: Index after the last.
            sentence: What is wrong.
        """
        # Loaded here, as only a mistake in a text pays for it.
        from tundish.text.text_place import place_within

        text = str(_value_at(self.file.data, path))
        # What is missing at the end is told on the last line that has anything in it.
        start = min(start, len(text.rstrip()))
        before = text[:start]
        line_shown = text.split("\n")[before.count("\n")]
        offset = start - (before.rfind("\n") + 1)
        line, column = place_within(self.file.text, self.places.value_of(path), start)
        marks = " " * offset + "^" * max(1, min(end - start, len(line_shown) - offset))
        return Problem(
            self.file.name,
            line,
            column,
            f"{sentence}\n    {line_shown}\n    {marks}",
            _dotted(path),
        )


def _dotted(path: Path) -> str:
    return ".".join(str(step) for step in path)


def _value_at(data: Any, path: Path) -> Any:
    for step in path:
        data = data[step]
    return data
