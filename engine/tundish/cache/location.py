"""Where the cache lies: the user's folder for such files, as the platform has it."""

from __future__ import annotations

import os
import sys
from pathlib import Path

SWITCH = "TUNDISH_CACHE"
"""The environment variable that turns the cache off."""

OFF = frozenset(("off", "no", "0", "false"))
"""Its values that do so, in any case."""


def folder() -> Path | None:
    """Return the folder, which need not be there yet.

    Returns:
        The folder; None where the cache is off, where there is no home, or where the platform
        has no owners and modes of files by which to tell who wrote one.
    """
    if os.environ.get(SWITCH, "").strip().lower() in OFF or not hasattr(os, "geteuid"):
        return None
    named = os.environ.get("XDG_CACHE_HOME", "")
    # The convention has it that a relative path here is no path at all.
    if named and os.path.isabs(named):
        return Path(named) / "tundish"
    try:
        home = Path.home()
    except RuntimeError:
        return None
    within = "Library/Caches" if sys.platform == "darwin" else ".cache"
    return home / within / "tundish"
