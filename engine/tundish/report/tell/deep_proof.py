"""What is said of a deep proof: mutants that nothing notices, rules at odds, what lies idle."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import Any

from tundish.groundwork.dataclass import dataclass
from tundish.report.page.line import GAP, Line, apart, items, section
from tundish.rulebook.prove.audit import READ_BY_PEOPLE, Remark
from tundish.rulebook.prove.contradictions import Contradiction
from tundish.rulebook.prove.coverage import Coverage
from tundish.rulebook.prove.run_mutants import MutationRun, Survivor
from tundish.text.inline_toml import inline

_MOST_FACTS = 12


@dataclass(frozen=True, slots=True)
class Uncaught:
    """A mutant that no case notices, with the facts of a case that would, if one was found."""

    run: MutationRun
    survivor: Survivor
    given: dict[str, Any] | None
    outcome: str


def uncaught_lines(uncaught: Sequence[Uncaught]) -> Iterator[Line]:
    """Give each mutant that survives without an excuse, with a case ready to paste."""
    if uncaught:
        yield from (GAP, Line("section", "nothing notices"))
    named: str = ""
    for mutant in uncaught:
        if mutant.run.name != named:
            named = mutant.run.name
            yield from (GAP, Line("question", f"{mutant.run.kind} {named}"))
        yield Line("item", f"{mutant.survivor.excuse}  ({mutant.survivor.place})")
        if mutant.given is not None:
            yield Line("verbatim", f"given   = {inline(mutant.given)}")
            yield Line("verbatim", mutant.outcome)


def excuse_lines(runs: Iterable[MutationRun]) -> Iterator[Line]:
    """Give the excuses that excuse nothing any more."""
    idle = [(run, excuse) for run in runs for excuse in run.idle_excuses]
    texts = (f"{run.kind} {run.name}: {excuse}" for run, excuse in idle)
    return section("excuses for mutants that do not survive", items(texts))


def contradiction_lines(contradictions: Sequence[Contradiction]) -> Iterator[Line]:
    """Give rules that no value of a fact meets together, each on a job."""
    return section("at odds on some job", apart(map(_contradiction, contradictions)))


def _contradiction(pair: Contradiction) -> Iterator[Line]:
    yield Line("question", f"{pair.rule} and {pair.other}")
    yield Line("entry", f"no value of {pair.path} meets both", "found")
    yield Line("verbatim", f"given = {inline(pair.given)}")


def remark_lines(remarks: Sequence[Remark]) -> Iterator[Line]:
    """Give what lies idle in a rulebook; facts that no rule reads are listed in short."""
    facts = [remark.name for remark in remarks if remark.about == "fact"]
    others = [remark for remark in remarks if remark.about != "fact"]
    texts = (f"{remark.about} {remark.name}: {remark.sentence}" for remark in others)
    yield from section("to look at", items(texts))
    if facts:
        yield from (GAP, Line("section", "facts of a job that no rule reads"))
        more = len(facts) - _MOST_FACTS
        names = ", ".join(facts[:_MOST_FACTS])
        yield Line("words", f"{names}{f' and {more} more' if more > 0 else ''}.")
    yield from (GAP, Line("section", "facts that people and plans alone read"))
    yield Line("words", f"{', '.join(READ_BY_PEOPLE)}.")


def coverage_lines(coverages: Sequence[Coverage]) -> Iterator[Line]:
    """Give limits that no case stands at or on one side of."""
    open_limits = [limit for limit in coverages if limit.unseen]
    texts = (
        f"{limit.rule}: {limit.limit}: no case {' and none '.join(limit.unseen)}"
        for limit in open_limits
    )
    return section("limits that cases do not stand on both sides of", items(texts))


def deep_summary(runs: Sequence[MutationRun], coverages: Sequence[Coverage]) -> Line:
    """Return how a deep proof came out, in a sentence or two."""
    mutants = sum(run.mutants for run in runs)
    survived = sum(len(run.unexcused) for run in runs)
    excused = sum(len(run.survivors) for run in runs) - survived
    text = f"Mutants tried: {mutants}; unnoticed: {survived}; excused with a reason: {excused}."
    parts = sum(part.parts for part in coverages)
    shown = sum(part.parts_seen for part in coverages)
    unknown = sum(part.parts_unknown for part in coverages)
    text += (
        f" Parts of conditions shown to matter when true or false: {shown} of {parts}; "
        f"when not known: {unknown} of {parts}."
    )
    return Line("words", text)
