"""Parts to be ordered: read, refused and proved as rules are."""

from pathlib import Path

import pytest

from rulebook.packs import PROVISIONS, RULE, load, only_problem, proofs


def files(old: str = "", new: str = "") -> dict[str, str]:
    assert old in PROVISIONS
    return {"snow/base.toml": RULE, "snow/provisions.toml": PROVISIONS.replace(old, new, 1)}


def test_a_part_is_called_by_the_words_of_its_key(tmp_path: Path) -> None:
    book = load(tmp_path, files())
    assert list(book.provisions) == ["frame", "sun cover"]
    assert book.provisions["frame"].names == ("frame", "Stand")
    assert book.provisions["frame"].from_memory
    assert not book.provisions["sun cover"].from_memory


def test_parts_may_stand_in_a_folder(tmp_path: Path) -> None:
    several = {"snow/base.toml": RULE, "snow/provisions/outdoors.toml": PROVISIONS}
    assert len(load(tmp_path, several).provisions) == 2


def test_every_case_holds(tmp_path: Path) -> None:
    found = proofs(tmp_path, files())
    for name in ("frame", "sun cover"):
        assert found[name].kind == "part"
        assert not found[name].failures, found[name].failures


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        (
            "> 200 mm",
            ">= 200 mm",
            "It comes out 'undecided', where the case says 'not needed': placement.feet is not "
            "known.",
        ),
        ('number  = "2"', 'number  = "3"', "It comes out 2, not 3."),
        ('number  = "250 cm"', 'number  = "2 m"', "It comes out 2.5 m, not 2 m."),
        ('number  = "250 cm"', 'number  = "2 L"', "2 L is no amount in m."),
        ('number  = "250 cm"', 'number  = "2"', "'2' has no unit"),
        ('unknown = ["placement.feet"]', "unknown = []", "It names as unknown placement.feet"),
        ('"300 mm", "pl', '"300", "pl', "Its facts are refused"),
    ],
)
def test_a_case_that_does_not_hold_is_told(tmp_path: Path, old: str, new: str, said: str) -> None:
    failures = [
        one for proof in proofs(tmp_path, files(old, new)).values() for one in proof.failures
    ]
    assert [one.sentence.startswith(said) for one in failures] == [True]


def test_a_part_shows_every_outcome(tmp_path: Path) -> None:
    text = PROVISIONS.partition("[[frame.case]]")[0]
    found = proofs(tmp_path, {"snow/base.toml": RULE, "snow/provisions.toml": text})
    assert [one.sentence for one in found["frame"].failures] == [
        "No case shows it needed.",
        "No case shows it not needed.",
        "No case shows it undecided.",
    ]


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        (
            'unit     = "m"',
            'unit     = "kW"',
            "ordered by number, length, volume, mass",
        ),
        ('unit     = "m"', 'unit     = "mm2x"', "mm2x"),
        ('number       = "2"', 'number       = "2 m"', ""),
        ('"site.snow_depth > 200 mm"', '"site.snow_depth"', ""),
        ('supplier     = "heating supplier"', 'supplier     = "nobody"', "'supplier' is one of"),
        (
            'also_called  = ["Stand"]',
            'also_called  = ["sun cover"]',
            "'sun cover' stands elsewhere",
        ),
        ('number       = "2"', 'nummer       = "2"', "Did you mean 'number'?"),
        ("[sun-cover]", "sun-shade = 3\n[sun-cover]", "has no key 'sun-shade'"),
        ('source = "code"', 'source = "kode"', "kode"),
    ],
)
def test_what_is_wrong_with_a_part_is_told(tmp_path: Path, old: str, new: str, said: str) -> None:
    assert said in only_problem(tmp_path, files(old, new)).sentence


def test_what_is_no_table_is_no_part(tmp_path: Path) -> None:
    text = "frame = 3\n"
    problem = only_problem(tmp_path, {"snow/base.toml": RULE, "snow/provisions.toml": text})
    assert problem.sentence == "'frame' is no table of a part."


def test_a_national_part_is_needed_there_alone(tmp_path: Path) -> None:
    national = {"snow/base.toml": RULE, "national/GB/snow/provisions.toml": PROVISIONS}
    national["national/GB/snow/again.toml"] = RULE
    provision = load(tmp_path, national).provisions["frame"]
    assert provision.region == "GB"
