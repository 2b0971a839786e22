"""Where a fact stands in a job: in which lists and groups, and so how rules and cases write it."""

from __future__ import annotations

from collections.abc import Callable

from tundish.groundwork.dataclass import dataclass
from tundish.job.model.paths import outer_paths
from tundish.job.model.schema import Items, Record
from tundish.job.schema import job_schema
from tundish.report.forms.requirement import ITEMS_NEED


@dataclass(frozen=True, slots=True)
class Around:
    """A list that a fact stands in.

    Attributes:
        path: The list.
        variable: How a condition calls its items.
        label: The word for one of its items.
    """

    path: str
    variable: str
    label: str


@dataclass(frozen=True, slots=True)
class FactPlace:
    """Where a fact stands.

    Attributes:
        path: The fact.
        lists: The lists it stands in, the outermost first.
        groups: The groups around it that a job may have none of.
    """

    path: str
    lists: tuple[Around, ...]
    groups: tuple[str, ...]

    @property
    def name(self) -> str:
        """Return how a condition names the fact."""
        return self.named(self.path)

    @property
    def condition_groups(self) -> list[str]:
        """Return the names of the groups that must be there for the fact to be asked for.

        A list of something absent is none itself, so that groups around a list need no asking.
        """
        outer = self.lists[0].path if self.lists else ""
        return [self.named(group) for group in self.groups if not outer.startswith(f"{group}.")]

    def named(self, path: str) -> str:
        """Return how a condition names something around the fact."""
        for around in reversed(self.lists):
            if path.startswith(f"{around.path}."):
                return around.variable + path.removeprefix(around.path)
        return path

    def given(self, path: str, value: object) -> dict[str, object]:
        """Return the facts of a small job that states one value.

        Args:
            path: Where it stands: the fact, or a group around it.
            value: What is stated.
        """
        for around in reversed(self.lists):
            if path.startswith(f"{around.path}."):
                own = {path.removeprefix(f"{around.path}."): value}
                return self.given(around.path, [{**ITEMS_NEED.get(around.path, {}), **own}])
        return {path: value}

    def unknown(self) -> tuple[dict[str, object], str] | None:
        """Return a small job in which all around the fact is known, and the fact that is not.

        Returns:
            The job's facts, and the path of the unknown one with positions; None where an item
            cannot be read without the fact.
        """
        *_, last = self.path.split(".")
        if self.lists and last in ITEMS_NEED.get(self.lists[-1].path, {}):
            return None
        around = [*self.groups, *(outer.path for outer in self.lists)]
        if not around:
            return {}, self.path
        inner = max(around, key=len)
        is_list = any(outer.path == inner for outer in self.lists)
        item = dict(ITEMS_NEED.get(inner, {}))
        return self.given(inner, [item] if is_list else {}), self._placed(self.path)

    def _placed(self, path: str) -> str:
        """Return a path with the position of the first item of each list."""
        for around in reversed(self.lists):
            path = path.replace(f"{around.path}.", f"{around.path}[1].", 1)
        return path


def place_of_fact(path: str, is_taken: Callable[[str], bool]) -> FactPlace:
    """Return where a fact stands.

    Args:
        path: The fact, without positions.
        is_taken: Says whether a word has a meaning of its own in conditions.
    """
    lists: list[Around] = []
    groups: list[str] = []
    for outer in outer_paths(path):
        match job_schema().find(outer):
            case Items() as items:
                lists.append(Around(outer, _variable(items.item.label, is_taken), items.item.label))
            case Record(can_be_absent=True):
                groups.append(outer)
    return FactPlace(path, tuple(lists), tuple(groups))


def _variable(label: str, is_taken: Callable[[str], bool]) -> str:
    word = label.replace(" ", "_").replace("-", "_").lower()
    return f"this_{word}" if is_taken(word) else word
