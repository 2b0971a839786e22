"""What is said of an assessment, and in which order."""

import pytest

from report.made import SNOW, SOIL, assessment, everything, finding, thickness, undecided
from tundish.findings.finding import Assessment, Input
from tundish.report.page.plain_text import as_plain
from tundish.report.tell.assessment import Show, assessment_lines
from tundish.report.tell.summary import breaches, memory_note, summary
from tundish.rulebook.evaluate.judge import Verdict
from tundish.survey.question import questions


def told(one: Assessment, show: Show = "usual", workings: bool = False) -> str:
    """Return the report as plain text on a page that breaks few rows."""
    return as_plain(assessment_lines(one, show, workings=workings), 100)


def test_worst_comes_first() -> None:
    text = told(everything())
    places = [text.index(word) for word in ("DANGER", "FAULT", "CAUTION")]
    assert places == sorted(places)


def test_a_danger_comes_first_even_if_it_is_not_due_yet() -> None:
    late = finding(severity="danger", title="A danger", due=False)
    text = told(assessment(finding(title="A fault"), late))
    assert text.index("A danger") < text.index("A fault")


def test_a_breach_says_all_that_a_reader_acts_on() -> None:
    text = " ".join(
        told(
            assessment(finding(item="circuit 1", assumed=("altitude: not known, 5 m stands in",)))
        ).split()
    )
    for part in (
        "FAULT Circuit 1:",
        "short by 3.8 L",
        "Enough water stays in circulation for a defrost",
        "A defrost takes its heat",
        "Add a volume vessel",
        "Common practice of the trade",
        "sheet.toml, line 12",
        "= 3.2 L + 13 L = 16.2 L",
        "altitude: not known, 5 m stands in",
        "defrost-water/free-volume",
    ):
        assert part in text
    assert "= unit.water.content + vessel_volume" not in text


def test_the_workings_are_told_whole_when_asked_for() -> None:
    text = told(assessment(finding()), workings=True)
    for part in (
        "sheet.toml:12",
        "= unit.water.content + vessel_volume",
        "= 3.2 L + 13 L",
        "= 16.2 L",
        "Invented standard 1 (2021), table 3 [from memory]",
    ):
        assert part in text


def test_a_waiver_that_does_not_hold_is_told_with_the_breach() -> None:
    text = told(assessment(finding(waiver="The waiver by the designer ended on 2026-01-01.")))
    assert "The waiver by the designer ended on 2026-01-01." in " ".join(text.split())


def test_a_breach_that_is_not_due_says_until_when_it_can_wait() -> None:
    assert "not be settled before order" in told(assessment(finding(due=False, stage="order")))
    assert "not be settled" not in told(assessment(finding()))


@pytest.mark.parametrize(
    ("show", "shown", "hidden"),
    [
        ("usual", ["TO PUT RIGHT", "TO FIND OUT", "CAN WAIT", "SET ASIDE"], ["IN ORDER --"]),
        ("all", ["TO PUT RIGHT", "TO FIND OUT LATER", "SET ASIDE", "IN ORDER --"], ["CAN WAIT"]),
        ("open", ["TO FIND OUT AT", "TO FIND OUT LATER"], ["TO PUT RIGHT", "SET ASIDE"]),
        ("breached", ["TO PUT RIGHT"], ["TO FIND OUT AT", "CAN WAIT", "SET ASIDE"]),
    ],
)
def test_each_way_of_showing_tells_its_part(
    show: Show, shown: list[str], hidden: list[str]
) -> None:
    text = told(everything(), show)
    assert [part for part in shown if part not in text] == []
    assert [part for part in hidden if part in text] == []


def test_whatever_is_shown_the_summary_counts_all_of_it() -> None:
    for show in ("usual", "all", "open", "breached"):
        assert "one danger, one fault and one caution" in " ".join(told(everything(), show).split())


def test_one_fact_that_decides_many_rules_is_asked_once() -> None:
    text = told(assessment(undecided(), undecided(rule="a/b", title="Another")))
    assert text.count(SNOW.question) == 1
    assert "Another" in text
    assert "two requirements" in text


