"""A plot of times against counts, as SVG."""

from __future__ import annotations

from math import log10

Points = list[tuple[int, float]]
"""Counts, and the time that so many take [s]."""

WIDTH, HEIGHT, MARGIN = 640, 420, 70
COLOURS = ("#1b5e8c", "#b3541e", "#3f7d3a", "#7a4b94")
LEAST, GREATEST, MOST = -7, 1, 5
"""Powers of ten: the shortest and the longest time [s], and the greatest count."""


def drawn(lines: dict[str, Points]) -> str:
    """Return a plot of times against counts, both in powers of ten, as SVG."""

    def across(count: float) -> float:
        return MARGIN + log10(count) / MOST * (WIDTH - 2 * MARGIN)

    def down(seconds: float) -> float:
        return (
            HEIGHT - MARGIN - (log10(seconds) - LEAST) / (GREATEST - LEAST) * (HEIGHT - 2 * MARGIN)
        )

    parts = [
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDTH} {HEIGHT}" '
        'font-family="sans-serif" font-size="13">',
        f'<rect width="{WIDTH}" height="{HEIGHT}" fill="white"/>',
        f'<text x="{WIDTH / 2}" y="30" text-anchor="middle">Time against how many there are</text>',
    ]
    for power in range(MOST + 1):
        x = across(10**power)
        parts.append(
            f'<line x1="{x}" x2="{x}" y1="{MARGIN}" y2="{HEIGHT - MARGIN}" stroke="#ddd"/>'
        )
        parts.append(
            f'<text x="{x}" y="{HEIGHT - MARGIN + 20}" text-anchor="middle">{10**power:,}</text>'
        )
    for power in range(LEAST, GREATEST + 1):
        y, name = down(10.0**power), time_of(power)
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


def time_of(power: int) -> str:
    """Return a power of ten of seconds as it is said: 0.1 us, 10 ms, 1 s."""
    for unit, size in (("s", 0), ("ms", -3), ("us", -6)):
        if power >= size - 1:
            return f"{10.0 ** (power - size):g} {unit}"
    raise ValueError(f"10**{power} s is too short a time to be measured")
