import math
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tundish.job.job import Job
from tundish.job.parts.site import Site
from tundish.text.bounds import LONGEST_LIST, MOST_PROBLEMS
from tundish.text.problem import Problem, Refused


def refused(text: str) -> tuple[Problem, ...]:
    with pytest.raises(Refused) as caught:
        Job.from_toml(text, "job.toml")
    return caught.value.problems


def told(text: str) -> tuple[int | None, int | None, str]:
    (problem,) = refused(text)
    assert problem.file == "job.toml"
    return problem.line, problem.column, problem.sentence


@pytest.mark.parametrize(
    ("text", "line", "column", "said"),
    [
        ("[sit]\n", 1, 2, "Did you mean 'site'?"),
        ("[site]\nsnow_dept = '1 m'\n", 2, 1, "Did you mean 'snow_depth'?"),
        ("[site]\nminimum_free_volume = '1 L'\n", 2, 1, "'unit.water.minimum_free_volume'"),
        ("[site]\nqqqq = 1\n", 2, 1, "Its keys are design_air_temperature,"),
        ("[placement]\nclearance = { tip = 1 }\n", 2, 15, "Did you mean 'top'?"),
        ("[site]\nsnow_depth = 120\n", 2, 14, "120 has no unit; write a unit, such as '250 mm'"),
        (
            "[site]\nsnow_depth = '6 in'\n",
            2,
            15,
            "'6 in' is not metric: write it in mm, as 152.4 mm.",
        ),
        ("[site]\nsnow_depth = '6\"'\n", 2, 15, "write it in mm, as 152.4 mm."),
        ("[site]\nsnow_depth = '120'\n", 2, 15, "no unit"),
        ("[site]\nsnow_depth = '120 mmm'\n", 2, 15, "Did you mean"),
        ("[site]\nsnow_depth = '5 kW'\n", 2, 15, "write a length such as '250 mm'"),
        ("[site]\nsnow_depth = true\n", 2, 14, "Write a length such as '250 mm', not true"),
        ("[site]\nsnow_depth = '-1 mm'\n", 2, 15, "the least possible is 0 mm"),
        ("[site]\ndesign_air_temperature = '-300 degC'\n", 2, 27, "least possible is -273.15 degC"),
        ("[site]\ndesign_air_temperature = '270 K'\n", 2, 27, "write a point on a scale such as"),
        ("[water]\ntemperature_difference = '5 degC'\n", 2, 27, "a difference such as '5 K'"),
        ("[water.frost.glycol]\nfraction = '120 %'\n", 2, 13, "the most possible is 100 %"),
        ("[site]\nexposure = 'open shor'\n", 2, 13, "Did you mean 'open shore'?"),
        ("[site]\nexposure = 3\n", 2, 12, "3 is not among the choices: 'open shore'"),
        ("[site]\ndrifting = 'yes'\n", 2, 13, "Write true or false, without quotes"),
        ("[building]\noccupants = 2.5\n", 2, 13, "Write a whole number"),
        ("[building]\noccupants = -1\n", 2, 13, "from 0 up"),
        ("[building]\noccupants = true\n", 2, 13, "Write a whole number"),
        ("[electricity]\nphases = 2\n", 2, 10, "write 1 or 3"),
        ("[water.filling]\nph = '7'\n", 2, 7, "plain number"),
        ("[water.filling]\nph = nan\n", 2, 6, "cannot be"),
        ("[water.filling]\nph = inf\n", 2, 6, "cannot be"),
        ("[water.filling]\nph = 14.1\n", 2, 6, "14"),
        ("[water.filling]\nhardness = '-1 dH'\n", 2, 13, "the least possible is 0 mmol/L"),
        ("[water.filling]\nhardness = '9 dHH'\n", 2, 13, "Did you mean 'dH'?"),
        ("[unit.water]\nsupplied = ['filtre']\n", 2, 12, "Did you mean 'filter'?"),
        ("[job]\ntitle = ' '\n", 2, 10, "blank"),
        ('[job]\ntitle = "a\\u001b[2J"\n', 2, 10, "control characters"),
        ("[job]\ntitle = 3\n", 2, 9, "Write text in quotes"),
        ("[job]\ndate = 'tomorrow'\n", 2, 9, "Write a date such as 2026-11-02"),
        ("[job]\ndate = 2026-11-02T10:00:00\n", 2, 8, "Write a date"),
        ("[job]\nregion = 'Britain'\n", 2, 11, "ISO 3166-1"),
        ("site = 3\n", 1, 8, "Write a table with facts in it, not 3"),
        ("[[site]]\n", 1, 3, "Write a table with facts in it, not a list"),
        ("[water.run]\n", 1, 8, "Write a list of tables: [[water.run]] above each of them"),
        ("[job]\nregion = 'UK'\n", 2, 11, "Did you mean 'GB'?"),
        ("[job]\nregion = 5\n", 2, 10, "Write a country by its two letters such as 'GB'"),
        ("[water]\nrun = 'none'\n", 2, 8, "[] says none"),
        ("[water]\nrun = [3]\n", 2, 8, "water.run[1]: Write a table"),
        ("[water]\ntreatment = 'inhibitor'\n", 2, 14, "Write a list in square brackets"),
        ("[water]\ntreatment = ['inhibitor', 'biocid']\n", 2, 13, "Did you mean 'biocide'?"),
        ("[water]\ntreatment = ['biocide', 'biocide']\n", 2, 13, "stands in the list twice"),
        ("[[water.run]]\npipe = 'coper 28'\n", 2, 9, "water.run[1].pipe: 'coper' is no pipe"),
        ("[[water.run]]\npipe = 28\n", 2, 8, "Write a pipe size such as"),
        (
            "[[water.run]]\nname='a'\n[[water.run]]\nname='a'\n",
            1,
            9,
            "named 'a'; names must",
        ),
        ("[placement]\nclearance = { top = 'opn' }\n", 2, 22, "does not begin with a number"),
        (
            "[placement.clearance]\ntop = '1 m'\nopen_above = true\n",
            1,
            12,
            "top states a length; leave one out",
        ),
        (
            "[placement.clearance]\ntop = 'open'\nopen_above = false\n",
            1,
            12,
            "open_above is false; leave one of them out",
        ),
        ("[[waiver]]\nreason = 'x'\n", 1, 3, "needs 'rule'"),
        (
            "[[waiver]]\nrule='a/b'\nreason='x'\nby='y'\nsince=2026-02-02\nuntil=2026-02-01\n",
            1,
            3,
            "before it begins",
        ),
    ],
)
def test_each_mistake_is_told_at_its_place(text: str, line: int, column: int, said: str) -> None:
    assert told(text)[:2] == (line, column)
    assert said in told(text)[2]


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("site.design_air_temperature = '-9'", "'-9' has no unit; write a temperature such as '-3"),
        ("site.snow_depth = 'deep'", "begin with a number; write a length such as '250 mm'."),
        ("placement.clearance.back = 5", "5 has no unit; write a unit, such as '300 mm'."),
        (
            "placement.clearance.top = 'none'",
            "write a length such as '1 m'. Write \"open\" where nothing is above it.",
        ),
        ("building.occupants = 'four'", "Write a whole number such as 4, not 'four'."),
        ("electricity.phases = 'one'", "Write a whole number such as 1, not 'one'."),
    ],
)
def test_a_refused_fact_is_told_by_an_example_of_its_own(line: str, said: str) -> None:
    assert said in told(line)[2]


