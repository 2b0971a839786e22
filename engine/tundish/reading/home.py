"""Where the folders that travel with the program are: the rules and the sample jobs."""

from __future__ import annotations

from pathlib import Path

_PACKAGE = Path(__file__).resolve().parents[1]


def travelling_folder(name: str) -> Path:
    """Return a folder that travels with the program.

    Args:
        name: ``rules`` or ``sample_jobs``.

    Returns:
        The folder inside the installed package, or, in a work tree, the one at its top.
    """
    inside = _PACKAGE / name
    return inside if inside.is_dir() else _PACKAGE.parents[1] / name
