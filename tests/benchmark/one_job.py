"""One job, rules ready: verdicts and findings against the same rules written by hand."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace
from typing import Any

from agreeing import SAMPLES, asked_by_hand, compared, jobs, nested, thinned
from by_hand import BY_HAND
from changed_samples import SAMPLE_JOBS, changed
from measuring import medians, told, worst

from tundish import Job, Rulebook
from tundish.findings.judged_job import JudgedJob
from tundish.rulebook.evaluate.evaluator import Evaluator

BARN = SAMPLES / "three-phase-barn.toml"


def same_rules() -> Rulebook:
    """Return the rulebook with only the rules that were written by hand as well."""
    whole = Rulebook.built_in()
    return replace(whole, rules={name: whole.rules[name] for name in BY_HAND})


def checked(evaluator: Evaluator) -> int:
    """Refuse to measure what does not come to the same; tell on how much that was seen.

    Returns:
        The number of jobs compared.
    """
    seen, count, differences = compared(evaluator, jobs())
    if differences:
        raise SystemExit("\n".join(differences[:10]))
    always = sum("not applicable" not in verdicts for verdicts in seen.values())
    print(
        f"\n{len(seen)} rules by hand come to the rulebook's verdicts on {count} jobs; seen were "
        f"{sum(map(len, seen.values()))} of {4 * len(seen)} combinations of a rule and a verdict"
        f"\n({always} rules always apply)"
    )
    return count


def measure() -> None:
    """Measure each sample against rules by hand, and one of them with ever more not known."""
    some, whole = same_rules(), Rulebook.built_in()
    evaluator, every = Evaluator(some), Evaluator(whole)
    count = checked(evaluator)
    ratios: dict[str, dict[str, float]] = {"verdicts": {}, "findings": {}}
    for path in SAMPLE_JOBS:
        title = f"{len(BY_HAND)} rules, {path.stem} (the same by both, on {count} jobs)"
        times = medians(dict(_against_hand(changed(path, waiver=None), some, evaluator)))
        told(title, times, "by hand", {})
        for what in ratios:
            ratios[what][path.stem] = times[what] / times["by hand"]
    worst("Verdicts", ratios["verdicts"], 0.45)
    worst("Findings", ratios["findings"], 1.5)
    values = whole.facts(Job.from_file(BARN)).values
    title = f"{len(whole.rules)} rules, one job: how much of it is not known"
    wanted = {"2 % not known": 1.2, "20 % not known": 2.5}
    told(title, medians(dict(_by_share(every, values))), "all known", wanted)


def _against_hand(
    job: Job, some: Rulebook, evaluator: Evaluator
) -> Iterator[tuple[str, Callable[[], object]]]:
    values = some.facts(job).values
    by_hand = nested(values)
    yield "by hand", lambda: asked_by_hand(by_hand)
    yield "verdicts", lambda: evaluator.verdicts(values)
    yield "verdicts, from a Job", lambda: evaluator.verdicts(some.facts(job).values)
    yield "findings", lambda: JudgedJob(job, some).judgements


def _by_share(
    evaluator: Evaluator, values: Mapping[str, Any]
) -> Iterator[tuple[str, Callable[[], object]]]:
    for share in (0, 0.02, 0.2):
        some = thinned(values, share)
        name = f"{share:.0%} not known".replace("%", " %") if share else "all known"
        yield name, lambda some=some: evaluator.verdicts(some)
