"""The names nearest to a misspelt one."""

from __future__ import annotations

import re
from collections.abc import Iterable

_ALIKE = 0.6
# A file may hold a word of a megabyte; to compare it with every name would take minutes.
_LONGEST_WORD = 100
_MOST_OFFERED = 5


def nearest(word: str, candidates: Iterable[str], most: int = 3) -> list[str]:
    """Return the candidates most like a word, the likest first, whatever their case.

    Args:
        word: The word as it was written.
        candidates: The names that would have been right.
        most: The most names to return.

    Returns:
        Names from `candidates`, unchanged; empty when none is like the word.

    Example:
        >>> nearest("minimun_flow", ["minimum_flow", "content", "connection"])
        ['minimum_flow']
    """
    if len(word) > _LONGEST_WORD:
        return []
    names: dict[str, list[str]] = {}
    for name in dict.fromkeys(candidates):
        names.setdefault(name.lower(), []).append(name)
    # Imported here, as only a misspelt word needs it.
    from difflib import get_close_matches

    lowered = word.lower()
    close = get_close_matches(lowered, names, n=max(most, 1), cutoff=_ALIKE) if most > 0 else []
    if most > 0 and not close:
        close = _with_a_part_in_common(lowered, names)
    return [name for match in close for name in names[match]][:most]


def did_you_mean(word: str, candidates: Iterable[str]) -> str:
    """Return a question that offers the nearest name, ready to end a sentence with.

    Where the word stands in that name and in others, all of these are offered, as nobody can know
    which is meant.

    Args:
        word: The word as it was written.
        candidates: The names that would have been right.

    Returns:
        `" Did you mean 'x' or 'y'?"` with a leading space, or an empty text when no name is near.

    Example:
        >>> did_you_mean("litre", ["litres", "metres"])
        " Did you mean 'litres'?"
    """
    names = list(dict.fromkeys(candidates))
    offered = nearest(word, names, most=1)
    holding = [name for name in names if _holds(name, word)] if offered else []
    if 1 < len(holding) <= _MOST_OFFERED and offered[0] in holding:
        offered = holding
    listed = " or ".join(f"'{name}'" for name in offered)
    return f" Did you mean {listed}?" if offered else ""


def _holds(name: str, word: str) -> bool:
    """Return whether a name holds a word, as whole words of its own."""
    return f" {_spaced(word)} " in f" {_spaced(name)} "


def _spaced(name: str) -> str:
    return re.sub(r"[_.\s-]+", " ", name.lower()).strip()


def _with_a_part_in_common(word: str, names: Iterable[str]) -> list[str]:
    """Return names that hold the word, or that the word holds, as whole words ("flow")."""
    from difflib import SequenceMatcher

    parts = set(word.replace("_", " ").replace("-", " ").split())
    sharing = [name for name in names if parts and _parts(name) & parts]
    return sorted(sharing, key=lambda name: (-SequenceMatcher(None, word, name).ratio(), name))


def _parts(name: str) -> set[str]:
    """Return the words of a name, short ones that mean little left out."""
    words = name.replace("_", " ").replace("-", " ").replace(".", " ").split()
    return {word for word in words if len(word) > 3}
