"""The interview goes from question to question, and back, and what it writes is what was said."""

import tomllib
from pathlib import Path

import pytest

from interview.conftest import JOB, Ask
from tundish import Job, Refused, Verdict
from tundish.interview.interview import Interview
from tundish.interview.order import schema_order
from tundish.rulebook.rulebook import Rulebook
from tundish.text.bundled_folders import bundled_folder
from verdicts import verdicts

ALL = ["250 mm", "120 mm", "none", "yes", "20 L", "6 m", "124 kg"]


def asked(interview: Interview) -> str:
    return interview.question.path if interview.question else ""


def all_asked(interview: Interview) -> list[str]:
    paths = []
    while interview.question:
        paths.append(interview.question.path)
        interview.answer("")
    return paths


def data(job: Path) -> dict:
    return tomllib.loads(job.read_text())


def test_what_decides_the_most_serious_is_asked_first(ask: Ask) -> None:
    assert asked(ask()) == "placement.height_below"
    assert asked(ask("250 mm")) == "site.snow_depth"
    assert asked(ask("250 mm", "1 m")) == "water.run"


def test_in_order_it_goes_as_the_order_says(ask: Ask) -> None:
    assert asked(ask(order=schema_order)) == "site.snow_depth"
    backwards = ask(order=lambda path: [-ord(letter) for letter in path])
    assert asked(backwards) == "water.volume_vessel"


def test_an_answer_stands_in_the_file_at_once_and_is_told_with_what_it_decides(
    ask: Ask, job: Path
) -> None:
    interview = ask("250 mm")
    assert data(job)["placement"] == {"height_below": "250 mm"}
    reply = interview.answer("100 mm")
    assert (reply.outcome, reply.sentence) == ("written", f'site.snow_depth = "100 mm", in {job}')
    assert reply.decided is not None
    assert [one.rule for one in reply.decided.breached] == ["placement/snow"]


def test_at_the_end_nothing_is_asked_and_the_job_is_decided(
    ask: Ask, job: Path, rulebook: Rulebook
) -> None:
    interview = ask(*ALL)
    assert interview.question is None
    assert Verdict.UNDECIDED not in verdicts(Job.from_file(job), rulebook).values()
    assert interview.summary().answered == len(ALL)
    assert interview.summary().open == 0
    with pytest.raises(ValueError, match="over"):
        interview.answer("yes")


def test_nothing_leaves_a_question_open_and_goes_on(ask: Ask, job: Path) -> None:
    interview = ask("")
    assert asked(interview) == "site.snow_depth"
    assert job.read_text() == JOB
    assert (interview.summary().answered, interview.summary().left) == (0, 1)


def test_what_was_left_open_is_not_asked_again(ask: Ask) -> None:
    interview = ask(*[""] * 6)
    assert interview.question is None
    assert interview.summary().open == 6


def test_a_wrong_answer_leaves_the_question_and_the_file(ask: Ask, job: Path) -> None:
    interview = ask()
    reply = interview.answer("250 kg")
    assert reply.outcome == "misread"
    assert "not a length but of the kind mass" in reply.sentence
    assert (asked(interview), job.read_text()) == ("placement.height_below", JOB)


def test_a_bare_number_is_taken_with_the_unit_on_a_yes(ask: Ask, job: Path) -> None:
    interview = ask()
    assert "Did you mean '250 mm'?" in interview.answer("250").sentence
    assert interview.answer("y").outcome == "written"
    assert data(job)["placement"]["height_below"] == "250 mm"


@pytest.mark.parametrize("answer", ["n", "25 cm", "", "250"])
def test_what_was_offered_is_taken_on_a_yes_alone(ask: Ask, job: Path, answer: str) -> None:
    ask("250", answer)
    assert "250 mm" not in job.read_text()


def test_an_offer_holds_for_the_next_word_alone(ask: Ask, job: Path) -> None:
    ask("250", "?", "y")
    assert job.read_text() == JOB


def test_back_asks_again_and_takes_back_what_was_written(ask: Ask, job: Path) -> None:
    interview = ask("250 mm", "1 m", "back")
    assert asked(interview) == "site.snow_depth"
    assert "snow_depth" not in job.read_text()
    interview.answer("<")
    assert (asked(interview), job.read_text()) == ("placement.height_below", JOB)
    assert "first question" in interview.answer("back").sentence
    assert interview.summary().answered == 0


