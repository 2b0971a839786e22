"""Other engines: what they can say of the same rules, what they answer, and how long they take."""

from __future__ import annotations

import importlib
from collections import Counter
from collections.abc import Callable, Iterator, Mapping
from contextlib import redirect_stderr
from dataclasses import dataclass, field, replace
from io import StringIO
from itertools import islice
from typing import Any

from agreeing import Facts, flat, jobs, nested
from by_hand import BY_HAND
from engines.documents import Documents
from engines.form import BREACHED, MET, NOT_APPLICABLE, NotExpressible
from measuring import medians

from tundish import Rulebook
from tundish.rulebook.evaluate.evaluator import Evaluator

ENGINES = {
    "datalogic-py": "datalogic_py_engine",
    "datalogic-py, three-valued": "three_valued",
    "zen-engine": "zen_engine",
    "common-expression-language": "common_expression_language",
    "panzi-json-logic": "panzi_json_logic",
    "simpleeval": "simpleeval_engine",
    "rule-engine": "rule_engine_engine",
    "cel-python": "cel_python",
}
WORDS = {MET: "met", BREACHED: "breached", NOT_APPLICABLE: "not applicable"}
ALIKE = 20
"""One of how many jobs is asked of every engine."""


@dataclass
class Told:
    """What an engine can say and what it answered.

    Attributes:
        rules: Its compiled rules by name.
        expressions: The rules in its own form.
        cannot: Why others cannot be said, by kind.
        decided: What it answered where the rulebook decides.
        open: What it answered where the rulebook does not know enough.
        wrong: Rules that came to another verdict than the rulebook's.
    """

    rules: dict[str, Callable[[Any], object]] = field(default_factory=dict)
    expressions: dict[str, Any] = field(default_factory=dict)
    cannot: Counter[str] = field(default_factory=Counter)
    decided: Counter[str] = field(default_factory=Counter)
    open: Counter[str] = field(default_factory=Counter)
    wrong: Counter[str] = field(default_factory=Counter)


def translated(engine: Any, rulebook: Rulebook) -> Told:
    """Write every rule in an engine's form and compile it."""
    told = Told()
    for name, rule in rulebook.rules.items():
        try:
            expression = engine.form.rule(rule)
            told.rules[name] = engine.alone(expression)
            told.expressions[name] = expression
        except NotExpressible as reason:
            told.cannot[str(reason)] += 1
        except Exception as error:
            told.cannot[f"the engine refuses it ({type(error).__name__})"] += 1
    return told


def answer(rule: Callable[[Any], object], document: Any) -> list[str]:
    """Ask one rule; what an engine raises is an answer too."""
    try:
        given = rule(document)
    except Exception:
        return ["an error"]
    numbers = given if isinstance(given, list | tuple) else [given]
    return [_word(number) for number in numbers] or ["not applicable"]


def _word(number: Any) -> str:
    if isinstance(number, Exception):
        return "an error"
    try:
        return WORDS.get(int(number), "something else")
    except (TypeError, ValueError):
        return "null" if number is None else "something else"


def compare(
    engine: Any, told: Told, evaluator: Evaluator, documents: Documents, given: list[Facts]
) -> None:
    """Ask an engine about jobs, and count what it answers beside the rulebook's verdicts."""
    for values in given:
        document = engine.taken(documents.of(values))
        for name, ours in zip(BY_HAND, evaluator.verdicts(values), strict=True):
            if name not in told.rules:
                continue
            theirs, wanted = answer(told.rules[name], document), flat(ours)
            if "undecided" in wanted:
                told.open[_summed(theirs, wanted)] += 1
            elif theirs == wanted:
                told.decided["the same"] += 1
            else:
                told.decided["an error" if "an error" in theirs else "another"] += 1
                told.wrong[name] += "an error" not in theirs


def _summed(theirs: list[str], wanted: list[str]) -> str:
    """Say what stands in the place of the first verdict that is undecided."""
    if "an error" in theirs:
        return "an error"
    if len(theirs) != len(wanted):
        return theirs[0] if len(theirs) == 1 else "something else"
    return theirs[wanted.index("undecided")]


def _engines(rulebook: Rulebook) -> Iterator[tuple[str, Any]]:
    for package, module in ENGINES.items():
        try:
            engine = importlib.import_module(f"engines.{module}").Engine(rulebook)
        except ImportError as error:
            print(f"\n{package} is not installed ({error}); pip install '.[benchmark]' brings it")
            continue
        yield package, engine


