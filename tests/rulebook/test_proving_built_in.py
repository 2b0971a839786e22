"""Cases of the built-in rulebook that are made wrong are told with their numbers."""

import shutil
from collections.abc import Mapping
from pathlib import Path

import pytest

from tundish.findings.proof_phrases import ProofWords
from tundish.rulebook.prove.prove import Failure, prove
from tundish.rulebook.rulebook import Rulebook
from tundish.text.bundled_folders import bundled_folder
from tundish.text.problem import Refused


def copy(folder: Path) -> Path:
    return shutil.copytree(bundled_folder("rules"), folder / "rules")


def change(folder: Path, name: str, old: str, new: str) -> None:
    path = folder / name
    text = path.read_text()
    assert old in text, (name, old)
    path.write_text(text.replace(old, new, 1))


@pytest.fixture(scope="module")
def failures(tmp_path_factory: pytest.TempPathFactory) -> Mapping[str, list[Failure]]:
    folder = copy(tmp_path_factory.mktemp("wrong"))
    change(folder, "clearances/below.toml", '"15 cm", "unit', '"14 cm", "unit')
    open_case = 'outcome = "undecided"\nunknown = ["placement.height_below"]'
    change(folder, "clearances/below.toml", open_case, 'outcome = "met"')
    change(folder, "water-circuit/quantities/content.toml", '"10.78 L"', '"10.9 L"')
    siting = "order-list/provisions/siting.toml"
    change(folder, siting, 'number = "5" }', 'number = "6" }')
    bracket = '"unit.placing.feet.in_the_box" = false }, outcome = "not needed"'
    change(folder, siting, bracket, bracket.replace("not needed", "needed"))
    book = Rulebook.load(folder, with_built_in=False)
    chosen = {"clearances/below", "pipe_content", "foot"}
    found = list(prove(book, ProofWords(), chosen))
    assert {proof.name for proof in found} == chosen
    return {proof.name: list(proof.failures) for proof in found}


def test_a_rule_that_comes_out_breached_says_by_how_much(
    failures: Mapping[str, list[Failure]],
) -> None:
    assert failures["clearances/below"][0].sentence == (
        "It comes out breached, not met: height below the unit 14 cm is less than 150 mm: short by "
        "10 mm."
    )


def test_a_rule_that_comes_out_undecided_says_what_is_not_known(
    failures: Mapping[str, list[Failure]],
) -> None:
    assert [one.sentence for one in failures["clearances/below"][1:]] == [
        "It comes out undecided, not met: placement.height_below is not known."
    ]


def test_a_quantity_says_the_value_that_comes_out_and_of_what_numbers(
    failures: Mapping[str, list[Failure]],
) -> None:
    (failure,) = failures["pipe_content"]
    assert failure.sentence == ("It comes out 10.782574 L, not 10.9 L: pi / 4 x 26.2 mm^2 x 20 m.")


def test_a_part_says_how_many_and_why_it_is_not_needed(
    failures: Mapping[str, list[Failure]],
) -> None:
    many, needless = failures["foot"]
    assert many.sentence == "It comes out 5, not 6."
    assert needless.sentence.startswith("It comes out 'not needed', where the case says 'needed': ")
    assert "wall" in needless.sentence


def test_one_wrong_source_of_the_built_in_rulebook_is_one_problem(tmp_path: Path) -> None:
    folder = copy(tmp_path)
    sources = (folder / "sources.toml").read_text()
    head, _, rest = sources.partition("[common-practice]")
    wrong = rest.replace('"common practice"', '"hearsay"', 1)
    (folder / "sources.toml").write_text(f"{head}[common-practice]{wrong}")
    with pytest.raises(Refused) as caught:
        Rulebook.load(folder, with_built_in=False)
    (problem,) = caught.value.problems
    assert "'basis' is one of" in problem.sentence
