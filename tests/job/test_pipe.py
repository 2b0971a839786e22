import pytest
from hypothesis import given
from hypothesis import strategies as st

from tundish.job.model.pipe_size import parse_pipe_size


def test_a_size_in_millimetres_has_diameter_and_wall() -> None:
    pipe = parse_pipe_size("copper 28 x 0.9")
    assert (pipe.material, pipe.size, str(pipe)) == ("copper", "28 x 0.9", "copper 28 x 0.9")
    assert pipe.outside_diameter is not None and str(pipe.outside_diameter) == "28 mm"
    assert pipe.wall is not None and pipe.wall.si == pytest.approx(0.0009)


def test_a_nominal_size_leaves_diameter_and_wall_unknown() -> None:
    pipe = parse_pipe_size("stainless steel DN 25")
    assert (pipe.material, pipe.size) == ("stainless steel", "DN25")
    assert pipe.outside_diameter is None and pipe.wall is None


def test_a_wall_left_out_is_unknown() -> None:
    assert parse_pipe_size("PEX 32").wall is None


@pytest.mark.parametrize("text", ["PEX 32 × 2.90 mm", "pex 32x2.9", "  PEX   32 mm x 2.9 mm "])
def test_one_size_is_known_by_any_of_its_spellings(text: str) -> None:
    pipe = parse_pipe_size(text)
    assert (pipe.material, pipe.size) == ("PEX", "32 x 2.9")


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("", "copper 28 x 0.9"),
        ("copper", "copper 28 x 0.9"),
        ("28 x 0.9", "copper 28 x 0.9"),
        ("copper 28 by 0.9", "copper 28 x 0.9"),
        ("copper DN0", "copper 28 x 0.9"),
        ("coper 28 x 0.9", "Did you mean 'copper'?"),
        ("copper 28 x 14", "no bore"),
        ("copper 0 x 0", "above zero"),
        ("copper 28 x 0", "above zero"),
        ("copper " + "2" * 100, "is no pipe size"),
    ],
)
def test_what_is_no_pipe_size_is_refused_with_what_would_be(text: str, said: str) -> None:
    with pytest.raises(ValueError) as caught:
        parse_pipe_size(text)
    assert said in str(caught.value)


def test_the_thickest_wall_that_leaves_a_bore_is_accepted() -> None:
    assert parse_pipe_size("steel 28 x 13.99").wall is not None


@given(st.text())
def test_any_text_is_read_or_refused_with_a_sentence(text: str) -> None:
    try:
        assert parse_pipe_size(text).material
    except ValueError as error:
        assert str(error).endswith(("?", "."))
