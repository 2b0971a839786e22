"""The rules by hand, which the benchmark measures against, still mean what the rulebook means."""

from __future__ import annotations

import sys
from dataclasses import replace
from itertools import islice
from pathlib import Path

import pytest

from tundish import Rulebook
from tundish.rulebook.evaluate.evaluator import Evaluator

HERE = Path(__file__).parent


@pytest.fixture
def benchmark_modules(monkeypatch: pytest.MonkeyPatch) -> None:
    # The benchmark is run as a folder, so its modules import each other by their bare names.
    monkeypatch.syspath_prepend(str(HERE))


@pytest.mark.usefixtures("benchmark_modules")
def test_rules_by_hand_agree_with_the_rulebook() -> None:
    from agreeing import compared, jobs
    from by_hand import BY_HAND

    whole = Rulebook.built_in()
    some = replace(whole, rules={name: whole.rules[name] for name in BY_HAND})
    seen, count, differences = compared(Evaluator(some), jobs(many=False))
    assert not differences
    assert len(seen) == 100
    assert count > 500
    # Each rule is seen to hold and to fail at least, or the comparison would say little.
    assert all({"met", "breached", "undecided"} <= verdicts for verdicts in seen.values())


@pytest.mark.usefixtures("benchmark_modules")
def test_a_rule_by_hand_gone_wrong_is_told(monkeypatch: pytest.MonkeyPatch) -> None:
    from agreeing import compared, jobs
    from by_hand import BY_HAND

    monkeypatch.setitem(sys.modules["by_hand"].BY_HAND, "clearances/sides", lambda _: "met")
    whole = Rulebook.built_in()
    some = replace(whole, rules={name: whole.rules[name] for name in BY_HAND})
    _, _, differences = compared(Evaluator(some), islice(jobs(), 0, 300, 30))
    assert differences
    assert all(difference.startswith("clearances/sides: ") for difference in differences)


@pytest.mark.usefixtures("benchmark_modules")
def test_an_engine_that_is_not_installed_is_told_in_a_sentence(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    import other_engines

    monkeypatch.setitem(sys.modules, "zen", None)
    monkeypatch.delitem(sys.modules, "engines.zen_engine", raising=False)
    monkeypatch.setattr(other_engines, "ENGINES", {"zen-engine": "zen_engine"})
    assert list(other_engines._engines(Rulebook.built_in())) == []
    told = capsys.readouterr().out
    assert "zen-engine is not installed" in told
    assert "pip install '.[benchmark]'" in told