def test_the_open_sky_is_not_told_to_whoever_wrote_a_length() -> None:
    assert "open" not in told("placement.clearance.top = '500'")[2]


@pytest.mark.parametrize("word", ["unknown", "not known", "N/A", "tbc", "?", " ?? "])
@pytest.mark.parametrize(
    "key", ["site.snow_depth", "site.drifting", "site.exposure", "job.date", "water.run"]
)
def test_a_fact_that_is_not_known_is_left_out(key: str, word: str) -> None:
    assert told(f"{key} = '{word}'")[2].endswith("Leave the line out while it is not known.")


def test_free_text_may_say_so() -> None:
    assert Job.from_toml("job.title = 'unknown'").job is not None


@pytest.mark.parametrize(
    "text",
    [
        "ca. 20 cm",
        "about 20 cm",
        "~20 cm",
        "approx 20cm",
        "20-30 cm",
        "20 – 30 cm",
        "20 cm to 30 cm",
        "20 cm - 30 cm",
        "20 ± 2 cm",
        "between 20 and 30 cm",
    ],
)
def test_a_rough_figure_is_sent_to_its_tolerance(text: str) -> None:
    assert told(f"site.snow_depth = '{text}'")[2].endswith(
        "Write one; [[tolerance]] says how far off it may be."
    )


@pytest.mark.parametrize("text", ["1e-3 parsnips", "5 m-2", "about", "20 cmm", "a-b", "-5"])
def test_what_is_only_misspelt_is_no_rough_figure(text: str) -> None:
    assert "tolerance" not in told(f"site.snow_depth = '{text}'")[2]