def test_back_goes_to_what_was_left_open(ask: Ask) -> None:
    assert asked(ask("", "back")) == "placement.height_below"


@pytest.mark.parametrize("word", ["stop", "q", "QUIT", "exit"])
def test_stop_ends_it_at_any_question(ask: Ask, word: str) -> None:
    interview = ask("250 mm")
    assert interview.answer(word).outcome == "stopped"
    assert interview.question is None


def test_a_word_in_quotes_is_no_command(ask: Ask, job: Path) -> None:
    interview = ask("", "", '"stop"')
    assert data(job)["water"]["run"] == [{"name": "stop"}]
    assert asked(interview) == "water.run[1].place"


def test_a_question_mark_tells_more_and_changes_nothing(ask: Ask, job: Path) -> None:
    interview = ask()
    assert interview.answer("?").outcome == "more"
    assert (asked(interview), job.read_text()) == ("placement.height_below", JOB)
    assert [one.rule for one in interview.question.findings] == ["placement/snow"]


def test_a_group_that_is_there_is_asked_about_next(ask: Ask, job: Path) -> None:
    interview = ask("", "", "none")
    while asked(interview) != "water.volume_vessel":
        interview.answer("")
    interview.answer("yes")
    assert asked(interview) == "water.volume_vessel.volume"
    assert data(job)["water"]["volume_vessel"] == {}
    interview.answer("20 L")
    assert data(job)["water"]["volume_vessel"] == {"volume": "20 L"}


def test_a_list_is_asked_item_by_item_and_told_when_it_is_whole(ask: Ask, job: Path) -> None:
    interview = ask("", "")
    assert interview.answer("flow").decided is None
    assert asked(interview) == "water.run[1].place"
    assert interview.question.item == "run 'flow'"
    assert interview.answer("outdoors").decided is None
    assert asked(interview) == "water.run[1].insulation"
    interview.answer("none")
    assert (asked(interview), interview.question.form) == ("water.run", "another")
    interview.answer("return")
    interview.answer("heated")
    assert interview.summary().unfinished == (("water.run", 2),)
    decided = interview.answer("").decided
    assert decided is not None
    assert asked(interview) != "water.run"
    assert [one["name"] for one in data(job)["water"]["run"]] == ["flow", "return"]


def test_back_takes_an_item_out_again(ask: Ask, job: Path) -> None:
    interview = ask("", "", "flow", "back")
    assert (asked(interview), job.read_text()) == ("water.run", JOB)
    assert interview.question.form == "list"


def test_back_from_behind_a_list_asks_for_another_again(ask: Ask, job: Path) -> None:
    interview = ask("", "", "flow", "heated", "", "back")
    assert interview.question.form == "another"
    interview.answer("return")
    assert len(data(job)["water"]["run"]) == 2


def test_two_items_of_one_name_are_refused_before_anything_is_written(ask: Ask, job: Path) -> None:
    interview = ask("", "", "flow", "heated")
    before = job.read_text()
    assert "names must differ" in interview.answer("flow").sentence
    assert job.read_text() == before


def test_a_fact_of_a_pack_is_asked_by_its_own_kind(ask: Ask, job: Path) -> None:
    interview = ask()
    while asked(interview) != "more.crane_reach":
        interview.answer("")
    assert "no unit. Did you mean '7 m'" in interview.answer("7").sentence
    interview.answer("y")
    assert data(job)["more"] == {"crane_reach": "7 m"}


def test_a_file_that_was_changed_meanwhile_is_not_written_over(ask: Ask, job: Path) -> None:
    interview = ask()
    job.write_text(f'{JOB}\n[site]\nsnow_depth = "1 m"  # by hand\n')
    reply = interview.answer("250 mm")
    assert "was changed meanwhile" in reply.notes[0]
    assert "# by hand" in job.read_text()
    assert data(job)["placement"]["height_below"] == "250 mm"


def test_what_is_known_meanwhile_stays_as_it_is(ask: Ask, job: Path) -> None:
    interview = ask()
    job.write_text(f'{JOB}\n[placement]\nheight_below = "9 m"\n')
    reply = interview.answer("250 mm")
    assert "known by now" in reply.sentence
    assert data(job)["placement"]["height_below"] == "9 m"
    assert asked(interview) == "site.snow_depth"


