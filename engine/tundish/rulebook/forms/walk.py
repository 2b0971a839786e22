"""The walk: in which order a person meets the facts of a job, and which a visit must bring home.

It is data: rules/forms/walk.toml. First job files, surveys and interviews follow it.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache, cached_property
from pathlib import Path
from typing import Any

from tundish.groundwork.dataclass import dataclass
from tundish.job.model.paths import without_positions
from tundish.job.model.schema import Asked
from tundish.job.schema import job_schema
from tundish.text.bundled_folders import travelling_folder
from tundish.text.place import Places
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
class Stop:
    """Where a fact is met.

    Attributes:
        place: The number of the place, in the order of the walk.
        when: "enquiry", "visit" or "rest".
        position: Where it stands among the names of that place.
    """

    place: int
    when: str
    position: int


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
        >>> walk.is_asked_on_a_visit("electricity.service_fuse", "surveyor")
        True
    """

    def __init__(self, file: TomlFile) -> None:
        self._places: list[Mapping[str, Any]] = file.data.get("place", [])
        self._always = {key: file.data.get(key, []) for key in (*_ALWAYS, _ALWAYS_OF_UNIT)}
        stops = _stops(file)
        self._stops = dict(stops)
        self._groups = _around(stops)

    @classmethod
    def built_in(cls) -> Walk:
        """Return the walk that travels with the program."""
        return _read(travelling_folder("rules") / "forms" / "walk.toml")

    def place_of(self, path: str) -> str:
        """Return the name of the place where a fact is met; empty for one that has no place."""
        stop = self._stop(path)
        return str(self._places[stop.place]["name"]) if stop else ""

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
        stop = self._stop(path) or Stop(len(self._places), "rest", 0)
        known = self._known_order.get(without_positions(path), len(self._known_order))
        return (stop.place, _LISTS.index(stop.when), stop.position, known)

    def is_asked_before_a_visit(self, path: str, who: str) -> bool:
        """Say whether a fact can be learnt on the telephone or from papers.

        Args:
            path: Its path.
            who: Who can be asked for it; this decides for facts that have no place in the walk.
        """
        stop = self._stop(path)
        return stop.when == "enquiry" if stop else who == "customer"

    def is_asked_on_a_visit(self, path: str, who: str) -> bool:
        """Say whether a fact is one that a visit must bring home, if it is not known before.

        Args:
            path: Its path.
            who: Who can be asked for it; this decides for facts that have no place in the walk.
        """
        stop = self._stop(path)
        return stop.when in ("enquiry", "visit") if stop else who in _ON_SITE

    def is_asked_at(self, stage: str, path: str, who: str) -> bool:
        """Say whether a fact is asked for at a stage, whenever the rules that wait for it are due.

        Args:
            stage: A stage; at a later one than the survey, only what is due is asked.
            path: The path of the fact.
            who: Who can be asked for it.
        """
        match stage:
            case "enquiry":
                return self.is_asked_before_a_visit(path, who)
            case "survey":
                return self.is_asked_on_a_visit(path, who)
            case _:
                return False

    def _stop(self, path: str) -> Stop | None:
        name = without_positions(path)
        if name in self._groups:
            return self._groups[name]
        while name and name not in self._stops:
            name = name.rpartition(".")[0]
        return self._stops.get(name)

    @cached_property
    def _known_order(self) -> Mapping[str, int]:
        entries = [entry.path for entry in _entries(job_schema())]
        return {path: position for position, path in enumerate(entries)}


def _around(stops: list[tuple[str, Stop]]) -> dict[str, Stop]:
    """Return the stops of groups and lists of which something is asked on a visit or before.

    Of a list of which nothing is known, nobody can ask for more than the list.
    """
    around: dict[str, Stop] = {}
    for name, stop in stops:
        group = name.rpartition(".")[0] if stop.when != "rest" else ""
        while "." in group:
            around.setdefault(group, stop)
            group = group.rpartition(".")[0]
    return around


@cache
def _read(path: Path) -> Walk:
    return Walk(read_toml(path))


def _stops(file: TomlFile) -> list[tuple[str, Stop]]:
    """Return the stop of each name.

    Raises:
        Refused: If a name is none of a job's.
    """
    stops: list[tuple[str, Stop]] = []
    problems: list[Problem] = []
    for number, place in enumerate(file.data.get("place", [])):
        for when in _LISTS:
            for position, name in enumerate(place.get(when, ())):
                stops.append((name, Stop(number, when, position)))
                if job_schema().find(name) is None:
                    at = Places(file.text).of(("place", number, when, position))
                    problems.append(Problem(file.name, *at, _not_of_a_job(name)))
    for key in (*_ALWAYS, _ALWAYS_OF_UNIT):
        for position, name in enumerate(file.data.get(key, ())):
            if job_schema().find(name) is None:
                at = Places(file.text).of((key, position))
                problems.append(Problem(file.name, *at, _not_of_a_job(name)))
    if problems:
        raise Refused(problems)
    return stops


def _not_of_a_job(name: str) -> str:
    return f"'{name}' is no fact, group or list of a job."


def _entries(entry: Asked) -> list[Asked]:
    """Return all facts, groups and lists below one, and itself."""
    fields = getattr(getattr(entry, "item", entry), "fields", {})
    return [entry, *(inner for field in fields.values() for inner in _entries(field))]