def measure() -> None:
    """Measure each engine on the rules that it can say."""
    whole = Rulebook.built_in()
    rulebook = replace(whole, rules={name: whole.rules[name] for name in BY_HAND})
    evaluator, documents = Evaluator(rulebook), Documents(rulebook, rulebook.rules.values())
    given = list(islice(jobs(), 0, None, ALIKE))
    complete = max(islice(jobs(), 400), key=len)
    print(
        f"\nOther engines on the {len(BY_HAND)} rules: quantities written out where they are used, "
        "small tables as choices,\ncomparisons plain, without our 1e-9 (in their favour). Verdicts "
        f"compared on {len(given)} jobs.\nNone of them checks a unit or says why."
    )
    lines = []
    for package, engine in _engines(rulebook):
        # Some write to the error stream what they also raise.
        with redirect_stderr(StringIO()):
            told = translated(engine, rulebook)
            compare(engine, told, evaluator, documents, given)
            names, times = timed(engine, told, rulebook, documents, complete)
            missing = missing_values(engine)
        _tell(package, told, missing)
        _tell_times(names, times)
        lines.append(_line(package, told, times))
    print(f"\n{'':<28}{'says':>5}{'agrees':>9}{'guesses':>9}   its time x ours: prepared, not")
    print("\n".join(lines))
    print("  agrees: where we decide; guesses: decides where a fact that matters is not known;")
    print("  prepared: the document made ready beforehand; not: the document taken anew each time.")
    print("  Wanted: each at least 2 x ours.")


def missing_values(engine: Any) -> list[str]:
    """Return what an engine makes of a fact that is null, and of one that is not there."""
    form = engine.form
    fact, five = form.fact("missing.fact"), form.constant(5.0)
    asked = {
        "x <= 5": form.comparison("<=", fact, five),
        "x >= 5": form.comparison(">=", fact, five),
        "x + 5": form.arithmetic("+", fact, five),
    }
    lines = []
    for state, document in (("null", {"missing__fact": None}), ("left out", {})):
        answers = []
        for written, expression in asked.items():
            try:
                given = engine.alone(expression)(engine.taken(document))
                shown = "an error" if isinstance(given, Exception) else str(given)
            except Exception:
                shown = "an error"
            answers.append(f"{written} gives {shown}")
        lines.append(f"  x {state}: {'; '.join(answers)}")
    return lines


def _tell(package: str, told: Told, missing: list[str]) -> None:
    print(f"\n{package}: says {len(told.rules)} of {len(BY_HAND)} rules")
    for kind, count in told.cannot.most_common():
        print(f"  cannot say {count:>3}: {kind}")
    print(f"  where we decide:   {_shares(told.decided)}")
    print(f"  where we cannot:   {_shares(told.open)}")
    worst = [f"{name} ({count})" for name, count in told.wrong.most_common(4) if count]
    if worst:
        print(f"  another verdict:   {', '.join(worst)}")
    print("\n".join(missing))


def _shares(counted: Counter[str]) -> str:
    total = counted.total() or 1
    return ", ".join(f"{word} {count / total:.1%}" for word, count in counted.most_common())


def timed(
    engine: Any, told: Told, whole: Rulebook, documents: Documents, values: Mapping[str, Any]
) -> tuple[list[str], dict[str, float]]:
    """Time the rules that the engine says and answers on one job, beside ours and by hand.

    Returns:
        The rules, and the time each way takes [s].
    """
    made = documents.of(values)
    document = engine.taken(made)
    names = [name for name in told.rules if "an error" not in answer(told.rules[name], document)]
    ours = Evaluator(replace(whole, rules={name: whole.rules[name] for name in names}))
    rules, job = [BY_HAND[name] for name in names], nested(values)
    alone = [told.rules[name] for name in names]
    together = engine.together([told.expressions[name] for name in names])
    tasks: dict[str, Callable[[], object]] = {
        "by hand": lambda: [rule(job) for rule in rules],
        "ours": lambda: ours.verdicts(values),
        "rule by rule, prepared": lambda: [rule(document) for rule in alone],
        "in one call, prepared": lambda: together(document),
        "in one call, not": lambda: together(engine.taken(made)),
    }
    return names, medians(tasks)


def _tell_times(names: list[str], times: Mapping[str, float]) -> None:
    print(f"  {len(names)} rules on one job:")
    for name, seconds in times.items():
        print(
            f"    {name:<24} {1e6 * seconds:>10.1f} us {seconds / times['by hand']:>9.2f} x by hand"
            f" {seconds / times['ours']:>9.2f} x ours"
        )


def _line(package: str, told: Told, times: Mapping[str, float]) -> str:
    agrees = told.decided["the same"] / told.decided.total()
    guesses = sum(told.open[word] for word in WORDS.values()) / told.open.total()
    prepared = min(times["rule by rule, prepared"], times["in one call, prepared"])
    ratios = f"{prepared / times['ours']:>20.2f}{times['in one call, not'] / times['ours']:>12.2f}"
    return f"  {package:<26}{len(told.rules):>5}{agrees:>9.1%}{guesses:>9.1%}{ratios}"
