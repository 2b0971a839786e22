"""What a portfolio comes to: counts that add up over its parts."""

from __future__ import annotations

from collections import Counter
from dataclasses import field
from typing import Any, Literal, TypeAlias

from tundish.findings.assess import digest_of, program_version
from tundish.groundwork.dataclass import dataclass
from tundish.job.facts import Facts
from tundish.rulebook.rulebook import Rulebook

Form: TypeAlias = Literal["", "lines", "verdicts"]
"""What is made of verdicts: nothing but counts, JSON lines, or the verdicts as they are."""


@dataclass(frozen=True, slots=True)
class Helps:
    """What changing one fact alone could do.

    Attributes:
        path: The path of the fact.
        clears: In how many jobs it could clear a breach.
        cleans: In how many it would leave nothing breached.
    """

    path: str
    clears: int
    cleans: int


@dataclass(frozen=True, slots=True)
class Remedies:
    """Which single change helps most, tried on jobs taken evenly from all.

    Attributes:
        jobs: How many jobs it was tried on.
        breaching: How many of them breach something.
        helps: What each fact could do, the one that helps most first.
    """

    jobs: int
    breaching: int
    helps: tuple[Helps, ...]


@dataclass(slots=True)
class Summary:
    """What a portfolio comes to.

    Attributes:
        jobs: How many jobs there are.
        refused: How many could not be judged.
        clean: How many breach nothing.
        breaches: How many jobs breach each rule.
        unknown: In how many jobs each fact is not known that an undecided rule reads.
        adjustable: For each fact that a breached rule lets change, in how many jobs it does.
        remedies: What changing one fact would really do, where that was tried.
    """

    jobs: int = 0
    refused: int = 0
    clean: int = 0
    breaches: Counter[str] = field(default_factory=Counter)
    unknown: Counter[str] = field(default_factory=Counter)
    adjustable: Counter[str] = field(default_factory=Counter)
    remedies: Remedies | None = None

    def add(self, other: Summary) -> None:
        """Add what another part of the portfolio came to."""
        self.jobs += other.jobs
        self.refused += other.refused
        self.clean += other.clean
        self.breaches += other.breaches
        self.unknown += other.unknown
        self.adjustable += other.adjustable


@dataclass(frozen=True, slots=True)
class JudgedPart:
    """What some rows of a table come to.

    Attributes:
        first: The number of the first row.
        rows: How many there are.
        problems: Names and sentences of the rows that could not be judged, by number of the row.
        summary: What they come to.
        output: The verdicts in the form asked for, or None.
    """

    first: int
    rows: int
    problems: dict[int, tuple[str, str]]
    summary: Summary
    output: Any


def made_from(base: Facts, rulebook: Rulebook) -> dict[str, str]:
    """Return what verdicts on a portfolio were made from: digests and version.

    Args:
        base: The facts of the job that its rows were merged over.
        rulebook: The rules.
    """
    return {
        "base_digest": digest_of(base),
        "rulebook_digest": rulebook.digest,
        "version": program_version(),
    }
