"""Words that are no answers, and the names that questions are asked with."""

import tomllib
from pathlib import Path

import pytest

from interview.conftest import JOB, Ask
from tundish.interview.interview import Interview
from tundish.interview.open_questions import question_at
from tundish.report.tell.interview import asked_line
from tundish.rulebook.rulebook import Rulebook


def asked(interview: Interview) -> str:
    return interview.question.path if interview.question else ""


def data(job: Path) -> dict:
    return tomllib.loads(job.read_text())


def test_help_tells_more_as_a_question_mark_does(ask: Ask, job: Path) -> None:
    assert ask().answer("Help").outcome == "more"
    assert job.read_text() == JOB


@pytest.mark.parametrize("word", ["skip", "Unknown", "not known", "don't know", "don\u2019t know"])
@pytest.mark.parametrize("before", [(), ("", "")], ids=["quantity", "list"])
def test_words_for_not_known_leave_a_question_open(
    ask: Ask, job: Path, word: str, before: tuple[str, ...]
) -> None:
    interview = ask(*before)
    path = asked(interview)
    assert interview.answer(word).outcome == "left"
    assert asked(interview) != path
    assert job.read_text() == JOB


@pytest.mark.parametrize("word", ["skip", "help", "exit", "unknown"])
def test_words_of_commands_in_quotes_are_texts(ask: Ask, job: Path, word: str) -> None:
    ask("", "", f'"{word}"')
    assert data(job)["water"]["run"] == [{"name": word}]


def test_no_to_a_list_writes_nothing_and_asks_what_is_meant(ask: Ask, job: Path) -> None:
    interview = ask("", "")
    assert interview.answer("no").sentence.startswith("Write none if there are none")
    assert (asked(interview), job.read_text()) == ("water.run", JOB)
    interview.answer("none")
    assert data(job)["water"]["run"] == []


def test_no_to_another_item_ends_the_list(ask: Ask, job: Path) -> None:
    interview = ask("", "", "flow", "heated", "no")
    assert asked(interview) != "water.run"
    assert len(data(job)["water"]["run"]) == 1


@pytest.mark.parametrize(
    ("path", "said"),
    [
        (
            "controls.second_heat_source.kind",
            "Second heat source: What other source of heat is it?",
        ),
        ("electricity.circuit[1].cable.method", "circuit 'pump', cable: By which reference"),
        ("water.run[1].insulation.thickness", "run 'flow': How thick is the insulation?"),
        ("water.run[1].length", "run 'flow': "),
        ("site.snow_depth", "What snow depth "),  # a large part needs no naming
        ("hot_water.cylinder.volume", "How large is the cylinder?"),  # it is named already
    ],
)
def test_a_question_within_a_group_names_it(tmp_path: Path, path: str, said: str) -> None:
    job = tmp_path / "job.toml"
    run = '[[water.run]]\nname = "flow"\ninsulation = {}\n'
    circuit = '[[electricity.circuit]]\nname = "pump"\ncable = {}\n'
    job.write_text(f"{JOB}\n{run}{circuit}")
    rulebook = Rulebook.built_in()
    question = question_at(path, Interview(job).status, rulebook, str(job))
    assert asked_line(question).text.startswith(said)
