"""What a finding rests on: the facts read, the quantities computed, what is still unknown."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping

from tundish.findings.finding import Input, Open, Working
from tundish.findings.phrases import NOT_KNOWN, Wording, source_of
from tundish.job.facts import Facts
from tundish.job.model.paths import without_positions
from tundish.job.model.schema import Asked, words
from tundish.job.schema import job_schema
from tundish.language.evaluate.step import Step
from tundish.language.tree import tree as t
from tundish.rulebook.model.rule import DerivedQuantity

Place = Callable[[str], str]
Find = Callable[[str], Asked | None]


def inputs_of(steps: Iterable[Step], wording: Wording, place: Place) -> tuple[Input, ...]:
    """Return the facts that were read, each once, in the order they were looked at."""
    inputs: dict[str, Input] = {}
    for step in _seen(steps):
        node = step.node
        if isinstance(node, t.Read) and step.value is not None and step.path not in inputs:
            group = node.kind.name in ("items", "record")
            if group and step.value is True:
                continue  # that it is there is said by the facts in it
            value = "none" if group else wording.shown(step)
            inputs[step.path] = Input(step.path, node.label, value, place(step.path))
    return tuple(inputs.values())


def workings_of(
    steps: Iterable[Step],
    quantities: Mapping[tuple[str, str], DerivedQuantity],
    wording: Wording,
) -> tuple[Working, ...]:
    """Return the quantities that were computed, each once, those used by others first."""
    workings: dict[str, Working] = {}
    for step in _used_first(steps):
        node = step.node
        if not isinstance(node, t.Derived) or step.path in workings:
            continue
        of = without_positions(step.path).removesuffix(node.name).rstrip(".")
        quantity = quantities[of, node.name]
        result = NOT_KNOWN if step.value is None else wording.shown(step)
        numbers = wording.numbers(step.parts[0])
        formula, citations = quantity.written, quantity.citations
        if own := _of_country(step, quantity):
            formula, citations = own, quantities[of, own].citations
        workings[step.path] = Working(step.path, node.label, formula, numbers, result, citations)
    return tuple(workings.values())


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
    item_label: Callable[[str], str],
    limits: Mapping[str, str] | None = None,
    find: Find | None = None,
) -> tuple[Open, ...]:
    """Return what to ask about facts that are not known, sorted by path.

    Args:
        paths: Their paths.
        item_label: Says what a list item is called that a path runs through.
        limits: What each will be held against, where that is known.
        find: Finds what to ask for a path; the schema of a job if left out.
    """
    find_part = find or job_schema().find
    return tuple(
        _open(path, item_label, (limits or {}).get(path, ""), find_part) for path in sorted(paths)
    )


def assumptions_of(
    steps: Iterable[Step], wording: Wording, item_label: Callable[[str], str]
) -> tuple[str, ...]:
    """Return what an outcome takes for granted until it is known, each once.

    Args:
        steps: The steps of a rule whose facts are not all known.
        wording: Puts steps into words.
        item_label: Says what a list item is called that a path runs through.
    """
    found: dict[str, None] = {}
    for step in _seen(steps):
        match step.node:
            case t.Assumed() if len(step.parts) > 1 and step.value is not None:
                stands_in = f"{_stand_in(step.parts[1], wording)} stands in"
            case t.Known() if step.value is False and step.parts[0].needs:
                stands_in = "this holds until it is"
            case _:
                continue
        found[f"{_unknown_label(step.parts[0], item_label)}: not known, {stands_in}"] = None
    return tuple(found)


def _stand_in(step: Step, wording: Wording) -> str:
    """Return what stands in for a fact: its name and value, or of a sum its value alone."""
    while isinstance(step.node, t.Choice | t.Assumed):
        step = source_of(step)
    named = isinstance(step.node, t.Read | t.Derived)
    return wording.phrase(step) if named else wording.shown(step)


def awaited(applies: Step, item_label: Callable[[str], str]) -> list[str]:
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


def _unknown_label(step: Step, item_label: Callable[[str], str]) -> str:
    """Return what a fact or quantity without a value is called, or the facts it waits for."""
    labels = [getattr(step.node, "label", "")] if step.path else map(label_of, sorted(step.needs))
    item = item_label(step.path)
    return f"{', '.join(labels)} ({item})" if item else ", ".join(labels)


def label_of(path: str) -> str:
    """Return the label of a fact by its path, positions or not."""
    part = job_schema().find(path)
    return part.label if part else words(path.rpartition(".")[2])


def item_label(facts: Facts, path: str) -> str:
    """Return what the list item is called that a path runs through, or nothing."""
    place, bracket, _ = path.rpartition("]")
    return facts.names.get(place + bracket, "") if bracket else ""


def _open(path: str, item_label: Callable[[str], str], limit: str, find: Find) -> Open:
    part = find(path)
    assert part is not None, path
    item = item_label(path)
    label = f"{part.label} ({item})" if item else part.label
    return Open(path, label, part.question, part.how, part.who, limit)


def _seen(steps: Iterable[Step]) -> list[Step]:
    """Return the steps an outcome rests on, each once, in the order they were looked at.

    What a step that was not needed is made of is left out. A quantity that many others use has
    one step below them all, which is gone through once.
    """
    in_order: list[Step] = []
    visited: set[int] = set()
    ahead = [step for step in reversed(list(steps)) if step.needed]
    while ahead:
        step = ahead.pop()
        if id(step) not in visited:
            visited.add(id(step))
            in_order.append(step)
            ahead.extend(part for part in reversed(step.parts) if part.needed)
    return in_order


def _used_first(steps: Iterable[Step]) -> list[Step]:
    """Return the same steps, but each behind all it was made from."""
    in_order: list[Step] = []
    visited: set[int] = set()
    ahead = [(step, False) for step in reversed(list(steps)) if step.needed]
    while ahead:
        step, parts_told = ahead.pop()
        if parts_told:
            in_order.append(step)
        elif id(step) not in visited:
            visited.add(id(step))
            ahead.append((step, True))
            ahead.extend((part, False) for part in reversed(step.parts) if part.needed)
    return in_order
