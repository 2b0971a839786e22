"""Fuzzing: `.venv/bin/python tests/fuzzing [TARGET...] [--seconds S] [--inputs N] [--engine E]`.

Tells how many inputs each target took and what broke a promise, and saves that in the corpus.
"""

from __future__ import annotations

import argparse
import os
import sys
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent.parent))
os.environ["TUNDISH_CACHE"] = "off"

from fuzzing.engines import ENGINES, INTO, in_atheris
from fuzzing.running import Tried

AGREEMENT = "agreement"


def main() -> int:
    """Try what was asked; return 1 if anything was found."""
    if INTO in os.environ:
        in_atheris(lambda: _target(sys.argv[1]))
    from fuzzing.targets import TARGETS

    parser = argparse.ArgumentParser(prog="tests/fuzzing", description=__doc__)
    parser.add_argument(
        "targets", nargs="*", metavar="TARGET", help=f"{', '.join(TARGETS)}, {AGREEMENT}"
    )
    parser.add_argument("--seconds", type=float, default=None, help="for each target (10)")
    parser.add_argument("--inputs", type=int, default=None, help="for each target, at most")
    parser.add_argument("--engine", choices=ENGINES, default="seed", help="where chance comes from")
    parser.add_argument("--seed", type=int, default=time.time_ns() % 10**9)
    parser.add_argument("--keep", action="store_true", help="keep inputs that fared anew, too")
    asked = parser.parse_args()
    unknown = [name for name in asked.targets if name not in (*TARGETS, AGREEMENT)]
    if unknown:
        parser.error(
            f"there is no target {unknown[0]}; there are {', '.join(TARGETS)}, {AGREEMENT}"
        )
    endless = float("inf") if asked.inputs else 10.0
    seconds = endless if asked.seconds is None else asked.seconds
    print(f"seed {asked.seed}, chance by {asked.engine}")
    found = 0
    for name in asked.targets or (*TARGETS, AGREEMENT):
        if name == AGREEMENT:
            found += _agree(seconds, asked.inputs or sys.maxsize, asked.seed)
        else:
            found += _try(name, seconds, asked)
    return int(found > 0)


def _target(name: str) -> Tried:
    from fuzzing.targets import TARGETS

    return Tried(TARGETS[name])


def _try(name: str, seconds: float, asked: argparse.Namespace) -> int:
    tried, start = _target(name), time.monotonic()
    ENGINES[asked.engine](tried, min(seconds, 1e9), asked.inputs or sys.maxsize, asked.seed)
    took = time.monotonic() - start
    accepted = sum(count for way, count in tried.fared.items() if way.startswith("accepted"))
    share = accepted / max(1, sum(tried.fared.values()))
    print(
        f"{name:<12} {tried.inputs:>9,} inputs in {took:7.1f} s; {share:4.0%} accepted, "
        f"{len(tried.fared)} ways to fare; {len(tried.findings)} findings",
        flush=True,
    )
    tried.shortened()
    paths = tried.save(asked.keep)
    for (place, (text, trace)), path in zip(tried.findings.items(), paths, strict=True):
        print(f"  {place}\n    saved in {path}\n    {text[:300]!r}\n{trace}")
    return len(tried.findings)


def _agree(seconds: float, inputs: int, seed: int) -> int:
    from random import Random

    from fuzzing.agreement import rounds

    pairs, found, start = 0, [], time.monotonic()
    for more, disagreements in rounds(Random(seed)):
        pairs += more
        found += disagreements
        if pairs >= inputs or time.monotonic() - start > seconds or len(found) > 20:
            break
    took = time.monotonic() - start
    print(
        f"{AGREEMENT:<12} {pairs:>9,} pairs of rule and job in {took:7.1f} s; {len(found)} findings"
    )
    for one in found[:20]:
        print(one)
    return len(found)


sys.exit(main())
