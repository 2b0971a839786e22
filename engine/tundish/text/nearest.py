"""The names nearest to a misspelt one."""

from __future__ import annotations

import re
from collections import Counter
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
    lowered = word.lower()
    close = _close(lowered, names, most) if most > 0 else []
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
    if offered and _holds(offered[0], word):
        holding = [name for name in names if _holds(name, word)]
        offered = holding if len(holding) <= _MOST_OFFERED else offered
    listed = " or ".join(f"'{name}'" for name in offered)
    return f" Did you mean {listed}?" if offered else ""


def _holds(name: str, word: str) -> bool:
    """Return whether a name holds a word, as whole words of its own."""
    return f" {_spaced(word)} " in f" {_spaced(name)} "


def _spaced(name: str) -> str:
    return re.sub(r"[_.\s-]+", " ", name.lower()).strip()


def _close(word: str, names: Iterable[str], most: int) -> list[str]:
    """Return what `difflib.get_close_matches` would, at a small part of its cost.

    The letters that two words have in common bound how alike they are. Names are compared in full
    only down to the bound that the nearest ones leave open.
    """
    # Imported here, as only a misspelt word needs it.
    from difflib import SequenceMatcher

    letters, matcher = Counter(word).items(), SequenceMatcher(b=word)
    bounds = []
    for name in names:
        length = len(word) + len(name) or 1
        if 2.0 * min(len(word), len(name)) / length >= _ALIKE:
            common = sum([min(count, name.count(letter)) for letter, count in letters])
            bounds.append((2.0 * common / length, name))
    close: list[tuple[float, str]] = []
    for bound, name in sorted(bounds, reverse=True):
        if bound < (close[-1][0] if len(close) == most else _ALIKE):
            break
        matcher.set_seq1(name)
        close.append((matcher.ratio(), name))
        close = sorted((pair for pair in close if pair[0] >= _ALIKE), reverse=True)[:most]
    return [name for _, name in close]


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
