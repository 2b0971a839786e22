"""Taking answers: at a terminal with words completed, from a pipe a line each."""

from __future__ import annotations

import os
import sys
from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from prompt_toolkit import PromptSession

_PROMPT = "> "
_LONGEST = 100_000
"""Characters of a line that are read at once; no answer is as long."""


class Answers:
    """Takes one answer after the other from standard input."""

    def __init__(self) -> None:
        self._session: PromptSession[str] | None = None
        if sys.stdin.isatty() and sys.stdout.isatty():
            self._session = _session()
        elif hasattr(sys.stdin, "reconfigure"):
            # What is no UTF-8 reaches whoever reads the answer, who refuses it by a sentence.
            sys.stdin.reconfigure(errors="surrogateescape")

    def next(self, words: Sequence[str]) -> str | None:
        """Return the next answer, or None where there is none any more.

        Args:
            words: What may be completed, where somebody types.
        """
        if self._session is not None:
            return _typed(self._session, words)
        sys.stdout.write(_PROMPT)
        sys.stdout.flush()
        line = sys.stdin.readline(_LONGEST)
        answer = line.rstrip("\r\n") if line else None
        # Nobody sees what came out of a pipe, unless it is shown.
        from tundish.text.escape import escape

        sys.stdout.write(f"{escape(answer or '')}\n")
        return answer


def _session() -> PromptSession[str]:
    # Loaded here, as only an interview at a terminal pays for it.
    from prompt_toolkit import PromptSession
    from prompt_toolkit.history import DummyHistory
    from prompt_toolkit.output import ColorDepth

    plain: dict[str, Any] = {"color_depth": ColorDepth.DEPTH_1_BIT}
    return PromptSession(history=DummyHistory(), **(plain if os.environ.get("NO_COLOR") else {}))


def _typed(session: PromptSession[str], words: Sequence[str]) -> str | None:
    from prompt_toolkit.completion import WordCompleter

    completer = WordCompleter(list(words), ignore_case=True, sentence=True) if words else None
    try:
        return session.prompt(_PROMPT, completer=completer, complete_while_typing=False)
    except EOFError:
        return None
