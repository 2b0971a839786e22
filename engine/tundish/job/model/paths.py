"""Paths of facts, as text for people and as a way into data."""

from __future__ import annotations

import re
from collections.abc import Iterable

from tundish.text.quoted import printable

_STEP = re.compile(r"([^.\[\]]+)((?:\[[1-9][0-9]*\])*)")


def path_text(path: Iterable[str | int]) -> str:
    """Return a path as people write it, with list positions counted from 1.

    Args:
        path: Keys, and positions in lists counted from 0.

    Returns:
        The path in dotted form.

    Example:
        >>> path_text(("electricity", "circuit", 1, "device"))
        'electricity.circuit[2].device'
    """
    text = ""
    for step in path:
        if isinstance(step, int):
            text += f"[{step + 1}]"
        else:
            text += f".{printable(step)}" if text else printable(step)
    return text


def path_steps(text: str) -> tuple[str | int, ...]:
    """Return the steps of a path written as text.

    Args:
        text: A dotted path, with list positions counted from 1.

    Returns:
        Keys, and positions in lists counted from 0.

    Example:
        >>> path_steps("electricity.circuit[2].device")
        ('electricity', 'circuit', 1, 'device')
    """
    steps: list[str | int] = []
    for name, positions in _STEP.findall(text):
        steps.append(name)
        steps.extend(int(number) - 1 for number in re.findall(r"[0-9]+", positions))
    return tuple(steps)


def outer_paths(path: str) -> list[str]:
    """Return the paths of the groups and lists around a fact, the outermost first.

    Example:
        >>> outer_paths("water.frost.glycol.fraction")
        ['water', 'water.frost', 'water.frost.glycol']
    """
    steps = path.split(".")
    return [".".join(steps[:depth]) for depth in range(1, len(steps))]


def without_positions(text: str) -> str:
    """Return a path without list positions, as the schema has it.

    Args:
        text: A dotted path.

    Returns:
        The path, its positions left out.

    Example:
        >>> without_positions("electricity.circuit[2].device")
        'electricity.circuit.device'
    """
    return re.sub(r"\[[0-9]+\]", "", text)
