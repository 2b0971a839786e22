"""Figures that the rulebook wants shown, whatever its rules say."""

from pathlib import Path

from rulebook.packs import QUANTITY, RULE, load
from tundish import Job, assess

HEARD = """\
[heard]
label    = "by night"
about    = "A level at each place."
of       = "placement.hears as receiver"
formula  = "unit.sound_power.night - decibels(4 * pi * receiver.distance ^ 2 / 1 m2)"
unit     = "dB"
report   = "siting"
cite     = [{ source = "practice", recall = true }]
reviewed = 2026-11-25

[[heard.case]]
why     = "nothing known"
given   = { "placement.hears" = [{ name = "a" }] }
item    = 1
unknown = ["unit.sound_power.night", "placement.hears[1].distance"]
"""
JOB = {
    "job.region": "GB",
    "unit.sound_power": {"night": "60 dB"},
    "placement.hears": [{"name": "a", "distance": "10 m"}, {"name": "b"}],
}


def figures(folder: Path, quantities: str) -> list[tuple[str, str, str]]:
    packs = {"snow/base.toml": RULE, "snow/quantities.toml": quantities}
    found = assess(Job.from_data(JOB), load(folder, packs)).figures
    return [(one.of, one.label, one.value) for one in found]


def test_a_figure_for_each_item_known_or_not(tmp_path: Path) -> None:
    assert figures(tmp_path, HEARD) == [
        ("placement.hears[1]", "by night", "29 dB"),
        ("placement.hears[2]", "by night", ""),
    ]


def test_a_quantity_that_no_report_asks_for_is_no_figure(tmp_path: Path) -> None:
    assert figures(tmp_path, QUANTITY) == []


def test_a_national_figure_is_shown_in_its_country_alone(tmp_path: Path) -> None:
    for code, number in (("GB", 2), ("DE", 0)):
        folder = tmp_path / code
        packs = {
            "snow/base.toml": RULE,
            f"national/{code}/snow/quantities.toml": HEARD,
            f"national/{code}/snow/higher.toml": RULE,
        }
        assert len(assess(Job.from_data(JOB), load(folder, packs)).figures) == number
