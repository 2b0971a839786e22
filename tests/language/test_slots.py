"""Names of values are used again, but not before the last look at them."""

from __future__ import annotations

from tundish.language.codegen.registers import in_few_slots


def test_a_name_is_used_again_behind_the_last_look_at_it() -> None:
    lines = ["v1 = get('a')", "v2 = -v1", "v3 = -v2", "r0 = v3"]
    assert in_few_slots(lines) == ["v0 = get('a')", "v1 = -v0", "v0 = -v1", "r0 = v0"]


def test_what_a_loop_looks_at_is_kept_to_its_last_round() -> None:
    lines = [
        "v1 = 1.0",
        "for v2 in v9:",
        "    for v3 in v8:",
        "        v4 = v1",
        "    v5 = v2",
        "v6 = v5",
    ]
    named = in_few_slots(lines)
    kept = named[0].split()[0]
    assert all(kept not in line.split(" = ")[0] for line in named[1:5])
    assert named[3].strip().endswith(f"= {kept}")
    assert named[5].split()[0] == kept or named[5].startswith("v")


def test_a_value_that_a_round_made_is_kept_for_that_round_alone() -> None:
    lines = ["for v1 in v0:", "    v2 = v1.get('a')", "    v3 = -v2", "    v4 = -v3"]
    # Python holds on to what it loops over, whatever becomes of the name.
    assert in_few_slots(lines) == [
        "for v1 in v0:",
        "    v0 = v1.get('a')",
        "    v1 = -v0",
        "    v0 = -v1",
    ]


def test_texts_that_look_like_names_stay() -> None:
    lines = ["v7 = 'v7'", 'v8 = "v7 \' v8"', "v9 = 'it\\'s v7' in (v7, v8)"]
    assert in_few_slots(lines) == [
        "v0 = 'v7'",
        'v1 = "v7 \' v8"',
        "v2 = 'it\\'s v7' in (v0, v1)",
    ]


def test_what_is_only_copied_has_its_last_name_at_once() -> None:
    lines = ["if v9:", "    v1 = get('v1')", "    v2 = v1", "r0 = v2"]
    assert in_few_slots(lines) == ["if v0:", "    v0 = get('v1')", "r0 = v0"]


def test_what_is_looked_at_again_is_copied() -> None:
    for lines in (
        ["v1 = get('a')", "v2 = v1", "r0 = v1 + v2"],
        ["if v9:", "    v1 = get('a')", "v2 = v1", "r0 = v2"],
        ["v1 = get('a')", "v3 = get('b')", "v2 = v1", "r0 = v2 + v3"],
    ):
        assert len(in_few_slots(lines)) == len(lines)
