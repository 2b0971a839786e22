"""Mending a whole job: as few changes as can be found that clear what is breached."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path
from typing import Any

from tundish.findings.assess import assess
from tundish.findings.details import item_label, label_of
from tundish.findings.finding import SEVERITIES, Affected, Assessment, Finding
from tundish.findings.judged_job import assessed_facts
from tundish.findings.remedies import Mender
from tundish.findings.trials import Trials
from tundish.findings.verdicts import Verdicts, breached_in, early_verdicts
from tundish.groundwork.dataclass import dataclass
from tundish.job.changes import Change, changed, put_into_data
from tundish.job.facts import Facts
from tundish.job.job import Job
from tundish.rulebook.evaluate.judge import Verdict
from tundish.rulebook.rulebook import Rulebook
from tundish.text.quoted import escaped

MOST_CHANGES = 40
"""Changes past which a job is no longer the one that was described."""

_Key = tuple[str, str]
_Weight = tuple[int, ...]


@dataclass(frozen=True, slots=True)
class MadeChange:
    """A change that was made.

    Attributes:
        change: The fact and its new value.
        label: What the fact is called.
        was: Its value before, as written; "none" where it belongs to something absent.
        clears: The breaches that come back if this change alone is taken back.
    """

    change: Change
    label: str
    was: str
    clears: tuple[Affected, ...]


@dataclass(frozen=True, slots=True)
class Mending:
    """What mending a job came to.

    Attributes:
        before: The job as it was described, judged.
        made: The changes, none of which can be left out.
        left: The breaches that no change of a fact that a rule names would clear.
        opened: How many requirements must be decided anew.
        stopped: Whether the search was given up, as so much may be tried and no more; then changes
            may be left out, and there may be others.
    """

    before: Assessment
    made: tuple[MadeChange, ...]
    left: tuple[Finding, ...]
    opened: int
    stopped: bool = False


def mend(job: Job, rulebook: Rulebook, region: str | None = None) -> Mending:
    """Find changes that clear the breaches of a job.

    At each step the change is made that leaves the fewest and least serious breaches; in the end
    every change is taken back that turns out not to be needed. The fewest changes there could be
    are not promised, but none of those given can be left out.

    Args:
        job: The job; nothing in it is changed.
        rulebook: The rules.
        region: The ISO 3166 code to go by, in place of the job's own.
    """
    verdicts = (Verdict.BREACHED, Verdict.WAIVED)
    before = assess(job, rulebook, region=region, verdicts=verdicts)
    waived = {(finding.rule, finding.item) for finding in before.of(Verdict.WAIVED)}
    search = _Search(assessed_facts(job, rulebook, None, region), rulebook, waived)
    breached = {(finding.rule, finding.item): finding for finding in before.of(Verdict.BREACHED)}
    search.run(set(breached))
    after = search.verdicts_at_the_end()
    left = breached_in(after)
    undecided = list(after.values()).count(Verdict.UNDECIDED)
    return Mending(
        before=before,
        made=tuple(search.made_change(change) for change in search.made),
        left=tuple(finding for key, finding in breached.items() if key in left),
        opened=max(0, undecided - before.count(Verdict.UNDECIDED)),
        stopped=search.was_stopped,
    )


def mended_file(job: Job, mending: Mending, folder: Path) -> str:
    """Return a job as one file with its changes put in, and a comment that names them.

    Args:
        job: The job, read from a file.
        mending: The changes.
        folder: The folder that the file will lie in.
    """
    import tomli_w

    source = job.source
    assert source is not None
    names = [escaped(Path(file.name).name) for file in source.files if file is not source.sheet]
    rows = [f"# Changed by tundish mend, from {' and '.join(names)}; comments stayed there."]
    data = dict(source.data)
    for change in mending.made:
        rows.append(f"# {change.label}: {change.was} to {change.change.written}")
        data = put_into_data(data, change.change, _as_toml(change.change))
    return "\n".join(rows) + "\n\n" + tomli_w.dumps(source.as_one_file(folder, data))


def _as_toml(change: Change) -> Any:
    """Return a new value as the file holds it: a bare number or truth, or a text."""
    value, written = change.value, change.written
    if isinstance(value, bool):
        return value
    return int(written) if isinstance(value, float) and written.isdecimal() else written


class _Search:
    """Looks for changes, one after the other."""

    def __init__(self, facts: Facts, rulebook: Rulebook, waived: set[_Key]) -> None:
        self.made: list[Change] = []
        self._facts = facts
        self._rulebook = rulebook
        self._waived = waived
        self._trials = Trials(rulebook)

    @property
    def was_stopped(self) -> bool:
        """Say whether the search was given up."""
        return self._trials.are_over

    def verdicts(self, changes: Iterable[Change]) -> Verdicts:
        """Return all verdicts with some changes made."""
        verdicts = self._trials.verdicts(self._facts, changes)
        return {key: verdict for key, verdict in verdicts.items() if key not in self._waived}

    def verdicts_at_the_end(self) -> Verdicts:
        """Return the verdicts with all changes made, also those certain though not all is known."""
        verdicts = early_verdicts(changed(self._facts, self.made), self._rulebook)
        return {key: verdict for key, verdict in verdicts.items() if key not in self._waived}

    def run(self, breached: set[_Key]) -> None:
        """Make changes while they leave less that is breached, then take back what can be."""
        weight = self._weight(self.verdicts([]))
        while any(weight[:-1]) and len(self.made) < MOST_CHANGES and not self._trials.are_over:
            best = self._best(breached)
            if best is None or best[0] >= weight:
                break
            weight = best[0]
            self.made = self._joined(best[1])
        for change in list(self.made):
            if self._trials.are_over:
                break
            without = [other for other in self.made if other is not change]
            if self._weight(self.verdicts(without))[:-1] <= weight[:-1]:
                self.made = without

    def made_change(self, change: Change) -> MadeChange:
        """Return a change that was made, with what comes back if it is taken back."""
        without = [other for other in self.made if other is not change]
        comes_back = breached_in(self.verdicts(without)) - breached_in(self.verdicts(self.made))
        label, item = label_of(change.path), item_label(self._facts, change.path)
        rules = self._rulebook.rules
        return MadeChange(
            change=change,
            label=f"{label} ({item})" if item else label,
            was=self._facts.written.get(change.path, "none"),
            clears=tuple(Affected(rule, rules[rule].title, of) for rule, of in sorted(comes_back)),
        )

    def _best(self, breached: set[_Key]) -> tuple[_Weight, Change] | None:
        facts = changed(self._facts, self.made)
        mender = Mender(facts, self._rulebook, self._trials)
        candidates = []
        for rule, item in sorted(breached_in(self.verdicts(self.made)) & breached):
            candidates += [
                (self._weight(self.verdicts(self._joined(trial.change))), trial.change)
                for trial in mender.trials(rule, item)
            ]
        return min(candidates, key=lambda pair: (pair[0], pair[1].path), default=None)

    def _joined(self, change: Change) -> list[Change]:
        """Return the changes with one more; a fact changed twice counts once."""
        return [*(earlier for earlier in self.made if earlier.path != change.path), change]

    def _weight(self, verdicts: Verdicts) -> _Weight:
        """Return how many breaches of each severity there are, and how much is open."""
        breached = [self._rulebook.rules[rule].severity for rule, _ in breached_in(verdicts)]
        undecided = sum(verdict is Verdict.UNDECIDED for verdict in verdicts.values())
        return (*(breached.count(severity) for severity in SEVERITIES), undecided)
