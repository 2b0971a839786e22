"""What is fuzzed: how an input is made, and what must hold of it."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from random import Random

from tundish.text.problem import Problem, Refused

MARKS = (".", "?", "^")
"""What a sentence ends with; where an expression is shown, with the mark under the place."""


@dataclass(frozen=True, slots=True)
class Target:
    """One reader of what strangers write.

    Attributes:
        name: Its name on the command line, and of its folder in the corpus.
        make: Makes an input out of chance. An input is a text; a byte that is no UTF-8 stands in
            it as a surrogate, and several files stand in it one behind the other.
        hold: Gives an input to the reader and looks whether all holds that is promised; returns
            what came out in a few words, the same for inputs that fare alike. Whatever it raises
            is a finding.
        seconds: How much of the processor's time one input may take at most.
    """

    name: str
    make: Callable[[Random], str]
    hold: Callable[[str], str]
    seconds: float = 5.0


def told_well(refused: Refused, texts: dict[str, str] | None = None) -> str:
    """Look whether a refusal says what is wrong and where; return its first sentence in short.

    Args:
        refused: The refusal.
        texts: The texts that were read, by the name of their file.
    """
    assert refused.problems, "refused without a problem"
    assert list(refused.problems) == sorted(refused.problems), "problems out of order"
    for problem in refused.problems:
        _told_well(problem, texts or {})
    return in_short(refused.problems[0].sentence)


def _told_well(problem: Problem, texts: dict[str, str]) -> None:
    sentence_ends_well(problem.sentence)
    assert str(problem).isprintable() or "\n" in str(problem), f"unprintable: {problem!r}"
    text = texts.get(problem.file)
    if text is None or problem.line is None:
        return
    lines = text.removeprefix("\ufeff").split("\n")
    assert 1 <= problem.line <= len(lines), f"no such line: {problem!r}"
    if problem.column is not None:
        assert 1 <= problem.column <= len(lines[problem.line - 1]) + 1, f"no such column: {problem}"


def sentence_ends_well(sentence: str) -> None:
    """Look whether a text is a sentence."""
    assert sentence.strip() == sentence != "", f"no sentence: {sentence!r}"
    assert sentence.endswith(MARKS), f"no end: {sentence!r}"


def in_short(sentence: str) -> str:
    """Return a sentence without what it quotes, so that alike sentences are one."""
    first = re.sub(r"^[\w.\[\]-]+: ", "", sentence.split("\n    ", 1)[0])
    short = re.sub(r"'.*?'|\".*?\"|[0-9][0-9,.]*", "*", first, flags=re.DOTALL)
    if not re.fullmatch(r"[A-Za-z *.,:;?()/-]*", short):  # what it quotes has quotes of its own
        short = re.sub(r"'.*'|\".*\"", "*", first, flags=re.DOTALL)
    return re.sub(r"\*([ ,.or]*\*)+", "*", short)[:100]


FILE = "=== "
"""Stands before the name of each file of an input that is several."""


def as_files(text: str) -> dict[str, str]:
    """Take the files of an input apart, by name."""
    files: dict[str, str] = {}
    for part in f"\n{text}".split(f"\n{FILE}")[1:]:
        name, _, content = part.partition("\n")
        files[name] = content
    return files


def as_text(files: dict[str, str]) -> str:
    """Put files together into one input."""
    return "\n".join(f"{FILE}{name}\n{content}" for name, content in files.items())


def chosen(chance: Random, options: Iterable[str]) -> str:
    """Return one of some texts."""
    return chance.choice(list(options))
