"""Facts that a pack declares and a job states under [more]: new requirements need no code."""

from __future__ import annotations

from collections.abc import Mapping

from tundish.groundwork.dataclass import dataclass
from tundish.job.facts import Facts, add_fact
from tundish.job.job import MORE, Job
from tundish.job.model.kinds import FactKind
from tundish.job.model.schema import Fact
from tundish.language.check.scope import Meaning
from tundish.rulebook.model.job_scope import job_meanings, meaning_of
from tundish.text.nearest import did_you_mean
from tundish.text.problem import Problem, Problems, Refused


@dataclass(frozen=True, slots=True)
class Declared:
    """A fact that a pack declares.

    Attributes:
        kind: How it is read from what someone wrote.
        fact: What rules and questions know of it.
    """

    kind: FactKind
    fact: Fact


def meanings_with(declared: Mapping[str, Declared]) -> Mapping[str, Meaning]:
    """Return what facts mean in expressions, by path: those of a job, and declared ones."""
    if not declared:
        return job_meanings()
    return {
        **job_meanings(),
        **{entry.fact.path: meaning_of(entry.fact) for entry in declared.values()},
    }


def facts_with(job: Job, declared: Mapping[str, Declared]) -> Facts:
    """Return what rules meet of a job: its facts, those that packs declare, and its sides.

    Args:
        job: The job.
        declared: What packs declare, by name.

    Raises:
        Refused: If the job states something under [more] that no pack declares, or wrongly.
    """
    facts = job.facts_with_sides
    if not job.more:
        return facts
    facts = Facts(dict(facts.values), dict(facts.written), facts.names)
    problems = Problems()
    for name, written in job.more.items():
        try:
            if name not in declared:
                hint = did_you_mean(name, list(declared))
                raise ValueError(f"No pack of rules declares a fact '{name}'.{hint}")
            add_fact(declared[name].kind.read(written), f"{MORE}.{name}", facts)
        except ValueError as error:
            path = f"{MORE}.{name}"
            file, line, column = (job.source.place(path) if job.source else None) or (
                "",
                None,
                None,
            )
            problems.append(Problem(file, line, column, f"{path}: {error}", path))
    if problems:
        raise Refused(problems)
    return facts


def kind_of(path: str, declared: Mapping[str, Declared]) -> FactKind | None:
    """Return the kind of a fact of a job or of a pack; None of a group, a list or a measure.

    Args:
        path: Its path, with list positions or without.
        declared: What packs declare, by name.
    """
    if not path.startswith(f"{MORE}."):
        return Job.kind_at(path)
    fact = declared.get(path.removeprefix(f"{MORE}."))
    return fact.kind if fact else None
