"""The walk: in which order a person meets the facts of a job, and which a visit must bring home.

It is data: rules/forms/walk.toml. First job files, surveys and interviews follow it.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache, cached_property
from pathlib import Path as FilePath
from typing import Any

from tundish.groundwork.dataclass import dataclass
from tundish.job.model.paths import without_positions
from tundish.job.model.schema import below
from tundish.job.schema import job_schema
from tundish.text.bundled_folders import bundled_folder
from tundish.text.place import Path, Places
from tundish.text.problem import Problem, Refused
from tundish.text.toml_file import TomlFile, read_toml

_LISTS = ("enquiry", "visit", "rest")
"""When what a list names is first asked for: before a visit, on a visit, later."""

_ALWAYS = ("always", "always_on_visit", "always_drawn")
"""What every first job file asks for; the second from the survey on, the third from the design."""

_ALWAYS_OF_UNIT = "always_of_unit"
"""What every first unit sheet asks for."""

_ON_SITE = ("customer", "surveyor", "electrician")
"""Who is met on a visit, so that facts of packs can be asked there too."""


@dataclass(frozen=True, slots=True)
class WalkPosition:
    """Where in the walk a fact is met.

    Attributes:
        place: The number of the place, in the order of the walk.
        when: "enquiry", "visit" or "rest".
        rank: Where it stands among the names of that place and time.
    """

    place: int
    when: str
    rank: int


class Walk:
    """The places in the order in which a person goes through them, each with the facts met there.

    Args:
        file: A file of the shape of rules/forms/walk.toml.

    Raises:
        Refused: If the file names something that is no fact, group or list of a job.

    Example:
        >>> walk = Walk.built_in()
        >>> walk.place_of("electricity.service_fuse")
        'The board: the electrical supply'
        >>> walk.is_asked_at("survey", "electricity.service_fuse", "surveyor")
        True
    """

    def __init__(self, file: TomlFile) -> None:
        self._places: list[Mapping[str, Any]] = file.data.get("place", [])
        self._always = {key: file.data.get(key, []) for key in (*_ALWAYS, _ALWAYS_OF_UNIT)}
        positions = _positions(file)
        self._positions = dict(positions)
        self._groups = _around(positions)

    @classmethod
    def built_in(cls) -> Walk:
        """Return the walk that is installed with the program."""
        return _read(bundled_folder("rules") / "forms" / "walk.toml")

    def place_of(self, path: str) -> str:
        """Return the name of the place where a fact is met; empty for one that has no place."""
        position = self._position(path)
        return str(self._places[position.place]["name"]) if position else ""

    def always_asked(self, stage: str) -> list[str]:
        """Return the paths of the facts that a first job file asks for whatever they decide."""
        lists = _ALWAYS[: {"enquiry": 1, "survey": 2}.get(stage, 3)]
        return [path for key in lists for path in self._always[key]]

    @property
    def always_asked_of_unit(self) -> list[str]:
        """Return the paths of the facts that a first unit sheet asks for whatever they decide."""
        return list(self._always[_ALWAYS_OF_UNIT])

    def order(self, path: str) -> tuple[int, int, int, int]:
        """Return what sorts facts as a person meets them; list positions do not count.

        Args:
            path: The path of a fact, group or list.
        """
        at = self._position(path) or WalkPosition(len(self._places), "rest", 0)
        known = self._known_order.get(without_positions(path), len(self._known_order))
        return (at.place, _LISTS.index(at.when), at.rank, known)

    def is_asked_at(self, stage: str, path: str, who: str) -> bool:
        """Say whether a fact is asked for at a stage, whenever the rules that wait for it are due.

        Args:
            stage: "enquiry", when one learns what can be learnt on the telephone or from papers;
                "survey", when a visit must bring home what is not known yet. At later stages only
                what is due is asked.
            path: The path of the fact.
            who: Who can be asked for it; decides for facts that have no place in the walk.
        """
        position = self._position(path)
        match stage:
            case "enquiry":
                return position.when == "enquiry" if position else who == "customer"
            case "survey":
                return position.when != "rest" if position else who in _ON_SITE
            case _:
                return False

    def _position(self, path: str) -> WalkPosition | None:
        name = without_positions(path)
        if name in self._groups:
            return self._groups[name]
        while name and name not in self._positions:
            name = name.rpartition(".")[0]
        return self._positions.get(name)

    @cached_property
    def _known_order(self) -> Mapping[str, int]:
        return {entry.path: number for number, entry in enumerate(below(job_schema()))}


def _around(positions: list[tuple[str, WalkPosition]]) -> dict[str, WalkPosition]:
    """Return the positions of groups and lists of which something is asked on a visit or before.

    Of a list of which nothing is known, nobody can ask for more than the list.
    """
    around: dict[str, WalkPosition] = {}
    for name, position in positions:
        group = name.rpartition(".")[0] if position.when != "rest" else ""
        while "." in group:
            around.setdefault(group, position)
            group = group.rpartition(".")[0]
    return around


@cache
def _read(path: FilePath) -> Walk:
    return Walk(read_toml(path))


def _positions(file: TomlFile) -> list[tuple[str, WalkPosition]]:
    """Return where each name stands.

    Raises:
        Refused: If a name is none of a job's.
    """
    placed = [
        (name, WalkPosition(place, when, rank))
        for place, table in enumerate(file.data.get("place", []))
        for when in _LISTS
        for rank, name in enumerate(table.get(when, ()))
    ]
    keys: list[tuple[str, Path]] = [
        *((name, ("place", at.place, at.when, at.rank)) for name, at in placed),
        *(
            (name, (key, rank))
            for key in (*_ALWAYS, _ALWAYS_OF_UNIT)
            for rank, name in enumerate(file.data.get(key, ()))
        ),
    ]
    problems = [
        Problem(
            file.name, *Places(file.text).of(key), f"'{name}' is no fact, group or list of a job."
        )
        for name, key in keys
        if job_schema().find(name) is None
    ]
    if problems:
        raise Refused(problems)
    return placed
