"""Text of strangers in Markdown: said in full, and never taken for markup or made a link."""

from __future__ import annotations

import re

from tundish.text.escape import escape

_MARKS = re.compile(r"[\\`*\[\]<>&|~$#{}]|(?<![^\W_])_|_(?![^\W_])")
"""What can begin or end markup wherever it stands; a line below within a word cannot."""

_LIST_MARK = re.compile(r"[-+](?=[-+ ]|$)")
_NUMBER_FIRST = re.compile(r"[0-9]{1,9}[.)]")

_TURNED_INTO_MORE = re.compile(r"://|www\.|@|mailto:|xmpp:|#[0-9]|:[\w+-]+:", re.IGNORECASE)
"""What some readers turn into a link, a name called out to or a picture, though no mark is there;
a backslash does not keep them from it, being told as code does."""


def in_markdown(text: str) -> str:
    r"""Return text escaped, so that the page shows exactly this text, on one line.

    Args:
        text: Any text, such as the title of a job.

    Example:
        >>> in_markdown("[see](here) *now*")
        '\\[see\\](here) \\*now\\*'
    """
    return _without_list_mark(" ".join(_word(word) for word in escape(text).split()))


def as_code(text: str) -> str:
    """Return text as code within a line."""
    row = escape(text)
    fence = "`" * (longest_run(row) + 1)
    pad = " " if row.startswith("`") or row.endswith("`") else ""
    return f"{fence}{pad}{row}{pad}{fence}"


def longest_run(text: str) -> int:
    """Return how many backticks stand in a row at most."""
    return max((len(run) for run in re.findall("`+", text)), default=0)


def _word(word: str) -> str:
    if _TURNED_INTO_MORE.search(word):
        return as_code(word)
    return _MARKS.sub(lambda mark: f"\\{mark[0]}", word)


def _without_list_mark(text: str) -> str:
    """Escape a first word that Markdown would read as a list item or a line across the page."""
    first = text.split(" ", 1)[0]
    if _NUMBER_FIRST.fullmatch(first):
        return f"{first[:-1]}\\{first[-1]}{text[len(first) :]}"
    return f"\\{text}" if _LIST_MARK.match(text) else text
