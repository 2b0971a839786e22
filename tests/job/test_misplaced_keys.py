import pytest

from tundish.job.job import Job
from tundish.text.problem import Problem, Refused

MARKED = "The line '# [[{}]]' above it still has its mark; take that off too."


def refused(text: str) -> tuple[Problem, ...]:
    with pytest.raises(Refused) as caught:
        Job.from_toml(text, "job.toml")
    return caught.value.problems


def told(text: str) -> list[tuple[int | None, str]]:
    return [(problem.line, problem.sentence) for problem in refused(text)]


def test_a_key_below_a_header_in_a_comment_is_told_by_that_header() -> None:
    text = "job.title = 't'\n\n# [[placement.hears]]\n## Who hears it?\nname = 'bedroom'\n"
    assert told(text) == [(5, "'name' is no key of a job. " + MARKED.format("placement.hears"))]


def test_a_block_below_one_such_header_is_told_once() -> None:
    text = "# [[placement.hears]]\nname = 'x'\n# whose = 'neighbour'\nkind = 'bedroom'\n"
    assert [line for line, _ in told(text)] == [2]


def test_so_is_a_key_that_lands_in_the_item_above() -> None:
    text = "[[water.run]]\nname = 'flow'\n\n# [[water.emitter]]\nroom = 'living room'\n"
    ((line, sentence),) = told(text)
    assert line == 5
    assert sentence == "'room' is no key of 'water.run[1]'. " + MARKED.format("water.emitter")


def test_a_key_that_stands_twice_for_want_of_a_header_is_told_by_the_header() -> None:
    text = "[[water.run]]\nname = 'flow'\n\n# [[water.emitter]]\nname = 'y'\nkind = 'x'\n"
    (first, second) = refused(text)
    assert first.sentence.split("\n")[0] == (
        "'name' stands twice in this table: here and on line 2. " + MARKED.format("water.emitter")
    )
    assert (second.line, second.key) == (6, "water.emitter[1].kind")


@pytest.mark.parametrize(
    "text",
    [
        "# [[placement.hears]]\n\nqqqq = 1\n",
        "# [[placement.hears]]\n[site]\nqqqq = 1\n",
        "# [[qqqq]]\nqqqq = 1\n",
        "# [1] a note\nqqqq = 1\n",
    ],
)
def test_a_header_that_is_none_of_its_block_is_not_meant(text: str) -> None:
    ((_, sentence),) = told(text)
    assert "mark" not in sentence


def test_a_whole_path_below_a_header_is_sent_to_the_top_of_the_file() -> None:
    text = "site.altitude = '4 m'\n[[water.run]]\nname = 'flow'\nplacement.base.kind = 'paving'\n"
    sentence = (
        "Lines below [[water.run]] (line 2) belong to it; move this line, and others like it, "
        "above that, to the top of the file."
    )
    assert told(text) == [(4, sentence)]
    more = "placement.base.level = true\nbuilding.occupants = 4\nsite.snow_depth = '1 m'\n"
    assert told(text + more) == [(4, sentence)]


def test_a_path_that_repeats_its_header_may_leave_it_out() -> None:
    text = "[site]\nsite.altitude = '4 m'\nsite.snow_depth = '1 m'\n"
    ((line, sentence),) = told(text)
    assert line == 2
    assert sentence.endswith("to the top of the file, or leave out 'site.' here.")
    ((_, sentence),) = told("[water.frost]\nwater.frost.glycol = 'none'\n")
    assert sentence.endswith("or leave out 'water.frost.' here.")


def test_two_causes_below_one_header_are_told_apart() -> None:
    text = "[site]\nsite.altitude = '4 m'\nbuilding.occupants = 4\n"
    assert [line for line, _ in told(text)] == [2, 3]


def test_a_table_in_braces_or_with_a_header_is_no_line_below_one() -> None:
    for text in ("[water]\nfilling = { site = 1 }\n", "[placement]\n[placement.site]\n"):
        ((_, sentence),) = told(text)
        assert "is no key of" in sentence
