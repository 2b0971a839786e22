"""Where chance comes from: a seed, hypothesis, or atheris, which is led by what is reached."""

from __future__ import annotations

import os
import re
import subprocess
import sys
import time
from collections.abc import Callable
from random import Random

from fuzzing.running import Tried

INTO = "TUNDISH_FUZZING"


def by_seed(tried: Tried, seconds: float, inputs: int, seed: int) -> None:
    """Try inputs made from a seed: the quickest, and the same again for the same seed."""
    chance, until = Random(seed), time.monotonic() + seconds
    while tried.inputs < inputs and time.monotonic() < until:
        tried.one(tried.target.make(chance))


def by_hypothesis(tried: Tried, seconds: float, inputs: int, seed: int) -> None:
    """Try inputs whose chance hypothesis plays, which turns back to what was odd."""
    import hypothesis
    from hypothesis import strategies

    until = time.monotonic() + seconds
    chances = strategies.randoms(use_true_random=False)

    @hypothesis.settings(
        max_examples=200,
        deadline=None,
        database=None,
        suppress_health_check=list(hypothesis.HealthCheck),
    )
    @hypothesis.given(chances)
    def try_one(chance: Random) -> None:
        text = tried.target.make(chance)  # it must not hang on the clock how much is drawn
        if tried.inputs < inputs and time.monotonic() < until:
            tried.one(text)

    while tried.inputs < inputs and time.monotonic() < until:
        hypothesis.seed(seed)(try_one)()
        seed += 1


class _ChanceOfBytes(Random):
    """Chance that is played by the bytes of an input."""

    def __init__(self, data: bytes) -> None:
        self._bits, self._left = int.from_bytes(data, "big"), 8 * len(data)
        # Drawing without putting back never ends on zeros alone.
        self._after = Random(self._bits)
        super().__init__(0)

    def getrandbits(self, count: int) -> int:
        """Return the next bits; those of a seed when none are left."""
        if self._left < count:
            return self._after.getrandbits(count)
        self._left -= count
        return (self._bits >> self._left) & ((1 << count) - 1)

    def random(self) -> float:
        """Return a number from 0 up to 1."""
        return self.getrandbits(16) / 65536


def by_atheris(tried: Tried, seconds: float, inputs: int, seed: int) -> None:
    """Try inputs led by which lines of the program they reach.

    Atheris ends its process when it is done, so it gets one of its own, and tells what came out.
    """
    command = [sys.executable, os.path.dirname(__file__), tried.target.name]
    asked = {**os.environ, INTO: f"{int(seconds) or 1} {inputs} {seed}"}
    told = subprocess.run(command, env=asked, capture_output=True, text=True, errors="replace")
    done = re.findall(r"^(?:#|Done )(\d+)", told.stderr, re.MULTILINE)
    tried.inputs = max(map(int, done), default=0)
    for line in told.stdout.splitlines():
        if line.startswith("FOUND "):
            tried.one(bytes.fromhex(line[6:]).decode("utf-8", "surrogateescape"))
    if not done:
        raise SystemExit(f"atheris does not run here:\n{told.stderr[-2000:]}")


def in_atheris(make_target: Callable[[], Tried]) -> None:
    """Run as the process that `by_atheris` starts."""
    import atheris

    seconds, inputs, seed = os.environ[INTO].split()
    with atheris.instrument_imports(include=["tundish"]):
        tried = make_target()
    told: set[str] = set()

    def try_one(data: bytes) -> None:
        tried.one(tried.target.make(_ChanceOfBytes(data)))
        for place, (text, _) in tried.findings.items():
            if place not in told:
                told.add(place)
                print("FOUND", text.encode("utf-8", "surrogateescape").hex(), flush=True)

    options = [f"-max_total_time={seconds}", f"-runs={inputs}", f"-seed={seed}", "-max_len=400"]
    atheris.Setup([sys.argv[0], *options, "-timeout=60", "-rss_limit_mb=0"], try_one)
    atheris.Fuzz()


ENGINES = {"seed": by_seed, "hypothesis": by_hypothesis, "atheris": by_atheris}
