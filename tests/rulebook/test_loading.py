from pathlib import Path

import pytest

from rulebook.packs import QUANTITY, RULE, SOURCES, TABLE, load, write_pack
from tundish.rulebook.rulebook import Rulebook
from tundish.text.problem import Refused

FILES = {
    "snow/base.toml": RULE,
    "snow/quantities.toml": QUANTITY,
    "tables/ratings.toml": TABLE,
}


def test_a_rule_is_named_by_its_place(tmp_path: Path) -> None:
    rulebook = load(tmp_path, FILES)
    assert list(rulebook.rules) == ["snow/base"]
    rule = rulebook.rule("snow/base")
    assert (rule.topic, rule.severity, rule.stage) == ("snow", "fault", "design")
    assert rulebook.topics() == ["snow"]


def test_rules_come_sorted_by_name_whatever_the_file_system_gives(tmp_path: Path) -> None:
    rulebook = load(tmp_path, {f"{name}.toml": RULE for name in ("z/a", "a/z", "a/b", "m/m")})
    assert list(rulebook.rules) == ["a/b", "a/z", "m/m", "z/a"]


def test_a_rule_is_found_by_a_name_it_had_before(tmp_path: Path) -> None:
    rulebook = load(tmp_path, {"snow/base.toml": 'formerly = ["snow/foot"]\n' + RULE})
    assert rulebook.rule("snow/foot").name == "snow/base"


def test_a_rule_that_is_not_there_is_met_with_the_nearest(tmp_path: Path) -> None:
    with pytest.raises(KeyError, match="Did you mean 'snow/base'"):
        load(tmp_path, FILES).rule("snow/bases")


def test_a_citation_says_that_it_is_from_memory(tmp_path: Path) -> None:
    cite = 'cite = [{ source = "code", at = "clause 7", recall = true, note = "others differ" }]'
    rule = load(
        tmp_path, {"snow/base.toml": RULE.replace('cite     = [{ source = "practice" }]', cite)}
    )
    (citation,) = rule.rule("snow/base").citations
    assert str(citation) == "Invented code (2020), clause 7 [from memory]; others differ"
    assert rule.rule("snow/base").from_memory
    assert not load(tmp_path / "other", FILES).rule("snow/base").from_memory


def test_a_plain_citation_is_the_title_alone(tmp_path: Path) -> None:
    (citation,) = load(tmp_path, FILES).rule("snow/base").citations
    assert str(citation) == "Common practice of an invented trade"


def test_quantities_may_need_each_other_in_any_order_of_files(tmp_path: Path) -> None:
    later = (
        QUANTITY.replace("spare_height", "twice_the_height")
        .replace("placement.height_below - site.snow_depth", "spare_height * 2")
        .replace("180 mm", "36 cm")
    )
    rulebook = load(tmp_path, {"a/quantities.toml": later, **FILES})
    session = rulebook.session({"placement.height_below": 0.3, "site.snow_depth": 0.1})
    assert session.derive("", "twice_the_height") == pytest.approx(0.4)


def test_a_table_is_read_in_si_units_and_sorted(tmp_path: Path) -> None:
    rulebook = load(tmp_path, FILES)
    table = rulebook.scope.tables["ratings"]
    assert list(table.tree.items()) == [(6.0, (10.5,)), (10.0, (16.0,))]
    assert rulebook.tables["ratings"].citations[0].recall


def test_a_table_of_two_keys_is_nested(tmp_path: Path) -> None:
    text = TABLE.replace(
        'keys     = [{ name = "current", unit = "A", read = "next up" }]',
        'keys = [{ name = "pipe" }, { name = "size", unit = "mm", read = "linear" }]',
    ).replace("[10, 16],\n  [6, 10.5]", '["steel", 22, 5], ["copper", 28, 4], ["copper", 15, 1]')
    table = load(tmp_path, {"snow/base.toml": RULE, "tables/ratings.toml": text}).scope.tables[
        "ratings"
    ]
    assert table.tree["copper"] == {0.015: (1.0,), 0.028: (4.0,)}
    assert table.read("rating", ["copper", 0.0215]).value == pytest.approx(2.5)
    assert "no row for pipe 'lead'" in table.read("rating", ["lead", 0.02]).why


