"""Running mutants: which of them no case of a rule, quantity or part notices."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import field, replace

from tundish.groundwork.dataclass import dataclass
from tundish.language.evaluate.compiled import compile_function
from tundish.language.evaluate.session import Function
from tundish.language.tree.tree import Node
from tundish.rulebook.model.asked import Asked
from tundish.rulebook.model.provision import Provision
from tundish.rulebook.model.rule import DerivedQuantity
from tundish.rulebook.prove.case_run import CaseRun, Proved, case_runs
from tundish.rulebook.prove.mutants import is_same, mutants
from tundish.rulebook.rulebook import Rulebook


@dataclass(frozen=True, slots=True)
class CompiledMutant:
    """A mutant of one expression, compiled.

    Attributes:
        key: The key of the file whose expression was changed.
        change: What was put wrong, in words.
        root: The checked tree of the changed expression.
        function: The changed expression, compiled.
    """

    key: str
    change: str
    root: Node
    function: Function = field(compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Survivor:
    """A mutant that no case notices.

    Attributes:
        mutant: The mutant, ready to be run.
        because: Why it makes no difference, as the file says; "" where it says nothing.
        place: ``file:line`` of the expression.
    """

    mutant: CompiledMutant
    because: str
    place: str

    @property
    def excuse(self) -> str:
        """Return what a file must say to excuse it."""
        return f"{self.mutant.key}: {self.mutant.change}"


@dataclass(frozen=True, slots=True)
class MutationRun:
    """What came of the mutants of one rule, quantity or part.

    Attributes:
        name: Its name.
        kind: What it is.
        mutants: How many mutants there were.
        survivors: Those that no case notices.
        idle_excuses: Excuses in its file for no mutant that survives.
    """

    name: str
    kind: str
    mutants: int
    survivors: tuple[Survivor, ...]
    idle_excuses: tuple[str, ...]

    @property
    def unexcused(self) -> tuple[Survivor, ...]:
        """Return the survivors that the file gives no reason for."""
        return tuple(survivor for survivor in self.survivors if not survivor.because)


def run_mutants(proved: Proved, rulebook: Rulebook) -> MutationRun:
    """Run every mutant of a rule, quantity or part on its cases.

    Args:
        proved: What is proved.
        rulebook: The rulebook it belongs to.
    """
    proved = proved.as_written
    runs = [
        replace(run, names_unknown=case.unknown is not None)
        for case in proved.cases
        for run in case_runs(case.given, proved, case.item, rulebook)
    ]
    before = [outcome(proved, None, run) for run in runs]
    asking = [(run, asked(proved, None, run)) for run in runs if run.names_unknown]
    mutant_count, survivors = 0, []
    excuses = dict(proved.unnoticed)
    for mutant in _compiled(proved):
        mutant_count += 1
        after = (outcome(proved, mutant, run) for run in runs)
        if all(map(is_same, before, after)) and all(
            asked(proved, mutant, run) == facts for run, facts in asking
        ):
            because = excuses.get(f"{mutant.key}: {mutant.change}", "")
            survivors.append(Survivor(mutant, because, proved.place(mutant.key)))
    surviving = {survivor.excuse for survivor in survivors}
    idle = tuple(excuse for excuse in excuses if excuse not in surviving)
    return MutationRun(proved.name, proved.noun, mutant_count, tuple(survivors), idle)


def _compiled(proved: Proved) -> Iterator[CompiledMutant]:
    for key, (root, written) in proved.expressions.items():
        for mutant in mutants(root, written):
            function = compile_function(mutant.root, proved.variables)
            yield CompiledMutant(key, mutant.change, mutant.root, function)


def outcome(proved: Proved, mutant: CompiledMutant | None, run: CaseRun) -> object:
    """Return what a rule, quantity or part comes to, with a mutant in it or without.

    Args:
        proved: What is asked.
        mutant: What takes the place of one of its expressions, or None.
        run: The job and item it is asked of.
    """
    functions = dict(proved.functions)
    if mutant is not None:
        functions[mutant.key] = mutant.function
    if isinstance(proved, DerivedQuantity):
        return run.value(functions["formula"])
    if isinstance(proved, Asked):
        applies = run.value(functions["applies"])
        if applies is not True:
            return "not applicable" if applies is False else None
        return run.value(functions["requires"])
    needed = run.value(functions["needed"])
    if needed is not True:
        return needed
    with_unit = run.value(functions["with_unit"])
    return "with the unit" if with_unit else (with_unit, run.value(functions["number"]))


def asked(proved: Proved, mutant: CompiledMutant | None, run: CaseRun) -> frozenset[str]:
    """Return the facts that a rule or quantity asks for, with a mutant in it or without.

    Args:
        proved: What is asked; a part of the order list names none.
        mutant: What takes the place of one of its expressions, or None.
        run: The job and item it is asked of.
    """
    if isinstance(proved, Provision):
        return frozenset()
    explainer = run.rulebook.explainer(run.facts)
    needs: frozenset[str] = frozenset()
    for key, (written, _) in proved.expressions.items():
        root = mutant.root if mutant and mutant.key == key else written
        step = explainer.explain(root, run.bindings)
        needs |= step.needs
        if step.value is not True:
            break
    return needs
