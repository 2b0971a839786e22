"""The overview of several jobs."""

from report.made import assessment, everything
from tundish.report.page.plain_text import as_plain
from tundish.report.tell.overview import overview_lines


def test_each_job_has_a_row_with_its_worst_severity() -> None:
    jobs = [everything(), assessment(job="Barn", file="barn.toml")]
    text = " ".join(as_plain(overview_lines(jobs, [])).split())
    assert "#### DANGER Bungalow at the end of an invented lane, bungalow.toml: one danger" in text
    assert ".... none Barn, barn.toml: nothing known to be wrong" in text
    assert "two questions open now" in text


def test_what_could_not_be_read_is_not_left_out() -> None:
    assert "mill.toml: could not be read" in as_plain(
        overview_lines([], [("mill.toml", "could not be read")])
    )


def test_a_caution_of_several_jobs_is_told_once() -> None:
    one, other = assessment(cautions=("Isolate.",)), assessment(cautions=("Isolate.", "Lift."))
    text = as_plain(overview_lines([one, other], []))
    assert text.count("Isolate.") == 1
    assert text.count("Lift.") == 1