def test_one_question_about_many_items_is_asked_once_and_names_them() -> None:
    one = undecided(rule="a/b", item="flow", open=(thickness(1, "flow"),))
    other = undecided(rule="a/b", item="return", open=(thickness(2, "return"),))
    text = told(assessment(one, other))
    assert text.count("How thick") == 1
    assert "water.run[1].insulation.thickness" in text
    assert "water.run[2].insulation.thickness" in text
    assert "flow, return" in text


def test_questions_that_decide_the_most_serious_come_first() -> None:
    mild = undecided(severity="note", open=(SOIL,))
    grave = undecided(severity="danger", rule="a/b")
    assert [one.asked for one in questions([mild, grave])] == [SNOW, SOIL]


def test_of_questions_alike_the_one_that_decides_more_comes_first() -> None:
    waiting = [undecided(rule="a/a"), undecided(rule="a/b", open=(SOIL,)), undecided(rule="a/c")]
    assert [one.asked for one in questions(waiting)] == [SNOW, SOIL]


def test_what_else_a_finding_waits_for_is_said() -> None:
    text = told(assessment(undecided(open=(SNOW, SOIL))))
    assert "(with soil)" in text
    assert "(with snow depth)" in text


def test_a_long_list_of_what_else_is_needed_is_counted() -> None:
    many = tuple(thickness(run, f"run {run}") for run in range(1, 5))
    text = told(assessment(undecided(open=(SNOW, *many))))
    assert "(with four other facts)" in text


def test_what_can_wait_is_one_short_row_a_stage() -> None:
    later = undecided(rule="a/b", due=False, stage="order", open=(SOIL,))
    text = told(assessment(undecided(), later))
    assert "until order: soil" in text
    assert SOIL.question not in text


def test_what_is_asked_now_is_not_said_to_be_able_to_wait() -> None:
    later = undecided(rule="a/b", due=False, stage="order")
    assert "CAN WAIT" not in told(assessment(undecided(), later))


def test_a_fact_that_two_stages_wait_for_is_told_at_the_first() -> None:
    order = undecided(due=False, stage="order")
    last = undecided(rule="a/b", due=False, stage="commissioning")
    text = told(assessment(last, order))
    assert "until order: snow depth" in text
    assert "until commissioning" not in text


def test_a_finding_that_no_fact_would_decide_says_what_stands_in_the_way() -> None:
    text = told(assessment(undecided(open=(), statement="the table ends at 40 A")))
    assert "The table ends at 40 A" in text
    assert "CANNOT BE DECIDED" in text


def test_a_waived_finding_is_never_silent() -> None:
    one = finding(verdict=Verdict.WAIVED, statement="set aside until 2027-11-02")
    text = told(assessment(one))
    assert "SET ASIDE" in text
    assert "2027-11-02" in text
    assert "TO PUT RIGHT" not in text


def test_without_a_stage_the_heading_says_so() -> None:
    assert "not said" in told(assessment(stage="", region="", date=None))


@pytest.mark.parametrize(("job", "file"), [("", "a.toml"), ("", "")])
def test_a_job_without_a_title_still_has_a_heading(job: str, file: str) -> None:
    first = told(assessment(job=job, file=file)).splitlines()[0]
    assert first == (file or "A job without a title")


def test_cautions_end_the_page() -> None:
    assert told(assessment(cautions=("Isolate first.",))).rstrip().endswith("Isolate first.")


def test_an_assessment_in_which_nothing_is_wrong_does_not_say_that_all_is_right() -> None:
    text = summary(assessment())
    assert text == "Nothing is known to be wrong."
    assert breaches(assessment()) == ""


def test_each_severity_is_counted() -> None:
    one = assessment(finding(severity="danger"), finding(), finding(), finding(severity="note"))
    assert breaches(one) == "one danger, two faults and one note"


def test_how_much_rests_on_memory_is_said() -> None:
    assert "one answer of two" in memory_note(
        assessment(finding(), finding(rule="a/b", workings=()))
    )
    assert memory_note(assessment(finding(workings=()))) == ""


def test_many_places_in_one_file_are_told_by_their_range() -> None:
    inputs = tuple(Input(f"fact_{at}", "fact", "1 m", f"job.toml:{at}") for at in range(11, 18))
    text = " ".join(told(assessment(finding(inputs=inputs))).split())
    assert "job.toml, 7 lines from 11 to 17" in text
    text = " ".join(told(assessment(finding(inputs=inputs[:6]))).split())
    assert "job.toml, lines 11, 12, 13, 14, 15 and 16" in text