def test_a_rule_reads_a_table(tmp_path: Path) -> None:
    rule = RULE.replace(
        "placement.height_below >= site.snow_depth", "lookup('ratings', 7 A) == 16 A"
    )
    assert load(tmp_path, {**FILES, "snow/base.toml": rule}).rules


def test_a_pack_of_its_own_needs_no_rules_if_it_says_what_it_is(tmp_path: Path) -> None:
    assert load(tmp_path, {"pack.toml": 'title = "Nothing yet"\n'}).rules == {}


def test_hidden_files_and_folders_are_passed_over(tmp_path: Path) -> None:
    hidden = {".trash/old.toml": "= broken", "snow/.base.toml": "= broken"}
    assert list(load(tmp_path, {**FILES, **hidden}).rules) == ["snow/base"]


def test_only_toml_files_are_read(tmp_path: Path) -> None:
    assert load(tmp_path, {**FILES, "README.md": "= broken", "snow/notes.txt": "="}).rules


# -- digest ---------------------------------------------------------------------------------


def test_the_digest_changes_with_any_content(tmp_path: Path) -> None:
    plain = load(tmp_path / "plain", FILES).digest
    seen = {plain}
    for number, name in enumerate(FILES):
        changed = {**FILES, name: FILES[name] + "# a remark\n"}
        seen.add(load(tmp_path / f"changed-{number}", changed).digest)
    seen.add(load(tmp_path / "moved", {**FILES, "snow/other.toml": RULE}).digest)
    seen.add(load(tmp_path / "sources", {**FILES, "sources.toml": SOURCES + "\n"}).digest)
    assert len(seen) == 6


def test_the_digest_does_not_change_with_the_place(tmp_path: Path) -> None:
    one, other = load(tmp_path / "here", FILES), load(tmp_path / "far/away", FILES)
    assert one.digest == other.digest
    assert len(one.digest) == 64


def test_the_digest_does_not_change_with_the_order_of_writing(tmp_path: Path) -> None:
    backwards = dict(reversed(FILES.items()))
    assert load(tmp_path / "a", FILES).digest == load(tmp_path / "b", backwards).digest


# -- several packs --------------------------------------------------------------------------


def two_packs(tmp_path: Path, files: dict[str, str]) -> Rulebook:
    lower = write_pack(tmp_path / "lower", FILES)
    upper = write_pack(tmp_path / "upper", {"sources.toml": "", **files})
    return Rulebook.load(lower, upper, with_built_in=False)


def refusal_of_two(tmp_path: Path, files: dict[str, str]) -> str:
    with pytest.raises(Refused) as caught:
        two_packs(tmp_path, files)
    return str(caught.value)


def test_a_pack_adds_rules_and_uses_the_sources_beneath(tmp_path: Path) -> None:
    rulebook = two_packs(tmp_path, {"snow/more.toml": RULE})
    assert list(rulebook.rules) == ["snow/base", "snow/more"]


def test_a_pack_replaces_a_rule_and_says_why(tmp_path: Path) -> None:
    stricter = 'replaces = "Our snow drifts."\n' + RULE.replace("Stand the unit", "Hang the unit")
    rulebook = two_packs(tmp_path, {"snow/base.toml": stricter})
    assert rulebook.rule("snow/base").remedy == "Hang the unit higher."


def test_a_pack_cannot_silently_take_a_rules_place(tmp_path: Path) -> None:
    told = refusal_of_two(tmp_path, {"snow/base.toml": RULE})
    assert "Another pack already has a rule 'snow/base': say 'replaces' and why." in told


def test_what_is_not_there_cannot_be_replaced(tmp_path: Path) -> None:
    told = refusal_of_two(tmp_path, {"snow/bases.toml": 'replaces = "why not"\n' + RULE})
    assert "There is no rule 'snow/bases' to replace. Did you mean 'snow/base'?" in told
    assert "bases.toml:1:1" in told


RETIRE = """\
title = "A house pack"

[[retire]]
rule    = "snow/base"
because = "It never snows here."
"""