def test_back_never_takes_back_what_somebody_else_wrote(ask: Ask, job: Path) -> None:
    interview = ask("250 mm")
    job.write_text(f"{job.read_text()}# by hand\n")
    reply = interview.answer("back")
    assert "stands in the file still" in " ".join(reply.notes)
    interview.answer("9 m")
    assert "# by hand" in job.read_text()
    assert data(job)["placement"]["height_below"] == "9 m"


def test_back_twice_leaves_what_was_changed_between(ask: Ask, job: Path) -> None:
    interview = ask("250 mm")
    job.write_text(f"{job.read_text()}# by hand\n")
    interview.answer("1 m")
    interview.answer("back")
    interview.answer("back")
    assert "# by hand" in job.read_text()


def test_a_file_that_was_broken_meanwhile_is_refused_and_left(ask: Ask, job: Path) -> None:
    interview = ask()
    job.write_text("[job\n")
    with pytest.raises(Refused):
        interview.answer("250 mm")
    assert job.read_text() == "[job\n"


def test_what_a_sheet_is_laid_over_is_asked_about_and_not_the_sheet(
    ask: Ask, job: Path, rulebook: Rulebook
) -> None:
    form = job.parent / "form.toml"
    form.write_text('of_job = "job.toml"\n')
    with pytest.raises(Refused, match="merged over a job"):
        Interview(form, rulebook)


def test_stage_and_region_are_those_asked_for(ask: Ask) -> None:
    assert "water.run" in all_asked(ask(stage="survey"))
    assert "water.run" not in all_asked(ask(stage="survey", region="DE"))
    # What a visit brings home is asked at the survey, though its rule is due at the design.
    assert "placement.height_below" in all_asked(ask(stage="survey", region="DE"))
    assert "placement.height_below" not in all_asked(ask(stage="enquiry"))


def test_every_question_of_the_built_in_rules_can_be_answered_by_its_example(
    tmp_path: Path,
) -> None:
    job = tmp_path / "job.toml"
    job.write_text(JOB)
    interview = Interview(job, order=schema_order)
    for _ in range(60):
        question = interview.question
        assert question is not None
        answer = question.choices[0] if question.choices else question.example or "yes"
        if question.form in ("group", "list"):
            answer = "none"
        reply = interview.answer("" if answer == "text" else answer.strip("[]"))
        assert reply.outcome in ("written", "left"), (question.path, reply.sentence)
    Job.from_file(job)


def test_a_sample_job_of_many_inline_tables_takes_answers_too(tmp_path: Path) -> None:
    job = tmp_path / "job.toml"
    text = (bundled_folder("sample_jobs") / "surveyed-townhouse.toml").read_text()
    job.write_text(text)
    interview = Interview(job, order=schema_order)
    while asked(interview) != "unit.size.height":
        interview.answer("")
    assert interview.answer("1 m").outcome == "written"
    assert [line for line in text.splitlines() if line not in job.read_text().splitlines()] == []
    assert data(job)["unit"]["size"] == {"height": "1 m"}


@pytest.mark.parametrize(
    ("heading", "written"),
    [
        ('open_lists = ["water.emitter", "water.run"]', 'job.open_lists = ["water.emitter"]'),
        ('open_lists = ["all"]', 'job.complete_lists = ["water.run"]'),
    ],
)
def test_no_more_of_a_list_is_written_down_where_it_would_be_open(
    ask: Ask, job: Path, heading: str, written: str
) -> None:
    before = f"{JOB}{heading}\n"
    interview = ask("", "", "flow", "heated", text=before)
    assert (asked(interview), interview.question.form) == ("water.run", "another")
    reply = interview.answer("no")
    assert reply.sentence == f"{written}, in {job}"
    assert reply.decided is not None
    assert "water.run" not in interview.status.waiting
    interview.answer("back")
    assert (asked(interview), interview.question.form) == ("water.run", "another")
    assert heading in job.read_text()


def test_an_open_list_is_asked_for_more_and_may_be_left_open(job: Path) -> None:
    fitting = '[[water.fittings]]\nkind = "isolation valve"\n'
    job.write_text(f'{JOB}open_lists = ["all"]\n{fitting}')
    interview = Interview(job)
    while asked(interview) != "water.fittings":
        interview.answer("")
    assert interview.question.form == "another"
    interview.answer("skip")
    assert "water.fittings" not in all_asked(interview)
    assert "complete_lists" not in job.read_text()
