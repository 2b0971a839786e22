"""A survey ranks what is not known by what it would decide."""

from pathlib import Path

from findings.judged_job import rule
from rulebook.packs import QUANTITY, load
from tundish import Job, assess
from tundish.survey.survey import Inquiry, inquiries

HEIGHT = "placement.height_below"


def asked(
    folder: Path, files: dict[str, str], later: bool = False, **facts: object
) -> list[Inquiry]:
    book = load(folder, files)
    return list(inquiries(assess(Job.from_data(facts), book), book, later))


def paths(found: list[Inquiry]) -> list[str]:
    return [one.asked.path for one in found]


def test_the_most_serious_is_asked_first(tmp_path: Path) -> None:
    files = {
        "snow/a.toml": rule("site.altitude > 1 m", severity='"note"'),
        "snow/b.toml": rule("site.frost_depth > 1 m", severity='"danger"'),
    }
    assert paths(asked(tmp_path, files)) == ["site.frost_depth", "site.altitude"]


def test_what_decides_something_by_itself_comes_before_what_needs_more(tmp_path: Path) -> None:
    files = {
        "snow/a.toml": rule("site.altitude > site.flood_level"),
        "snow/b.toml": rule("site.frost_depth > 1 m"),
    }
    found = asked(tmp_path, files)
    assert paths(found) == ["site.frost_depth", "site.altitude", "site.flood_level"]
    assert [one.alone for one in found] == [1, 0, 0]


def test_what_decides_more_rules_comes_first(tmp_path: Path) -> None:
    files = {
        "snow/a.toml": rule("site.altitude > 1 m"),
        "snow/b.toml": rule("site.frost_depth > 1 m"),
        "snow/c.toml": rule("site.frost_depth > 2 m"),
    }
    assert paths(asked(tmp_path, files)) == ["site.frost_depth", "site.altitude"]


def test_it_is_told_whether_a_figure_stands_between(tmp_path: Path) -> None:
    files = {
        "snow/a.toml": rule("spare_height > 1 m"),
        "snow/b.toml": rule(f"{HEIGHT} > 1 m"),
        "snow/quantities.toml": QUANTITY,
    }
    found = {one.asked.path: one for one in asked(tmp_path, files)}
    assert [one.rule for one in found[HEIGHT].directly] == ["snow/b"]
    assert [one.rule for one in found[HEIGHT].through] == ["snow/a"]
    assert [one.rule for one in found["site.snow_depth"].through] == ["snow/a"]


def test_items_alike_are_one_question(tmp_path: Path) -> None:
    files = {"snow/a.toml": rule("run.length > 1 m", each='"water.run as run"')}
    runs = {"water.run": [{"name": "a"}, {"name": "b"}]}
    (one,) = asked(tmp_path, files, **runs)
    assert [fact.path for fact in one.facts] == ["water.run[1].length", "water.run[2].length"]
    assert [finding.item for finding in one.directly] == ["a", "b"]


def test_what_can_wait_is_asked_for_on_request_alone(tmp_path: Path) -> None:
    files = {"snow/a.toml": rule("site.altitude > 1 m", stage='"commissioning"')}
    facts = {"job.stage": "design"}
    assert not asked(tmp_path / "a", files, **facts)
    assert asked(tmp_path / "b", files, later=True, **facts)
