"""Measuring side by side: medians of repeats, and the machine they were taken on."""

from __future__ import annotations

import gc
import platform
import statistics
import time
from collections.abc import Callable, Mapping

REPEATS = 15


def medians(
    tasks: Mapping[str, Callable[[], object]], repeats: int = REPEATS, least: float = 0.02
) -> dict[str, float]:
    """Return how long each task takes [s], as the median of repeats.

    The tasks take turns, so that whatever else the machine does falls on all of them.

    Args:
        tasks: What to run, by name.
        repeats: How often each is measured.
        least: How long one measurement lasts at least [s]; a short task is run many times in it.
    """
    # What was made to be measured is no waste; looking through it would be measured with each task.
    gc.collect()
    gc.freeze()
    rounds = {}
    for name, task in tasks.items():
        task()  # what is made when it is first asked for is not measured
        start = time.perf_counter()
        task()
        rounds[name] = max(1, int(least / max(time.perf_counter() - start, 1e-7)))
    taken: dict[str, list[float]] = {name: [] for name in tasks}
    for _ in range(repeats):
        for name, task in tasks.items():
            start = time.perf_counter()
            for _ in range(rounds[name]):
                task()
            taken[name].append((time.perf_counter() - start) / rounds[name])
    return {name: statistics.median(times) for name, times in taken.items()}


def machine() -> str:
    """Name the machine and the Python that were measured."""
    return f"{platform.machine()} {platform.system()}, Python {platform.python_version()}"


def told(title: str, times: Mapping[str, float], base: str, wanted: Mapping[str, float]) -> None:
    """Print times and their ratios to one of them, with the ratio that is wanted at most."""
    print(f"\n{title}")
    for name, seconds in times.items():
        ratio = seconds / times[base]
        aim = f"   wanted at most {wanted[name]:g}" if name in wanted else ""
        print(f"  {name:<46} {1e6 * seconds:>12.1f} us   {ratio:>8.2f} x{aim}")


def worst(title: str, ratios: Mapping[str, float], wanted: float) -> None:
    """Print the greatest of the ratios, with what it was measured on and what is wanted at most."""
    name = max(ratios, key=lambda each: ratios[each])
    print(f"\n{title}: at worst {ratios[name]:.2f} x ({name})   wanted at most {wanted:g}")
