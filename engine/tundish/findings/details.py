"""What a finding rests on: the facts read, the quantities computed, what is still unknown."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping

from tundish.findings.finding import Input, Open, Working
from tundish.findings.phrases import NOT_KNOWN, Wording, source_of
from tundish.job.facts import Facts
from tundish.job.model.paths import without_positions
from tundish.job.model.schema import Asked, words
from tundish.job.schema import entry_at
from tundish.language.evaluate.step import Step
from tundish.language.tree import tree as t
from tundish.rulebook.model.rule import DerivedQuantity

Place = Callable[[str], str]
Find = Callable[[str], Asked | None]
ItemLabel = Callable[[str], str]


class Details:
    """Says what the findings of one job rest on. A fact or quantity is put into words once.

    Args:
        quantities: All quantities, by path of the list they belong to (or "") and name.
        wording: Puts the values of the job into words.
        place: Says where a fact was written.
        item_label: Says what a list item is called that a path runs through.
    """

    def __init__(
        self,
        quantities: Mapping[tuple[str, str], DerivedQuantity],
        wording: Wording,
        place: Place,
        item_label: ItemLabel,
    ) -> None:
        self._quantities = quantities
        self._wording = wording
        self._place = place
        self._item_label = item_label
        self._inputs: dict[str, Input | None] = {}
        self._workings: dict[str, Working] = {}
        self._assumed: dict[tuple[str, int, t.Value], str] = {}

    def of(
        self, steps: Iterable[Step]
    ) -> tuple[tuple[Input, ...], tuple[Working, ...], tuple[str, ...]]:
        """Return the facts that were read, and the quantities that were computed, each once.

        Args:
            steps: What was looked at.

        Returns:
            The facts in the order they were looked at; the quantities behind those they use; what
            is taken for granted until it is known.
        """
        inputs: dict[str, Input | None] = {}
        workings: dict[str, Working] = {}
        assumed: dict[str, None] = {}
        for step in _used_first(steps):
            path = step.path
            if isinstance(step.node, t.Assumed | t.Known):
                assumed[self._assumption(step)] = None
            elif isinstance(step.node, t.Derived):
                if path not in workings:
                    workings[path] = self._workings.get(path) or self._working(step, step.node)
            elif path not in inputs and step.value is not None:
                if path not in self._inputs:
                    self._inputs[path] = self._input(step, step.node)
                inputs[path] = self._inputs[path]
        told = tuple(filter(None, inputs.values()))
        return told, tuple(workings.values()), tuple(filter(None, assumed))

    def _input(self, step: Step, node: t.Node) -> Input | None:
        assert isinstance(node, t.Read)
        group = node.kind.name in ("items", "record")
        if group and step.value is True:
            return None  # the facts in the group show that it is there
        value = "none" if group else self._wording.shown(step)
        return Input(step.path, node.label, value, self._place(step.path))

    def _assumption(self, step: Step) -> str:
        """Say what stands in for what is not known; "" where nothing does."""
        first = step.parts[0]
        if first.value is not None or step.value is None:
            return ""
        if isinstance(step.node, t.Known) and not first.needs:
            return ""  # there is no such thing, so nobody will ever know it
        # The tree that a node is of stays as long as its rule; items share it, so the value counts.
        key = first.path, id(step.node), step.value
        if not first.path or key not in self._assumed:
            if isinstance(step.node, t.Assumed):
                stands_in = _stand_in(step.parts[1], self._wording)
            else:
                stands_in = "this holds until it is"
            label = _unknown_label(first, self._item_label)
            self._assumed[key] = f"{label}: not known, {stands_in}" if label else ""
        return self._assumed[key]

    def _working(self, step: Step, node: t.Derived) -> Working:
        of = without_positions(step.path).removesuffix(node.name).rstrip(".")
        quantity = self._quantities[of, node.name]
        result = NOT_KNOWN if step.value is None else self._wording.shown(step)
        numbers = self._wording.numbers(step.parts[0])
        formula, citations = quantity.written, quantity.citations
        if own := _of_country(step, quantity):
            formula, citations = own, self._quantities[of, own].citations
        working = Working(step.path, node.label, formula, numbers, result, citations)
        self._workings[step.path] = working
        return working


def _of_country(step: Step, quantity: DerivedQuantity) -> str:
    """Return the name of a country's own quantity that gave the value of one; "" if none did."""
    choice = step.parts[0]
    for override in reversed(quantity.overridden):  # the last is the outermost choice
        condition, _, otherwise = choice.parts
        if condition.value is True:
            return override.other
        choice = otherwise
    return ""


