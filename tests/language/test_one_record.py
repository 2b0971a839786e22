"""A new function or operator is one record; every form of evaluation takes it from there."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

from language.world import check
from tundish.language.syntax.problem import ExpressionError

SCRIPT = Path(__file__).parent / "invented_operations.py"


@pytest.fixture(scope="module")
def forms() -> Any:
    """What every form of evaluation makes of expressions with invented operations."""
    places = os.pathsep.join([str(SCRIPT.parents[1]), *filter(None, sys.path)])
    done = subprocess.run(
        [sys.executable, str(SCRIPT)],
        env={**os.environ, "PYTHONPATH": places},
        capture_output=True,
        text=True,
        check=True,
    )
    return json.loads(done.stdout)


@pytest.mark.parametrize(
    ("expression", "value", "ranges", "steps"),
    [
        ("halved(a)", 1.5, [1.0, 2.0], 51),
        ("doubled(a + b)", 10.0, [6.0, 14.0], 5),
        ("a ~ b", 2.5, [1.5, 3.5], 3),
        ("doubled(a) ~ halved(b) * 2", 4.0, [2.5, 5.5], 57),
        ("1 + n @ 4 * 2", 7.0, 7.0, 7),
        ("n @ m", None, None, 3),
        ("b ~= c", True, None, 3),
        ("a ~= b", False, None, 3),
        ("doubled_sum(each.length for each in rod if each.length > b)", 6.0, None, 6),
        ("2 m ~= c and doubled(halved(a)) ~ a == a", True, None, 61),
    ],
)
def test_a_record_is_all_that_any_form_asks_for(
    forms: Any, expression: str, value: object, ranges: object, steps: int
) -> None:
    found = forms[expression]
    assert found["compiled"] == found["explained"] == value
    assert found["columns"] == [value, None]
    assert found["exact ranges"] == value
    assert found["ranges"] == ranges
    assert found["steps"] == steps
    assert found.get("fused", value) == value
    with pytest.raises(ExpressionError):
        check(expression)  # here, where nobody invented anything


def test_a_record_says_how_its_operation_is_told(forms: Any) -> None:
    assert forms["doubled(a) ~ halved(b) * 2"]["wording"] == "doubled(3 m) ~ halved(2 m) x 2"
    assert forms["1 + n @ 4 * 2"]["wording"] == "1 + 7 @ 4 x 2"
    assert forms["n @ m"]["obstacles"] == ["something is divided by zero"]


def test_a_record_says_how_its_operation_is_proved(forms: Any) -> None:
    assert "b ~= c: ~= becomes ==" in forms["b ~= c"]["mutants"]
    assert forms["a ~ b"]["mutants"] == []
