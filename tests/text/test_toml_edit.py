"""A value put into TOML stands in its place, and nothing else moves."""

import tomllib

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tundish.text.toml_edit.edit import EditError, Guide, with_value

TABLES = ("site", "placement", "water", "water.filter", "water.run", "water.run.insulation")
GUIDE = Guide(
    lambda names: ".".join(names) in TABLES,
    lambda names: tuple(TABLES.index(name) if name in TABLES else 99 for name in names),
)


def put(text: str, path: tuple, value: object) -> str:
    return with_value(text, path, value, GUIDE)


def test_a_commented_line_gives_up_its_place() -> None:
    text = '[site]\n# How deep?\n# snow = "1 m"\naltitude = "2 m"\n'
    assert put(text, ("site", "snow"), "3 m") == text.replace('# snow = "1 m"', 'snow = "3 m"')


def test_a_comment_of_the_user_behind_a_commented_line_stays() -> None:
    text = '[site]\n#snow = "1 m"  # ask Ann\n'
    assert put(text, ("site", "snow"), "3 m") == '[site]\nsnow = "3 m"  # ask Ann\n'


def test_a_line_in_a_comment_under_its_whole_path_gives_up_its_place() -> None:
    text = 'unit_sheet = "a"\n# site.snow = "1 m"  # How deep?\n# site.altitude = "2 m"\n'
    filled = put(text, ("site", "altitude"), "3 m")
    assert filled == text.replace('# site.altitude = "2 m"', 'site.altitude = "3 m"')
    filled = put(filled, ("site", "snow"), "2 m")
    assert 'site.snow = "2 m"  # How deep?\n' in filled


def test_a_fact_of_no_line_goes_behind_those_of_its_table() -> None:
    text = '# site.snow = "1 m"\n\n# water.fluid = "water"\n'
    assert put(text, ("site", "altitude"), "3 m") == (
        '# site.snow = "1 m"\nsite.altitude = "3 m"\n\n# water.fluid = "water"\n'
    )


def test_a_group_begun_gives_way_to_its_first_fact() -> None:
    text = '# water.filter.mesh = "1 mm"\n# water.filter.kind = "y"\n'
    begun = put(text, ("water", "filter"), {})
    assert begun == f"water.filter = {{}}\n{text}"
    filled = put(begun, ("water", "filter", "kind"), "z")
    assert filled == '# water.filter.mesh = "1 mm"\nwater.filter.kind = "z"\n'
    assert tomllib.loads(put(filled, ("water", "filter", "mesh"), "2 mm"))["water"]["filter"] == {
        "kind": "z",
        "mesh": "2 mm",
    }


DOTTED = """\
job.stage = "survey"
# site.snow = "1 m"

## Which runs are there?
# [[water.run]]
# name = "x"
"""


@pytest.mark.parametrize(
    ("path", "value", "line"),
    [
        (("water", "filter", "mesh"), "2 mm", 'water.filter.mesh = "2 mm"'),
        (("water", "filter"), {}, "water.filter = {}"),
        (("water", "filter"), "none", 'water.filter = "none"'),
        (("water", "run"), [], "water.run = []"),
    ],
)
def test_what_no_line_speaks_of_ends_the_facts_under_whole_paths(
    path: tuple, value: object, line: str
) -> None:
    for text in (DOTTED, DOTTED.replace("# [[", "[[").replace("# name", "name")):
        if path != ("water", "run") or text == DOTTED:
            assert put(text, path, value) == text.replace("\n\n##", f"\n\n{line}\n\n##")


def test_what_no_line_speaks_of_stands_apart_from_headers_and_behind_its_like() -> None:
    text = put('job.a = 1\n[[water.run]]\nname = "x"\n', ("site", "snow"), "1 m")
    assert text == 'job.a = 1\n\nsite.snow = "1 m"\n\n[[water.run]]\nname = "x"\n'
    text = put(text, ("site", "ground", "bears"), "2 m")
    assert 'site.snow = "1 m"\nsite.ground.bears = "2 m"\n\n[[' in text
    assert put("job.a = 1", ("site", "snow"), 2) == "job.a = 1\n\nsite.snow = 2\n"


def test_a_group_of_no_line_stands_behind_the_lines_of_its_table() -> None:
    text = "job.a = 1\n# water.fluid = 2\n\n# site.snow = 3\n"
    begun = put(text, ("water", "filter"), {})
    assert begun == text.replace("fluid = 2\n", "fluid = 2\nwater.filter = {}\n")
    filled = put(begun, ("water", "filter", "mesh"), 4)
    assert filled == begun.replace("water.filter = {}", "water.filter.mesh = 4")


