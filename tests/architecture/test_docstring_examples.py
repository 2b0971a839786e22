"""The examples in docstrings give what they say."""

import doctest
import importlib
from pathlib import Path

import pytest

import tundish

PACKAGE = Path(tundish.__file__).parent
MODULES = sorted(
    ".".join(("tundish", *path.relative_to(PACKAGE).with_suffix("").parts))
    for path in PACKAGE.rglob("*.py")
    if ">>>" in path.read_text(encoding="utf-8")
)


@pytest.mark.parametrize("module", MODULES)
def test_the_examples_of_a_module_hold(module: str) -> None:
    assert doctest.testmod(importlib.import_module(module)).failed == 0
