"""The folders that are installed with the program: the rules and the sample jobs."""

from __future__ import annotations

import os
import re
import sys
from pathlib import Path

_PACKAGE = Path(__file__).resolve().parents[1]


def bundled_folder(name: str) -> Path:
    """Return a folder that is installed with the program.

    Args:
        name: ``rules`` or ``sample_jobs``.

    Returns:
        The folder inside the installed package, or, in a work tree, the one at its top.
    """
    inside = _PACKAGE / name
    return inside if inside.is_dir() else _PACKAGE.parents[1] / name


# As PEP 440 writes versions (from memory); a folder with any other name is ignored, as it need not
# come from an installer.
_INSTALLED = re.compile(r"tundish-([0-9][0-9A-Za-z.!+_-]*)\.dist-info")


def installed_version() -> str | None:
    """Return the version of the installed program, or None in a bare work tree.

    An installer writes it into the name of a folder beside the package. The standard library's
    module for that takes as long to import as the whole language of the rules.
    """
    for place in sys.path:
        try:
            names = os.listdir(place or ".")
        except OSError:
            continue
        for name in names:
            match = _INSTALLED.fullmatch(name)
            if match:
                return match[1]
    return None
