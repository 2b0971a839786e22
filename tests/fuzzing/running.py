"""Trying inputs of one target for a while, and keeping what breaks a promise."""

from __future__ import annotations

import hashlib
import resource
import signal
import time
import traceback
from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path
from types import FrameType
from typing import NoReturn

from fuzzing.target import Target

CORPUS = Path(__file__).parent / "corpus"
MOST_MEMORY = 300_000
"""How much the memory that is held may grow by one input [KiB]."""

_PATIENCE = 24
"""How much longer by the clock than by the processor one input may take."""

LONGEST_KEPT = 1_500
"""Characters of an input that is kept because it fared as none before."""

MOST_KEPT = 30
"""Inputs of one target that are kept at once for faring as none before."""


class TooSlow(Exception):  # noqa: N818 - it reads as the sentence it is
    """An input takes longer than its target allows."""


class TooMuchMemory(Exception):  # noqa: N818 - it reads as the sentence it is
    """An input takes more memory than any may."""


@dataclass(slots=True)
class Tried:
    """What came of trying one target.

    Attributes:
        target: The target.
        inputs: How many inputs were tried.
        fared: How often inputs fared in each way.
        kept: The shortest input that fared in each way.
        findings: What broke a promise: by where it was raised, the shortest input and the trace.
    """

    target: Target
    inputs: int = 0
    fared: Counter[str] = field(default_factory=Counter)
    kept: dict[str, str] = field(default_factory=dict)
    findings: dict[str, tuple[str, str]] = field(default_factory=dict)

    def one(self, text: str) -> None:
        """Try an input."""
        self.inputs += 1
        try:
            way = bounded(self.target, text)
        except KeyboardInterrupt:
            raise
        except BaseException as error:  # a promise is broken, whatever it is
            place = where(error)
            if place not in self.findings or len(text) < len(self.findings[place][0]):
                self.findings[place] = (text, traceback.format_exc(limit=-8))
            return
        self.fared[way] += 1
        if len(text) < len(self.kept.get(way, "")) or way not in self.kept:
            self.kept[way] = text

    def shortened(self, seconds: float = 10.0) -> None:
        """Make what was found as short as a while allows."""
        for place, (text, trace) in self.findings.items():
            self.findings[place] = (_shortened(self._fares, text, place, seconds), trace)

    def _fares(self, text: str) -> str:
        """Return how an input fares, or where it breaks a promise."""
        try:
            return bounded(self.target, text)
        except KeyboardInterrupt:
            raise
        except BaseException as error:  # as above
            return where(error)

    def save(self, interesting: bool) -> list[Path]:
        """Write what was found into the corpus; and inputs that fared anew, if asked."""
        found = [_write(self.target, text) for text, _ in self.findings.values()]
        if interesting:
            # What came up seldom is what chance would hardly make again.
            seldom = sorted(
                self.kept, key=lambda way: (not way.startswith("accepted"), self.fared[way])
            )
            for way in seldom[:MOST_KEPT]:
                text = _shortened(self._fares, self.kept[way], way, seconds=3.0)
                if len(text) <= LONGEST_KEPT:
                    _write(self.target, text)
        return found


def bounded(target: Target, text: str) -> str:
    """Try an input within its bounds of time and memory."""
    before = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    # Of the processor's time, so that it makes no difference what else the machine does; and of
    # the clock's, many times as long, for what waits without working.
    for timer, number, seconds in (
        (signal.ITIMER_PROF, signal.SIGPROF, target.seconds),
        (signal.ITIMER_REAL, signal.SIGALRM, target.seconds * _PATIENCE),
    ):
        signal.signal(number, _too_slow)
        signal.setitimer(timer, seconds)
    try:
        way = target.hold(text)
    finally:
        signal.setitimer(signal.ITIMER_PROF, 0)
        signal.setitimer(signal.ITIMER_REAL, 0)
    grown = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss - before
    if grown > MOST_MEMORY:
        raise TooMuchMemory(f"{grown} KiB")
    return way


def _too_slow(number: int, frame: FrameType | None) -> NoReturn:
    raise TooSlow


def where(error: BaseException) -> str:
    """Say what was raised and where, so that one fault is told once."""
    frames = traceback.extract_tb(error.__traceback__)
    ours = [frame for frame in frames if "tundish" in frame.filename] or list(frames)
    if isinstance(error, TooSlow | RecursionError):  # it is met anywhere on its way
        return type(error).__name__
    last = frames[-1]
    inner = ours[-1]
    return (
        f"{type(error).__name__} in {Path(inner.filename).name}:{inner.lineno}, "
        f"{Path(last.filename).name}:{last.lineno}"
    )


def _shortened(fares: Callable[[str], str], text: str, way: str, seconds: float) -> str:
    """Leave out of an input what does not matter to how it fares."""
    until = time.monotonic() + seconds
    size = max(1, len(text) // 2)
    while size and time.monotonic() < until:
        at, smaller = 0, text
        while at < len(smaller) and time.monotonic() < until:
            trial = smaller[:at] + smaller[at + size :]
            if fares(trial) == way:
                smaller = trial
            else:
                at += size
        if smaller == text:
            size //= 2
        text = smaller
    return text


def _write(target: Target, text: str) -> Path:
    content = text.encode("utf-8", "surrogateescape")
    path = CORPUS / target.name / f"{hashlib.sha256(content).hexdigest()[:12]}.txt"
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_bytes(content)
    return path


def cases(target: Target) -> list[Path]:
    """Return the inputs that the corpus keeps of a target."""
    return sorted((CORPUS / target.name).glob("*.txt"))


def read_case(path: Path) -> str:
    """Return an input of the corpus."""
    return path.read_bytes().decode("utf-8", "surrogateescape")