def test_none_of_a_list_stands_above_the_remark_that_leads_to_it() -> None:
    text = DOTTED.replace("# site.snow", "water.fluid = 2\n# site.snow")
    edited = put(text, ("water", "run"), [])
    assert edited == text.replace("fluid = 2\n", "fluid = 2\nwater.run = []\n")


def test_a_table_with_a_header_keeps_headers_the_style() -> None:
    text = "job.a = 1\n\n[site]\nsnow = 1\n"
    assert put(text, ("water", "b"), 2) == f"{text}\n[water]\nb = 2\n"


def test_a_line_under_its_whole_path_is_left_where_the_table_stands_elsewhere() -> None:
    text = '# site.snow = "1 m"\n[site]\naltitude = "2 m"\n'
    filled = put(text, ("site", "snow"), "3 m")
    assert tomllib.loads(filled)["site"] == {"altitude": "2 m", "snow": "3 m"}


def test_two_marks_are_for_reading_only() -> None:
    text = '## site.snow = "1 m"\n'
    assert put(text, ("site", "snow"), "3 m").startswith(text)


@pytest.mark.parametrize(
    "other",
    [
        '[water]\n# snow = "1 m"\n',  # of another table
        "# snow = as deep as last year\n",  # no TOML
        "## snow = 1\n",  # to be read, not to be filled in
        'note = """\n# snow = "1 m"\n"""\n',  # within a text
        'list = [\n# snow = "1 m"\n]\n',  # within a list
    ],
)
def test_what_only_looks_like_a_commented_line_stays(other: str) -> None:
    edited = put(f"[site]\n{other}", ("site", "snow"), "3 m")
    assert other.rstrip("\n") in edited
    assert tomllib.loads(edited)["site"]["snow"] == "3 m"


def test_a_header_in_a_comment_is_taken_up_with_its_line() -> None:
    text = "[water]\n# a = 1\n\n# Which?\n# [water.filter]\n\n# mesh = 1\n"
    edited = put(text, ("water", "filter", "mesh"), 2)
    assert edited == "[water]\n# a = 1\n\n# Which?\n[water.filter]\n\nmesh = 2\n"


def test_none_stands_before_the_header_that_waits_for_the_group() -> None:
    text = "[water]\na = 1\n\n# Which?\n# [water.filter]\n# mesh = 1\n"
    edited = put(text, ("water", "filter"), "none")
    assert edited == text.replace("# [water.filter]", 'filter = "none"\n# [water.filter]')


def test_none_is_never_put_behind_a_header_of_another_table() -> None:
    text = "[water]\na = 1\n\n[site]\n\n# [water.filter]\n"
    edited = put(text, ("water", "filter"), "none")
    assert edited == text.replace("a = 1\n", 'a = 1\nfilter = "none"\n')


def test_the_first_item_takes_up_what_waits_for_it_and_the_second_stands_behind_it() -> None:
    text = '[water]\n# [[water.run]]\n# name = "…"\n# length = "1 m"\n\n[site]\n'
    text = put(text, ("water", "run", 0), {"name": "flow"})
    text = put(text, ("water", "run", 1), {"name": "return"})
    text = put(text, ("water", "run", 0, "length"), "2 m")
    text = put(text, ("water", "run", 1, "length"), "3 m")
    assert text == (
        '[water]\n[[water.run]]\nname = "flow"\nlength = "2 m"\n\n'
        '[[water.run]]\nname = "return"\nlength = "3 m"\n\n[site]\n'
    )


