"""Commands told to be run next are such as a shell takes."""

import shlex

import pytest

from tundish.report.tell.command_text import typed


def test_a_command_is_the_program_and_its_words() -> None:
    assert typed("check", "job.toml") == "tundish check job.toml"


def test_each_folder_of_rules_is_named_again() -> None:
    assert typed("survey", "a", rules=["x", "y/"]) == "tundish survey a --rules x --rules y/"


@pytest.mark.parametrize("name", ["our job.toml", "it's.toml", "$HOME.toml", "a;b.toml"])
def test_a_shell_reads_back_a_name_that_is_odd(name: str) -> None:
    assert shlex.split(typed("check", name)) == ["tundish", "check", name]


def test_a_stage_and_region_asked_for_are_named_again() -> None:
    command = typed("check", "a", stage="survey", region="GB", rules=["x"])
    assert command == "tundish check a --stage survey --region GB --rules x"
