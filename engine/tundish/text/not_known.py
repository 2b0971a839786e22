"""Words that people write where something is not known."""

from __future__ import annotations

import re

_WORDS = re.compile(
    r"(?:null|nil|unknown|not (?:yet )?known|unclear|to be confirmed|tbc|tbd|n/a|\?+|-+)",
    re.IGNORECASE,
)


def says_not_known(text: str) -> bool:
    """Return whether a text only says that something is not known.

    Args:
        text: What was written in place of a value.

    Example:
        >>> says_not_known("tbc"), says_not_known("none")
        (True, False)
    """
    return _WORDS.fullmatch(text.strip()) is not None