@pytest.mark.parametrize(
    ("text", "path", "value", "wanted"),
    [
        ("a = { }\n", ("a", "b"), 1, "a = { b = 1 }\n"),
        ("a = { b = 1 } # x\n", ("a", "c"), 2, "a = { b = 1, c = 2 } # x\n"),
        ("a = { b.c = 1 }\n", ("a", "b", "d"), 2, "a = { b.c = 1, b.d = 2 }\n"),
        ("[s]\na.b = 1\nz = 3\n", ("s", "a", "c"), 2, "[s]\na.b = 1\na.c = 2\nz = 3\n"),
        ("a = [{ b = 1 }]\n", ("a", 0, "c"), 2, "a = [{ b = 1, c = 2 }]\n"),
        ("a = [\n  { b = 1 },\n]\n", ("a", 1), {"b": 2}, "a = [\n  { b = 1 }, { b = 2 },\n]\n"),
        ("a = []\n", ("a", 0), {}, "a = [{}]\n"),
        ("[[a]]\nb = 1\n", ("a", 0, "c", "d"), 2, "[[a]]\nb = 1\nc = { d = 2 }\n"),
        ('a = "old" # why\n', ("a",), "new", 'a = "new" # why\n'),
        ("a = 1", ("b",), 2, "a = 1\nb = 2\n"),
        ("# head\n\n[site]\n", ("a",), 1, "# head\n\na = 1\n\n[site]\n"),
        ("", ("site", "a"), 1, "[site]\na = 1\n"),
        ("[site.x]\n", ("site", "a"), 1, "[site]\na = 1\n\n[site.x]\n"),
    ],
)
def test_a_value_goes_where_its_table_stands(
    text: str, path: tuple, value: object, wanted: str
) -> None:
    # The last but one: a table whose inner one has a header already gets a header before it.
    assert put(text, path, value) == wanted


def test_a_new_table_stands_in_its_rank_and_not_between_a_comment_and_its_header() -> None:
    text = "[site]\na = 1\n\n# of the water\n[water]\nb = 2\n"
    edited = put(text, ("placement", "on"), "wall")
    assert edited == text.replace("# of", '[placement]\non = "wall"\n\n# of')


def test_a_new_table_of_the_last_rank_stands_at_the_end() -> None:
    assert put("[site]\na = 1", ("water", "b"), 2) == "[site]\na = 1\n\n[water]\nb = 2\n"


def test_line_ends_of_windows_stay() -> None:
    text = '# x\r\n[site]\r\n# snow = "1 m"\r\n\r\n[water]\r\n# [[water.run]]\r\n'
    for path, value in [
        (("site", "snow"), "2 m"),
        (("site", "depth"), "2 m"),
        (("water", "run", 0), {"name": "a"}),
        (("water", "run", 1), {"name": "b"}),
        (("placement", "on"), "wall"),
    ]:
        text = put(text, path, value)
    assert text.count("\n") == text.count("\r\n") > 9
    assert tomllib.loads(text)["water"]["run"] == [{"name": "a"}, {"name": "b"}]


@pytest.mark.parametrize(
    ("text", "path"),
    [
        ("a = 1\n", ("a", "b")),
        ("[a]\nb = 1\n", ("a",)),
        ("a = { b = 1 }\n[c]\n", ("a", "b", "c")),
    ],
)
def test_what_has_no_place_is_refused(text: str, path: tuple) -> None:
    with pytest.raises(EditError):
        put(text, path, 2)


LINES = st.lists(
    st.sampled_from(
        [
            "[site]",
            "[water]",
            "[water.filter]",
            "[[water.run]]",
            "[water.run.insulation]",
            "# [water.filter]",
            "# [[water.run]]",
            "# [water.run.insulation]",
            "# mesh = 1",
            "# name = 'x'",
            "# About it.",
            "",
            "mesh = 2",
            "filter.kind = 'y'",
            "run = [{ name = 'z' }]",
            "insulation = { a = 1 }",
        ]
    ),
    max_size=12,
)
PATHS = st.sampled_from(
    [
        ("site", "mesh"),
        ("water", "filter"),
        ("water", "filter", "mesh"),
        ("water", "run", 0),
        ("water", "run", 1),
        ("water", "run", 0, "name"),
        ("water", "run", 0, "insulation", "mesh"),
        ("mesh",),
    ]
)


@given(LINES, PATHS, st.sampled_from(["none", True, {}, {"name": "q"}]))
def test_whatever_a_text_holds_one_value_changes_and_every_comment_stays_or_gives_up_its_place(
    lines: list[str], path: tuple, value: object
) -> None:
    text = "".join(f"{line}\n" for line in lines)
    try:
        before = tomllib.loads(text)
        edited = put(text, path, value)
    except (tomllib.TOMLDecodeError, EditError, IndexError):
        return
    after = tomllib.loads(edited)
    assert reached(after, path) == value
    assert edited.count("# About it.") == text.count("# About it.")
    assert len(edited.splitlines()) >= len(lines)
    if before == after:
        assert reached(before, path) == value


def reached(data: object, path: tuple) -> object:
    for step in path:
        data = data[step]
    return data
