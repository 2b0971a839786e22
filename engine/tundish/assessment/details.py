"""What a finding rests on: the facts read, the quantities computed, what is still unknown."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping

from tundish.assessment.finding import Input, Open, Working
from tundish.assessment.wording import NOT_KNOWN, Wording
from tundish.job.paths import without_positions
from tundish.job.schema import job_schema
from tundish.language import tree as t
from tundish.language.step import Step
from tundish.rulebook.rule import DerivedQuantity

Place = Callable[[str], str]


def inputs_of(steps: Iterable[Step], wording: Wording, place: Place) -> tuple[Input, ...]:
    """Return the facts that were read, each once, in the order they were looked at."""
    found: dict[str, Input] = {}
    for step in _seen(steps):
        node = step.node
        if isinstance(node, t.Read) and step.value is not None and step.path not in found:
            group = node.kind.name in ("items", "record")
            if group and step.value is True:
                continue  # that it is there is said by the facts in it
            value = "none" if group else wording.shown(step)
            found[step.path] = Input(step.path, node.label, value, place(step.path))
    return tuple(found.values())


def workings_of(
    steps: Iterable[Step],
    quantities: Mapping[tuple[str, str], DerivedQuantity],
    wording: Wording,
) -> tuple[Working, ...]:
    """Return the quantities that were computed, each once, those used by others first."""
    found: dict[str, Working] = {}
    for step in reversed(list(_seen(steps))):
        node = step.node
        if not isinstance(node, t.Derived) or step.path in found:
            continue
        of = without_positions(step.path).removesuffix(node.name).rstrip(".")
        quantity = quantities[of, node.name]
        result = NOT_KNOWN if step.value is None else wording.shown(step)
        numbers = wording.numbers(step.parts[0])
        found[step.path] = Working(
            step.path, node.label, quantity.written, numbers, result, quantity.citations
        )
    return tuple(found.values())


def open_facts(paths: Iterable[str], item_label: Callable[[str], str]) -> tuple[Open, ...]:
    """Return what to ask about facts that are not known, sorted by path."""
    return tuple(_open(path, item_label) for path in sorted(paths))


def label_of(path: str) -> str:
    """Return the label of a fact by its path, positions or not."""
    part = job_schema().find(path)
    return part.label if part else path


def _open(path: str, item_label: Callable[[str], str]) -> Open:
    part = job_schema().find(path)
    assert part is not None, path
    item = item_label(path)
    label = f"{part.label} ({item})" if item else part.label
    return Open(path, label, part.question, part.how, part.who)


def _seen(steps: Iterable[Step]) -> Iterable[Step]:
    """Give every step that the outcome rests on: what a step not needed is made of is not."""
    for step in steps:
        if step.needed:
            yield step
            yield from _seen(step.parts)