def test_all_choices_that_hold_the_written_word_are_offered() -> None:
    assert told("water.fluid = 'glycol'")[2].endswith(
        "Did you mean 'propylene glycol' or 'ethylene glycol'?"
    )


def test_all_mistakes_are_told_in_one_run_and_in_reading_order() -> None:
    text = "[water]\nfluid = 'wine'\nvolumes = 1\n[site]\nsnow_depth = 3\n[[waiver]]\n"
    problems = refused(text)
    assert [problem.line for problem in problems] == [2, 3, 5, 6]
    assert [problem.key for problem in problems] == [
        "water.fluid",
        "water.volumes",
        "site.snow_depth",
        "waiver[1]",
    ]


def test_places_are_counted_in_characters_past_a_byte_order_mark() -> None:
    assert told("\ufeff[job]\ntitle = 'ü'\n# ß\n[site]\nsnow_depth = 3\n")[:2] == (5, 14)


def test_the_longest_list_is_read_and_one_more_refused() -> None:
    items = "[water]\nrun = [" + "{}," * LONGEST_LIST + "]\n"
    job = Job.from_toml(items)
    assert job.water is not None and job.water.run is not None
    assert len(job.water.run) == LONGEST_LIST
    assert "10001 items" in told(items.replace("[{}", "[{},{}"))[2]


def test_the_most_problems_are_told_and_one_more_is_counted() -> None:
    wrong = "".join(f"k{number} = 1\n" for number in range(MOST_PROBLEMS))
    assert len(refused(wrong)) == MOST_PROBLEMS
    problems = refused(wrong + "one_more = 1\n")
    assert len(problems) == MOST_PROBLEMS + 1
    assert problems[0].sentence == "Not listed one by one: 1 more."


def test_a_part_built_in_python_is_refused_in_the_same_way() -> None:
    with pytest.raises(Refused, match="snow_depth: 120 has no unit") as caught:
        Site(snow_depth=120)
    (problem,) = caught.value.problems
    assert (problem.file, problem.line, problem.key) == ("<Site>", None, "snow_depth")
    with pytest.raises(Refused, match="is no key"):
        Site(snow="120 mm")


def test_facts_of_a_job_cannot_be_changed() -> None:
    site = Site(snow_depth="120 mm")
    with pytest.raises(ValueError, match="frozen"):
        site.snow_depth = None


def test_a_job_in_data_is_refused_without_a_place() -> None:
    with pytest.raises(Refused) as caught:
        Job.from_data({"site.snow_depth": 3, "water": {"fluid": "wine"}})
    assert [problem.line for problem in caught.value.problems] == [None, None]


@pytest.mark.parametrize(
    "data",
    [
        {"site.snow_depth": "1 m", "site": {"snow_depth": "2 m"}},
        {"site": {"snow_depth": "2 m"}, "site.snow_depth": "1 m"},
        {"site": "none", "site.snow_depth": "1 m"},
        {"site.snow_depth": "1 m", "site": "none"},
        {3: 4},
        {"site": {None: 4}},
        {"unit_sheet": "sheet.toml"},
    ],
)
def test_data_that_contradicts_itself_is_refused(data: Any) -> None:
    with pytest.raises(Refused):
        Job.from_data(data)


_ANY = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=8) | st.dates(),
    lambda inner: (
        st.lists(inner, max_size=3)
        | st.dictionaries(
            st.sampled_from(["name", "volume", "top", "on", "a.b"]), inner, max_size=3
        )
    ),
    max_leaves=8,
)


@given(
    st.dictionaries(
        st.sampled_from(["site", "water.run", "water.volume_vessel", "placement.clearance", "x"]),
        _ANY,
    )
)
def test_any_data_is_read_or_refused(data: dict[str, Any]) -> None:
    try:
        Job.from_data(data)
    except Refused as refusal:
        assert all(problem.sentence.isprintable() for problem in refusal.problems)


def test_a_number_past_every_float_is_refused() -> None:
    for value in (10**400, math.inf, -math.inf, math.nan):
        with pytest.raises(Refused):
            Job.from_data({"water.filling.ph": value})


@pytest.mark.parametrize(
    ("written", "share"), [("1 in 40", "2.5 %"), ("1:40", "2.5 %"), ("1/80", "1.25 %")]
)
def test_a_fall_is_answered_as_a_share(written: str, share: str) -> None:
    with pytest.raises(Refused) as caught:
        Job.from_data({"placement.condensate.fall": written})
    assert f"write it as a share: '{share}'" in caught.value.problems[0].sentence
