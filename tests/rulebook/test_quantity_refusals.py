"""Every way a quantity can be wrong, told at file, line and column."""

from pathlib import Path

import pytest

from rulebook.packs import QUANTITY, RULE, only_problem, problems


@pytest.mark.parametrize(
    ("old", "new", "line", "said"),
    [
        (
            "[spare_height]",
            "[Spare-height]",
            1,
            "'Spare-height' is no name: small letters, digits and '_'.",
        ),
        ("[spare_height]", "[site]", 1, "'site' already names a part of the job."),
        ("[spare_height]", "[pi]", 1, "'pi' is a word of the language."),
        ("[spare_height]", "[and]", 1, "'and' is a word of the language."),
        ('unit     = "mm"', "", 1, "A quantity has either a 'unit' or 'gives' (truth or text)."),
        (
            'unit     = "mm"',
            'unit = "mm"\ngives = "truth"',
            1,
            "A quantity has either a 'unit' or 'gives'",
        ),
        ('"mm"', '"mn"', 5, "'mn' is no known unit. Did you mean"),
        (
            '"mm"',
            '"kW"',
            4,
            "This gives a quantity of length, where a quantity of power is asked for.",
        ),
        (
            'unit     = "mm"',
            'gives = "truth"',
            4,
            "This gives a quantity of length, where a condition (true or false) is asked for.",
        ),
        ('unit     = "mm"', 'gives = "number"', 5, "'gives' is one of"),
        ("label    =", "lable    =", 2, "A quantity has no key 'lable'. Did you mean 'label'?"),
        ("- site.snow_depth", "- site.snow", 4, "Nothing is called 'site.snow'. Did you mean"),
        ('"practice"', '"practise"', 6, "sources.toml has no source 'practise'."),
        (
            'unit     = "mm"',
            'unit = "mm"\nof = "water.runs as run"',
            6,
            "'water.runs' is no list of a job.",
        ),
        ("[spare_height]", "stray = 5\n[spare_height]", 1, "'stray' is no table of a quantity."),
        (
            'value = "180 mm"',
            'value = "180 mm"\nwithin = "a bit"',
            15,
            "'a bit' does not begin with a number",
        ),
        ('value = "180 mm"', "value = 180", 14, "'value' cannot be 180."),
    ],
)
def test_a_quantity_is_refused_with_a_sentence_at_its_place(
    tmp_path: Path, old: str, new: str, line: int, said: str
) -> None:
    assert old in QUANTITY
    text = QUANTITY.replace(old, new)
    if old == "[spare_height]":
        name = new.strip("[]") if "\n" not in new else "spare_height"
        text = text.replace("[[spare_height.", f"[[{name}.")
    found = problems(tmp_path, {"snow/quantities.toml": text, "snow/base.toml": RULE})
    seen = [(each.line, said in each.sentence) for each in found]
    assert (line, True) in seen, [str(each) for each in found]


def test_a_quantity_of_items_may_not_take_the_name_of_their_fact(tmp_path: Path) -> None:
    text = QUANTITY.replace("spare_height", "length").replace(
        'unit     = "mm"', 'unit = "mm"\nof = "water.run as run"'
    )
    problem = only_problem(tmp_path, {"snow/quantities.toml": text, "snow/base.toml": RULE})
    assert problem.sentence == "'length' already names a fact of water.run."


def test_a_quantity_can_only_be_one_of_the_words_it_says(tmp_path: Path) -> None:
    text = QUANTITY.replace('unit     = "mm"', 'gives = "text"\nchoices = ["deep", "shallow"]')
    text = text.replace(
        "placement.height_below - site.snow_depth",
        "if site.snow_depth > 1 m then 'deep' else 'shalow'",
    )
    problem = only_problem(tmp_path, {"snow/quantities.toml": text, "snow/base.toml": RULE})
    assert "'shalow' is none of the words this can be: deep, shallow." in problem.sentence
