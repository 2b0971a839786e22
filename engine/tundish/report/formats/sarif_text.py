"""Messages in SARIF: no text of a job becomes a link or a blank to be filled in."""

from __future__ import annotations

from typing import Any

from tundish.text.escape import escape


def message(text: str) -> dict[str, Any]:
    r"""Return text as a message.

    Args:
        text: Any text.

    Example:
        >>> message("see [here](https://invalid)")["text"]
        'see \\[here\\](https://invalid)'
    """
    escaped = escape(text).replace("{", "{{").replace("}", "}}")
    # Brackets are markup only before a link; escaped apart everywhere, viewers that read messages
    # as plain text would show a backslash in every list.
    if "](" in escaped:
        escaped = escaped.replace("[", "\\[").replace("]", "\\]")
    return {"text": escaped}
