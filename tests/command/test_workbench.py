"""`tundish prove --deep`, `rule new` and `impact`."""

import json
from pathlib import Path

import pytest

from command.conftest import GOOD_JOB, Run

LOW = GOOD_JOB.replace('"300 mm"', '"250 mm"')


def test_a_deep_proof_tells_what_nothing_notices(run: Run) -> None:
    ran = run("prove", "--deep", "--plain")
    assert "Mutants tried" in ran.out
    assert "FACTS OF A JOB THAT NO RULE READS" in ran.out


def test_one_topic_is_proved_alone(run: Run) -> None:
    ran = run("prove", "placement", "--plain")
    assert ran.code == 0, ran.out
    assert "one rule" in ran.out
    assert run("prove", "plasement").code == 2


def test_an_age_needs_a_unit_of_time(run: Run) -> None:
    assert "no time" in run("prove", "--deep", "--older-than", "2 m").err
    assert run("prove", "--deep", "--older-than", "2 years", "--plain").code in (0, 1)


def test_a_new_rule_is_proved_as_it_stands(run: Run) -> None:
    ran = run("rule", "new", "ours/high-enough", "--in", "ours")
    assert ran.code == 0, ran.err
    text = Path("ours/ours/high-enough.toml").read_text()
    Path("ours/ours/high-enough.toml").write_text(text.replace('"common-practice"', '"practice"'))
    proved = run("prove", "ours/high-enough", "--rules", "ours", "--plain")
    assert proved.code == 0, proved.out
    assert "All hold" in proved.out or "all hold" in proved.out


@pytest.mark.parametrize(
    ("fact", "limit", "less"),
    [
        ("site.coldest_air_temperature", "-12 degC", "-12.12 degC"),
        ("site.flood_level", "1 m", "0.99 m"),
        ("site.distance_to_coast", "12 km", "11.88 km"),
    ],
)
def test_a_template_is_proved_below_zero_too(run: Run, fact: str, limit: str, less: str) -> None:
    assert run("rule", "new", "ours/enough", "--in", "ours", "--fact", fact).code == 0
    path = Path("ours/ours/enough.toml")
    text = path.read_text()
    assert f'requires = "{fact} >= {limit}"' in text
    assert f'"{less}"' in text
    path.write_text(text.replace('"common-practice"', '"practice"'))
    proved = run("prove", "ours/enough", "--rules", "ours", "--plain")
    assert proved.code == 0, proved.out


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (["ours/High"], "is no name"),
        (["placement/snow"], "already"),
        (["ours/a", "--fact", "placement.hight_below"], "Did you mean 'placement.height_below'?"),
        (["ours/a", "--fact", "placement.on"], "is no figure outside a list"),
        (["ours/a", "--fact", "water.run.length"], "is no figure outside a list"),
    ],
)
def test_a_template_that_cannot_be_is_told(run: Run, arguments: list[str], said: str) -> None:
    ran = run("rule", "new", *arguments)
    assert ran.code == 2
    assert said in ran.err


def stricter(folder: Path) -> str:
    pack = folder / "stricter"
    pack.mkdir()
    retire = '[{ rule = "placement/snow", because = "We go by the map." }]'
    (pack / "pack.toml").write_text(f'title = "House rules"\nretire = {retire}\n')
    return str(pack)


def test_impact_tells_which_jobs_are_altered(run: Run, tmp_path: Path) -> None:
    Path("jobs").mkdir()
    Path("jobs/a.toml").write_text(GOOD_JOB)
    Path("jobs/b.toml").write_text(LOW)
    ran = run("impact", "jobs", "--after", stricter(tmp_path), "--plain")
    assert ran.code == 0, ran.err
    assert "breached no more: The unit stands above the snow" in ran.out
    assert "Altered: two jobs of 2." in ran.out


def test_impact_ends_with_one_where_something_is_newly_breached(run: Run, tmp_path: Path) -> None:
    Path("b.toml").write_text(LOW)
    ran = run("impact", "b.toml", "--before", stricter(tmp_path), "--json")
    assert ran.code == 1
    data = json.loads(ran.out)
    assert [one["rule"] for one in data["jobs"][0]["new"]] == ["placement/snow"]
