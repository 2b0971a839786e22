"""Finding facts by words: those of their paths and labels, their questions, their rules."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from functools import cache

from tundish.groundwork.dataclass import dataclass
from tundish.job.hints import measure_of_pipe
from tundish.job.model.paths import without_positions
from tundish.job.model.schema import Asked, Fact, below
from tundish.job.schema import job_schema
from tundish.rulebook.rulebook import Rulebook
from tundish.rulebook.search.readers import Readers
from tundish.text.nearest import nearest

_LEAST_START = 3
"""Letters of a word that must be there for it to stand for a longer one."""

_ENDINGS = ("ies", "ing", "ed", "es", "s", "e", "y")
"""What forms of one word differ in."""


@dataclass(frozen=True, slots=True)
class SearchResult:
    """What a search for facts came to.

    Attributes:
        facts: Facts, groups and lists, those first that fit best.
        counts: The words, each with how many facts have it, where none has all of them.
        near: Words like those that no fact has.
    """

    facts: tuple[Asked, ...]
    counts: tuple[tuple[str, int], ...] = ()
    near: tuple[str, ...] = ()


def every_fact(rulebook: Rulebook) -> list[Asked]:
    """Return all facts, groups and lists of a job, and then the facts of packs."""
    return [*below(job_schema()), *(declared.fact for declared in rulebook.declared.values())]


def find_facts(words: Sequence[str], rulebook: Rulebook, readers: Readers) -> SearchResult:
    """Find facts by words, all of which must fit, by a path or by a topic.

    Args:
        words: The words, in any case and form; or one path, or one topic.
        rulebook: The facts that packs declare, and the rules.
        readers: Which rules read which fact.

    Returns:
        The facts; a path or a topic whose name is no plain word finds its own alone.
    """
    whole = without_positions("".join(words)) if len(words) == 1 else ""
    named = rulebook.asked(whole) if whole else None
    own = [] if named is None else [named, *below(named)]
    if own and "." in whole:
        return SearchResult(tuple(own))
    index = [_IndexEntry(asked, readers) for asked in every_fact(rulebook)]
    topic = "-".join(words).lower()
    if "-" in topic and topic in rulebook.topics():
        return SearchResult(tuple(entry.asked for entry in index if topic in entry.topics))
    parts = [part for word in words for part in _words(without_positions(word))]
    ranked = [(rank, entry.asked) for entry in index if (rank := entry.rank(parts)) is not None]
    ranked.sort(key=lambda pair: pair[0])
    facts = {asked.path: asked for asked in (*own, *(asked for _, asked in ranked))}
    return SearchResult(tuple(facts.values())) if facts else _no_match(parts, index)


def _no_match(words: Sequence[str], index: Sequence[_IndexEntry]) -> SearchResult:
    counts = tuple((word, sum(entry.rank([word]) is not None for entry in index)) for word in words)
    spellings = dict.fromkeys(word for entry in index for word in entry.words())
    known = [word for word in spellings if len(word) >= _LEAST_START]
    near = [other for word, count in counts if not count for other in nearest(word, known)]
    return SearchResult((), counts, tuple(dict.fromkeys(near)))


class _IndexEntry:
    """A fact with its words, those that say most of it first."""

    def __init__(self, asked: Asked, readers: Readers) -> None:
        rules = readers.rules.get(asked.path, ())
        titles = " ".join(rule.definition.title for rule in rules if rule.directly)
        self.asked = asked
        self.topics = frozenset(rule.definition.topic for rule in rules)
        outer, _, last = asked.path.rpartition(".")
        choices = " ".join(asked.choices) if isinstance(asked, Fact) else ""
        self._is_measure = measure_of_pipe(asked) is asked
        self._levels = (
            _forms(last if self._is_measure else f"{last} {asked.label}"),
            _forms(outer),
            _forms(asked.question),
            _forms(f"{choices} {asked.how}"),
            _forms(f"{titles} {' '.join(self.topics)}"),
        )

    def rank(self, words: Sequence[str]) -> int | None:
        """Return how well all words fit, 0 being best; None if one does not."""
        levels = [self._level(stem(word)) for word in words]
        if self._is_measure and 0 not in levels:
            return None  # or a search for pipes would list five measures of each
        known = [level for level in levels if level is not None]
        return sum(known) if known and len(known) == len(levels) else None

    def words(self) -> Iterator[str]:
        """Give its words as they are spelled."""
        for level in self._levels:
            yield from level.values()

    def _level(self, form: str) -> int | None:
        for at, level in enumerate(self._levels):
            if form in level:
                return 2 * at
            if len(form) >= _LEAST_START and any(other.startswith(form) for other in level):
                return 2 * at + 1
        return None


def _forms(text: str) -> dict[str, str]:
    """Return the words of a text by their stems."""
    return {stem(word): word for word in _words(text)}


def _words(text: str) -> list[str]:
    return re.findall(r"[a-z0-9]+", text.lower())


@cache
def stem(word: str) -> str:
    """Return an approximate stem, which the forms of a word have in common.

    Example:
        >>> stem("Pipes"), stem("pipe"), stem("heating")
        ('pip', 'pip', 'heat')
    """
    word = word.lower()
    for ending in _ENDINGS:
        if word.endswith(ending) and len(word) - len(ending) >= _LEAST_START:
            return stem(word[: -len(ending)]) if ending in ("s", "es") else word[: -len(ending)]
    return word