def open_facts(
    paths: Iterable[str],
    item_label: ItemLabel,
    limits: Mapping[str, str] | None = None,
    find: Find | None = None,
    is_begun: Callable[[str], bool] = lambda _: False,
) -> tuple[Open, ...]:
    """Return what to ask about facts that are not known, sorted by path.

    Args:
        paths: Their paths.
        item_label: Says what a list item is called that a path runs through.
        limits: What each will be held against, where that is known.
        find: Finds what to ask for a path; the schema of a job if left out.
        is_begun: Says whether something stands in a list already, so that more of it is asked for.
    """
    find_part = find or entry_at
    return tuple(
        _more_of(path, item_label, find_part)
        if is_begun(path)
        else _open(path, item_label, (limits or {}).get(path, ""), find_part)
        for path in sorted(paths)
    )


def _stand_in(step: Step, wording: Wording) -> str:
    """Say what stands in for a fact: a value, a fact or quantity by its name, or a sum."""
    while isinstance(step.node, t.Choice | t.Assumed):
        step = source_of(step)
    if isinstance(step.node, t.Read | t.Derived):
        return f"{wording.phrase(step)} stands in"
    verb = "taken as" if isinstance(step.node, t.Constant) else "worked out as"
    return f"{verb} {wording.shown(step)}"


def awaited(applies: Step, item_label: ItemLabel) -> list[str]:
    """Return what is not known yet and a rule is not asked before, as `once_known` says it.

    Args:
        applies: The step of the condition under which the rule is asked.
        item_label: Says what a list item is called that a path runs through.
    """
    match applies.node:
        case t.Logic(word="and"):
            return [label for part in applies.parts for label in awaited(part, item_label)]
        case t.Known() if applies.value is False and applies.parts and applies.parts[0].needs:
            return [_unknown_label(applies.parts[0], item_label)]
    return []


def _unknown_label(step: Step, item_label: ItemLabel) -> str:
    """Return what a fact or quantity without a value is called, or the facts it waits for.

    What only an obstacle stands in the way of, and no fact left out, has no label here.
    """
    if step.path and (step.needs or isinstance(step.node, t.Read)):
        labels = [getattr(step.node, "label", "")]
    else:
        labels = [label_of(path) for path in sorted(step.needs)]
    item = item_label(step.path)
    return f"{', '.join(labels)} ({item})" if item and labels else ", ".join(labels)


def label_of(path: str) -> str:
    """Return the label of a fact by its path, positions or not."""
    part = entry_at(path)
    return part.label if part else words(path.rpartition(".")[2])


def item_label(facts: Facts, path: str) -> str:
    """Return what the list item is called that a path runs through, or nothing."""
    place, bracket, _ = path.rpartition("]")
    return facts.names.get(place + bracket, "") if bracket else ""


def _open(path: str, item_label: ItemLabel, limit: str, find: Find) -> Open:
    part = find(path)
    assert part is not None, path
    item = item_label(path)
    label = f"{part.label} ({item})" if item else part.label
    return Open(path, label, part.question, part.how, part.who, limit)


def _more_of(path: str, item_label: Callable[[str], str], find: Find) -> Open:
    """Return what to ask about a list that need not be all there is."""
    items = _open(path, item_label, "", find)
    return Open(
        path,
        f"whether more {items.label} are to be listed",
        f"Are there more {items.label} than those listed?",
        f"Add what is missing; then name {without_positions(path)} in job.complete_lists.",
        items.who,
        "",
    )


def _used_first(steps: Iterable[Step]) -> Iterator[Step]:
    """Give the facts, fallbacks and quantities an outcome rests on: these behind what they use.

    What a step that was not needed is made of is left out. A quantity that many others use has
    one step below them all, which is gone through once.
    """
    visited: set[int] = set()
    ahead = [(step, False) for step in reversed(list(steps)) if step.needed]
    while ahead:
        step, parts_told = ahead.pop()
        if parts_told:
            yield step
        elif id(step) not in visited:
            visited.add(id(step))
            if isinstance(step.node, t.Read | t.Assumed | t.Known):
                yield step
            elif isinstance(step.node, t.Derived):
                ahead.append((step, True))
            if step.parts:
                ahead.extend([(part, False) for part in reversed(step.parts) if part.needed])
