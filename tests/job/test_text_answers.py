"""A filled form is understood whether or not its answers stand in the quotes of their blanks."""

from pathlib import Path

import pytest

from tundish import Job, Refused
from tundish.job.facts import flatten
from tundish.job.model.kinds import NumberKind, TextKind, TextsKind, TruthKind, WholeKind
from tundish.job.text_answers import parse_answer


def filled(folder: Path, form: str) -> dict[str, object]:
    (folder / "job.toml").write_text("[job]\ntitle = 'A house'\n")
    (folder / "form.toml").write_text(f"of_job = 'job.toml'\n{form}")
    return dict(flatten(Job.from_file(folder / "form.toml")).values)


@pytest.mark.parametrize(
    ("kind", "text", "said"),
    [
        (TruthKind(), "yes", True),
        (TruthKind(), " No ", False),
        (TruthKind(), "perhaps", "perhaps"),
        (WholeKind(), "4", 4),
        (NumberKind(), "0.85", 0.85),
        (NumberKind(), "much", "much"),
        (TextsKind(("a", "b")), "a, b", ["a", "b"]),
        (TextsKind(("a", "b")), "none", []),
        (TextsKind(), "hall, left; kitchen", ["hall, left", "kitchen"]),
        (TextKind(), "yes", "yes"),
    ],
)
def test_a_text_says_what_its_kind_can_be(kind, text: str, said: object) -> None:
    assert parse_answer(text, kind) == said


def test_answers_in_the_quotes_of_their_blanks_are_read(tmp_path: Path) -> None:
    values = filled(
        tmp_path,
        "building.occupants = '4'\nplacement.access = 'yes'\n"
        "water.treatment = 'inhibitor, biocide'\nwater.filling.ph = '7.2'\n"
        "[[water.emitter]]\nname = '2'\nbalanced = 'no'\n",
    )
    assert values["building.occupants"] == 4
    assert values["placement.access"] is True
    assert values["water.treatment"] == ("inhibitor", "biocide")
    assert values["water.filling.ph"] == 7.2
    assert values["water.emitter"] == [{"name": "2", "balanced": False}]


def test_answers_without_quotes_are_read_as_before(tmp_path: Path) -> None:
    values = filled(tmp_path, "building.occupants = 4\nplacement.access = false\n")
    assert values["building.occupants"] == 4
    assert values["placement.access"] is False


def test_what_no_kind_reads_is_refused_in_the_form(tmp_path: Path) -> None:
    with pytest.raises(Refused) as refused:
        filled(tmp_path, "building.occupants = 'four'\n")
    (problem,) = refused.value.problems
    assert (problem.line, problem.key) == (2, "building.occupants")


def test_a_job_itself_writes_a_truth_without_quotes(tmp_path: Path) -> None:
    with pytest.raises(Refused):
        Job.from_toml("placement.access = 'yes'")
