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


def uncaught_lines(found: Sequence[Uncaught]) -> Iterator[Line]:
    """Give each mutant that survives without an excuse, with a case ready to paste."""
    if found:
        yield from (GAP, Line("section", "nothing notices"))
    named: str = ""
    for one in found:
        if one.run.name != named:
            named = one.run.name
            yield from (GAP, Line("question", f"{one.run.kind} {named}"))
        yield Line("item", f"{one.survivor.excuse}  ({one.survivor.place})")
        if one.given is not None:
            yield Line("verbatim", f"given   = {inline(one.given)}")
            yield Line("verbatim", one.outcome)


def excuse_lines(runs: Iterable[MutationRun]) -> Iterator[Line]:
    """Give the excuses that excuse nothing any more."""
    idle = [(run, excuse) for run in runs for excuse in run.idle_excuses]
    texts = (f"{run.kind} {run.name}: {excuse}" for run, excuse in idle)
    return section("excuses for mutants that do not survive", items(texts))


def contradiction_lines(found: Sequence[Contradiction]) -> Iterator[Line]:
    """Give rules that no value of a fact meets together, each on a job."""
    return section("at odds on some job", apart(map(_contradiction, found)))


def _contradiction(one: Contradiction) -> Iterator[Line]:
    yield Line("question", f"{one.rule} and {one.other}")
    yield Line("entry", f"no value of {one.path} meets both", "found")
    yield Line("verbatim", f"given = {inline(one.given)}")


def remark_lines(remarks: Sequence[Remark]) -> Iterator[Line]:
    """Give what lies idle in a rulebook; facts that no rule reads are listed in short."""
    facts = [one.name for one in remarks if one.about == "fact"]
    others = [one for one in remarks if one.about != "fact"]
    texts = (f"{one.about} {one.name}: {one.sentence}" for one in others)
    yield from section("to look at", items(texts))
    if facts:
        yield from (GAP, Line("section", "facts of a job that no rule reads"))
        more = len(facts) - _MOST_FACTS
        told = ", ".join(facts[:_MOST_FACTS])
        yield Line("words", f"{told}{f' and {more} more' if more > 0 else ''}.")
    yield from (GAP, Line("section", "facts that people and plans alone read"))
    yield Line("words", f"{', '.join(READ_BY_PEOPLE)}.")


def coverage_lines(found: Sequence[Coverage]) -> Iterator[Line]:
    """Give limits that no case stands at or on one side of."""
    open_limits = [one for one in found if one.unseen]
    texts = (
        f"{one.rule}: {one.limit}: no case {' and none '.join(one.unseen)}" for one in open_limits
    )
    return section("limits that cases do not stand on both sides of", items(texts))


def deep_summary(runs: Sequence[MutationRun], found: Sequence[Coverage]) -> Line:
    """Return how a deep proof came out, in a sentence or two."""
    mutants = sum(run.mutants for run in runs)
    survived = sum(len(run.unexcused) for run in runs)
    excused = sum(len(run.survivors) for run in runs) - survived
    said = f"Mutants tried: {mutants}; unnoticed: {survived}; excused with a reason: {excused}."
    parts = sum(one.parts for one in found)
    seen = sum(one.parts_seen for one in found)
    unknown = sum(one.parts_unknown for one in found)
    said += (
        f" Parts of conditions shown to matter when true or false: {seen} of {parts}; "
        f"when not known: {unknown} of {parts}."
    )
    return Line("words", said)