def test_a_pack_retires_a_rule(tmp_path: Path) -> None:
    assert two_packs(tmp_path, {"pack.toml": RETIRE}).rules == {}


def test_what_is_not_there_cannot_be_retired(tmp_path: Path) -> None:
    told = refusal_of_two(tmp_path, {"pack.toml": RETIRE.replace("snow/base", "snow/bass")})
    assert (
        "pack.toml:4:1: There is no rule 'snow/bass' to retire. Did you mean 'snow/base'?" in told
    )


def test_a_retirement_says_why(tmp_path: Path) -> None:
    told = refusal_of_two(tmp_path, {"pack.toml": RETIRE.replace("because", "# because")})
    assert "The retirement has no 'because'." in told


@pytest.mark.parametrize(
    ("name", "text", "said"),
    [
        ("sources.toml", SOURCES, "Another pack already has a source 'practice'."),
        ("tables/ratings.toml", TABLE, "Another pack already has a table 'ratings'."),
        ("ice/quantities.toml", QUANTITY, "A quantity 'spare_height' already stands elsewhere."),
    ],
)
def test_names_of_two_packs_may_not_clash(tmp_path: Path, name: str, text: str, said: str) -> None:
    told = refusal_of_two(tmp_path, {"snow/more.toml": RULE, name: text})
    assert said in told


def test_a_pack_needs_no_bibliography_of_its_own(tmp_path: Path) -> None:
    write_pack(tmp_path / "lower", FILES)
    upper = write_pack(tmp_path / "upper", {"snow/more.toml": RULE})
    (upper / "sources.toml").unlink()
    rulebook = Rulebook.load(tmp_path / "lower", upper, with_built_in=False)
    assert list(rulebook.rules) == ["snow/base", "snow/more"]


def test_the_built_in_pack_lies_beneath_unless_it_is_left_out(tmp_path: Path) -> None:
    pack = write_pack(
        tmp_path,
        {"sources.toml": "", "snow/base.toml": RULE.replace("practice", "common-practice")},
    )
    rulebook = Rulebook.load(pack)
    assert "snow/base" in rulebook.rules
    assert set(Rulebook.built_in().rules) < set(rulebook.rules)
    assert rulebook.digest != Rulebook.built_in().digest


def test_the_built_in_rulebook_is_read_once() -> None:
    assert Rulebook.built_in() is Rulebook.built_in()


def test_a_topic_may_have_a_folder_of_quantities(tmp_path: Path) -> None:
    more = QUANTITY.replace("spare_height", "other_height")
    files = {"snow/quantities/spare.toml": QUANTITY, "snow/quantities/other.toml": more}
    rulebook = load(tmp_path, {"snow/clear.toml": RULE, **files})
    names = {name: quantity.topic for (_, name), quantity in rulebook.quantities.items()}
    assert names == {"spare_height": "snow", "other_height": "snow"}


def test_forms_of_a_pack_on_top_are_refused_as_nothing_reads_them(tmp_path: Path) -> None:
    write_pack(tmp_path / "lower", {**FILES, "forms/walk.toml": "place = []\n"})
    Rulebook.load(tmp_path / "lower", with_built_in=False)
    files = {"snow/more.toml": RULE, "forms/walk.toml": "place = []\n"}
    upper = write_pack(tmp_path / "upper", files)
    (upper / "sources.toml").unlink()
    with pytest.raises(Refused, match="Forms are those of the built-in rules") as refused:
        Rulebook.load(tmp_path / "lower", upper, with_built_in=False)
    assert refused.value.problems[0].file == str(upper / "forms" / "walk.toml")


def test_a_folder_of_forms_alone_is_refused_with_the_reason(tmp_path: Path) -> None:
    (tmp_path / "forms").mkdir()
    (tmp_path / "forms" / "walk.toml").write_text("place = []\n", "utf-8")
    (tmp_path / "pack.toml").write_text('title = "Forms"\n', "utf-8")
    with pytest.raises(Refused, match="This folder holds forms and no rules"):
        Rulebook.load(tmp_path, with_built_in=False)
