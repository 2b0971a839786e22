"""What is written and read again says the same: quantities, one-line TOML, jobs the tool writes."""

from __future__ import annotations

import datetime
import tomllib
from pathlib import Path
from random import Random
from typing import Any

import pytest
import tomli_w
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from laws.sample_data import WHOLE, sample_data
from laws.thinning import BOOK, SAMPLES
from tundish import Job
from tundish.command.main import main
from tundish.findings.assess import digest_of
from tundish.job.reader import nested_data
from tundish.text.inline_toml import inline
from tundish.units.quantity import parse_quantity
from tundish.units.unit import KNOWN

NUMBERS = st.one_of(
    st.integers(-(10**12), 10**12).map(str),
    st.decimals(-(10**6), 10**6, places=6, allow_nan=False).map(str),
    st.builds("{}e{}".format, st.integers(-999, 999), st.integers(-300, 290)),
)


@given(NUMBERS, st.sampled_from(sorted(set(KNOWN) - {"1"})))
def test_a_quantity_is_read_back(number: str, unit: str) -> None:
    try:
        quantity = parse_quantity(f"{number} {unit}")
    except ValueError:  # too large to be a measured value
        return
    again = parse_quantity(str(quantity))
    assert (again.exact, again.si, str(again)) == (quantity.exact, quantity.si, str(quantity))


KEYS = st.text(st.characters(codec="utf-8"), max_size=8).filter(lambda key: "." not in key)
VALUES = st.recursive(
    st.one_of(
        st.booleans(),
        st.integers(-(2**63), 2**63 - 1),
        st.floats(allow_nan=False),
        st.text(st.characters(codec="utf-8"), max_size=8),
        st.dates(min_value=datetime.date(1, 1, 1)),
    ),
    lambda inner: st.one_of(
        st.lists(inner, max_size=3), st.dictionaries(KEYS, inner, min_size=1, max_size=3)
    ),
    max_leaves=8,
)


@settings(suppress_health_check=[HealthCheck.too_slow])
@given(VALUES)
def test_a_value_on_one_line_is_read_back(value: Any) -> None:
    # Tables within tables are written as one path, which a case and a job read as such.
    assert nested_data(tomllib.loads(f"x = {inline(value)}")) == nested_data({"x": value})


def thinned_data(chance: Random, data: Any, share: float) -> Any:
    """Leave a share of the facts out; a waiver is kept whole, as it is refused without its rule."""
    if isinstance(data, dict):
        kept = {
            key: one if key == "waiver" else thinned_data(chance, one, share)
            for key, one in data.items()
        }
        return {key: one for key, one in kept.items() if chance.random() >= share}
    if isinstance(data, list):
        return [thinned_data(chance, one, share / 2) for one in data]
    return data


def joined(folder: Path, text: str) -> Job:
    (folder / "job.toml").write_text(text)
    target = folder / "joined.toml"
    target.unlink(missing_ok=True)
    assert main(["join", str(folder / "job.toml"), "--to", str(target)]) == 0
    return Job.from_file(target)


@settings(
    max_examples=20, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
@given(st.sampled_from(WHOLE), st.integers(0), st.sampled_from((0.0, 0.1, 0.4)))
def test_a_job_that_is_written_back_has_the_same_facts(
    tmp_path: Path, at: int, seed: int, share: float
) -> None:
    text = tomli_w.dumps(thinned_data(Random(seed), sample_data(at), share))
    (tmp_path / "first.toml").write_text(text)
    facts = BOOK.facts(Job.from_file(tmp_path / "first.toml"))
    again = BOOK.facts(joined(tmp_path, text))
    assert digest_of(again) == digest_of(facts)
    assert again.written == facts.written


@pytest.mark.parametrize("at", range(len(SAMPLES)), ids=[path.stem for path in SAMPLES])
def test_a_sample_job_is_joined_with_its_sheets_and_stays_the_same(at: int, tmp_path: Path) -> None:
    target = tmp_path / "joined.toml"
    assert main(["join", str(SAMPLES[at]), "--to", str(target)]) == 0
    again = BOOK.facts(Job.from_file(target))
    assert digest_of(again) == digest_of(BOOK.facts(Job.from_file(SAMPLES[at])))
