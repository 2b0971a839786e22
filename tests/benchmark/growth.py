"""Growth: time against the number of rules and the length of lists, and a plot of it."""

from __future__ import annotations

import tempfile
from math import log10
from pathlib import Path

from measuring import medians

from tundish import Job, Rulebook
from tundish.rulebook.swift import Swift

RULES = (100, 1_000, 10_000)
ITEMS = (1, 10, 100, 1_000)

SOURCES = '[practice]\ntitle = "Invented practice"\nbasis = "common practice"\n'

RULE = """\
title    = "Invented rule {number}"
requires = "placement.height_below >= site.snow_depth + {number} mm or site.snow_depth < 1 mm"
severity = "note"
stage    = "design"
because  = "It is measured."
remedy   = "Do nothing."
cite     = [{{ source = "practice" }}]
reviewed = 2026-11-25
"""

EACH = """\
title    = "Each pipe is held"
each     = "water.run as run"
requires = "run.length <= 10 m"
severity = "note"
stage    = "design"
because  = "It is measured."
remedy   = "Do nothing."
cite     = [{ source = "practice" }]
reviewed = 2026-11-25
"""

Points = list[tuple[int, float]]


def rulebook(folder: Path, texts: list[str]) -> Rulebook:
    """Write a pack of rules and read it."""
    (folder / "grown").mkdir(parents=True)
    (folder / "sources.toml").write_text(SOURCES)
    for number, text in enumerate(texts):
        (folder / "grown" / f"rule-{number}.toml").write_text(text)
    return Rulebook.load(folder, with_built_in=False)


def measure(plot: Path | None = None) -> None:
    """Measure growth, tell it, and draw it where a file is named.

    Args:
        plot: The SVG file to draw to, or None.
    """
    job = {"placement.height_below": "300 mm", "site.snow_depth": "200 mm"}
    by_rules: Points = []
    by_items: Points = []
    with tempfile.TemporaryDirectory() as room:
        for count in RULES:
            texts = [RULE.format(number=number) for number in range(count)]
            book = rulebook(Path(room) / str(count), texts)
            by_rules.append((count, _seconds(book, Job.from_data(job))))
        book = rulebook(Path(room) / "each", [EACH])
        for count in ITEMS:
            runs = [{"name": f"run {number}", "length": "3 m"} for number in range(count)]
            by_items.append((count, _seconds(book, Job.from_data({"water.run": runs}))))
    _tell("Growth with the number of rules", "rules", by_rules)
    _tell("Growth with the length of a list", "items", by_items)
    if plot is not None:
        plot.write_text(drawn({"rules": by_rules, "items of a list": by_items}))
        print(f"\nDrawn to {plot}")


def _seconds(book: Rulebook, job: Job) -> float:
    swift, values = Swift(book), book.facts(job).values
    return medians({"it": lambda: swift.verdicts(values)}, repeats=7)["it"]


def _tell(title: str, unit: str, points: Points) -> None:
    print(f"\n{title}")
    for count, seconds in points:
        each = 1e6 * seconds / count
        print(f"  {count:>7} {unit:<8} {1e6 * seconds:>12.1f} us   {each:>8.3f} us each")


WIDTH, HEIGHT, MARGIN = 640, 420, 70
COLOURS = ("#1b5e8c", "#b3541e")


def drawn(lines: dict[str, Points]) -> str:
    """Return a plot of times against counts, both in powers of ten, as SVG."""

    def across(count: float) -> float:
        return MARGIN + log10(count) / 4 * (WIDTH - 2 * MARGIN)

    def down(seconds: float) -> float:
        return HEIGHT - MARGIN - (log10(seconds) + 7) / 6 * (HEIGHT - 2 * MARGIN)

    parts = [
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDTH} {HEIGHT}" '
        'font-family="sans-serif" font-size="13">',
        f'<rect width="{WIDTH}" height="{HEIGHT}" fill="white"/>',
        f'<text x="{WIDTH / 2}" y="30" text-anchor="middle">Time for one job</text>',
    ]
    for power in range(5):
        x = across(10**power)
        parts.append(
            f'<line x1="{x}" x2="{x}" y1="{MARGIN}" y2="{HEIGHT - MARGIN}" stroke="#ddd"/>'
        )
        parts.append(
            f'<text x="{x}" y="{HEIGHT - MARGIN + 20}" text-anchor="middle">{10**power}</text>'
        )
    for power, name in zip(
        range(-7, 0), ("0.1 us", "1 us", "10 us", "0.1 ms", "1 ms", "10 ms", "0.1 s"), strict=True
    ):
        y = down(10.0**power)
        parts.append(f'<line x1="{MARGIN}" x2="{WIDTH - MARGIN}" y1="{y}" y2="{y}" stroke="#ddd"/>')
        parts.append(f'<text x="{MARGIN - 8}" y="{y + 4}" text-anchor="end">{name}</text>')
    for (name, points), colour in zip(lines.items(), COLOURS, strict=True):
        way = " ".join(f"{across(count):.1f},{down(seconds):.1f}" for count, seconds in points)
        parts.append(f'<polyline points="{way}" fill="none" stroke="{colour}" stroke-width="2"/>')
        x, y = way.split()[-1].split(",")
        parts.append(
            f'<text x="{x}" y="{float(y) - 10}" fill="{colour}" text-anchor="end">{name}</text>'
        )
    return "\n".join([*parts, "</svg>\n"])
