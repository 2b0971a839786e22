"""`tundish rules`, `explain`, `prove` and `samples`."""

import pytest

from command.conftest import Run

SHORT = 'value = "200 mm"'


def test_rules_lists_all_rules(run: Run) -> None:
    ran = run("rules")
    assert ran.code == 0
    assert "placement/snow [from memory]" in ran.out
    assert "pipes/insulation" in ran.out


def test_rules_lists_one_topic(run: Run) -> None:
    out = run("rules", "pipes/", "--plain").out
    assert "pipes/insulation" in out
    assert "placement" not in out


@pytest.mark.parametrize(
    ("topic", "said"), [("pipe", "Did you mean 'pipes'?"), ("zzz", "pipes, placement")]
)
def test_a_topic_that_is_not_there_is_a_sentence(run: Run, topic: str, said: str) -> None:
    ran = run("rules", topic)
    assert (ran.code, ran.out) == (2, "")
    assert said in ran.err


@pytest.mark.parametrize(
    "name", ["placement/snow", "placement/old-snow", "placement/snow.toml", "height_needed"]
)
def test_a_rule_or_quantity_is_explained_by_any_of_its_names(run: Run, name: str) -> None:
    ran = run("explain", name)
    assert ran.code == 0
    assert "placement/snow" in ran.out
    assert "site.snow_depth + 200 mm" in ran.out


@pytest.mark.parametrize(
    ("name", "near"),
    [("placement/snov", "placement/snow"), ("snow", "placement/snow"), ("height", "height_needed")],
)
def test_near_misses_are_suggested(run: Run, name: str, near: str) -> None:
    ran = run("explain", name)
    assert (ran.code, ran.out) == (2, "")
    assert near in ran.err


def test_a_name_like_nothing_is_sent_to_the_list(run: Run) -> None:
    ran = run("explain", "\x1b[2Jqqqq")
    assert "tundish rules" in ran.err
    assert "\x1b" not in ran.err


@pytest.mark.parametrize(
    ("name", "said"),
    [
        ("defrost-water/free-volume", "free_water_volume >= unit.water.minimum_free_volume"),
        ("defrost-water/free-volume.toml", "rule defrost-water/free-volume"),
        ("free_water_volume", "quantity free_water_volume"),
        ("site.snow_depth", "What snow depth is expected at the unit?"),
        ("water.run", "list water.run"),
        ("cable-capacities", "table cable-capacities"),
        ("sun cover", "part sun-cover of the order list"),
        ("en-1991-1-3", "source en-1991-1-3"),
        ("L/min", "1 L/min = "),
    ],
)
def test_whatever_has_a_name_in_the_built_in_rulebook_is_explained(
    run_built_in: Run, name: str, said: str
) -> None:
    ran = run_built_in("explain", *name.split())
    assert (ran.code, ran.err) == (0, "")
    assert said in " ".join(ran.out.split())


@pytest.mark.parametrize(
    ("name", "near"),
    [
        ("defrost-water/free-volumes", "defrost-water/free-volume"),
        ("free-volume", "defrost-water/free-volume"),
        ("free_water_volum", "free_water_volume"),
        ("snow_depth", "site.snow_depth"),
        ("defrost-water", "tundish rules defrost-water"),
        ("\x1b[2Jqqqq", "tundish rules"),
    ],
)
def test_near_misses_in_the_built_in_rulebook_are_suggested(
    run_built_in: Run, name: str, near: str
) -> None:
    ran = run_built_in("explain", name)
    assert (ran.code, ran.out) == (2, "")
    assert near in ran.err
    assert "\x1b" not in ran.err


def test_a_rulebook_that_stands_up_is_proved(run: Run) -> None:
    ran = run("prove")
    assert ran.code == 0, ran.out
    assert "all hold" in ran.out


def test_a_case_that_does_not_hold_is_not_proved(run: Run, tmp_path) -> None:
    file = tmp_path / "built_in/placement/quantities.toml"
    file.write_text(file.read_text().replace(SHORT, 'value = "201 mm"'))
    ran = run("prove", "--plain")
    assert ran.code == 1
    assert "quantity height_needed" in ran.out
    assert "one case does not hold" in " ".join(ran.out.split())


def test_a_quantity_without_a_case_is_not_proved(run: Run, tmp_path) -> None:
    file = tmp_path / "built_in/placement/quantities.toml"
    file.write_text(file.read_text().partition("[[")[0])
    assert run("prove").code == 1


@pytest.mark.parametrize("command", ["rules", "prove", "check job.toml", "explain a/b"])
def test_a_folder_of_rules_that_is_not_there_is_a_sentence(run_either: Run, command: str) -> None:
    ran = run_either(*command.split(), "--rules", "nowhere")
    assert ran.code == 2
    assert "nowhere\n  There is no such folder of rules." in ran.err
