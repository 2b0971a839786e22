"""Remedies in numbers: the least change of one fact that mends a breach, all else held."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import replace
from decimal import Decimal

from tundish.findings.details import item_label, label_of
from tundish.findings.finding import Affected, Finding, Remedy
from tundish.findings.search import nearest
from tundish.findings.trials import Trials
from tundish.findings.verdicts import Verdicts, breached_in
from tundish.groundwork.dataclass import dataclass
from tundish.job.changes import Change, places_of, value_at
from tundish.job.facts import Facts
from tundish.job.job import Job
from tundish.job.model.kinds import ChoiceKind, QuantityKind, TruthKind, WholeKind
from tundish.job.model.paths import outer_paths, without_positions
from tundish.rulebook.evaluate.judge import Verdict
from tundish.rulebook.model.rule import Rule
from tundish.rulebook.rulebook import Rulebook
from tundish.text.bounds import LONGEST_QUANTITY
from tundish.units.format import in_unit, show_number
from tundish.units.quantity import Quantity, parse_quantity
from tundish.units.unit import Unit

_MOST_PLACES = 12
"""List items past which nobody tries to mend a breach at each of them."""


@dataclass(frozen=True, slots=True)
class Trial:
    """A change that mends a breach, and all verdicts with it made."""

    change: Change
    verdicts: Verdicts


def _best_first(remedy: Remedy) -> tuple[int, int, int, str]:
    return len(remedy.breaks), -len(remedy.mends), len(remedy.opens), remedy.path


class Mender:
    """Finds changes for the breaches of one job."""

    def __init__(self, facts: Facts, rulebook: Rulebook, trials: Trials) -> None:
        self._facts = facts
        self._rulebook = rulebook
        self._trials = trials
        self._before = trials.verdicts(facts, [])

    def mended(self, finding: Finding) -> Finding:
        """Return a breach with the least change of each fact that mends it, the best first.

        Those come first that break nothing, then those that mend the most.
        """
        if self._trials.are_over:
            return replace(finding, stopped=True)
        own = (finding.rule, finding.item)
        remedies = [self._remedy(trial, own) for trial in self.trials(finding.rule, finding.item)]
        tried = dict.fromkeys(label_of(path) for path in self._rulebook.rules[finding.rule].adjust)
        return replace(
            finding,
            changes=tuple(sorted(remedies, key=_best_first)),
            tried=tuple(tried),
            stopped=self._trials.are_over,
        )

    def trials(self, name: str, item: str) -> Iterator[Trial]:
        """Give a change for each fact that alone can mend a breach of a rule, on one item."""
        rule = self._rulebook.rules[name]
        for path in rule.adjust:
            for place in self._places(rule, path, item):
                change = self._least_change(rule, item, place)
                if self._trials.are_over:
                    return  # the search was cut short: the change may not be the least
                if change is not None:
                    yield Trial(change, self._trials.verdicts(self._facts, [change]))

    def _places(self, rule: Rule, path: str, item: str) -> list[str]:
        """Return where a fact stands: at the item that is judged, or at every item."""
        places = places_of(self._facts, path)
        if rule.each is not None and path.startswith(f"{rule.each.path}."):
            own = [place for place in places if item_label(self._facts, f"{place}") == item]
            return own or places[:_MOST_PLACES]
        return places[:_MOST_PLACES]

    def _least_change(self, rule: Rule, item: str, path: str) -> Change | None:
        kind = Job.kind_at(path)
        start = value_at(self._facts, path)

        def mends(change: Change) -> bool:
            return self._trials.mends(rule, item, self._facts, change)

        match kind:
            case QuantityKind():
                if start is None and not self._is_absent(path):
                    return None
                number = start if isinstance(start, float) else 0.0
                return self._numeric(path, kind, number, self._unit(path, kind), mends)
            case WholeKind():
                number = start if isinstance(start, float) else 0.0
                return self._whole(path, kind, number, mends)
            case TruthKind() if isinstance(start, bool):
                other = Change(path, not start, "false" if start else "true")
                return other if mends(other) else None
            case ChoiceKind(choices=choices) if isinstance(start, str):
                options = (Change(path, word, word) for word in choices if word != start)
                return next((option for option in options if mends(option)), None)
        return None

    def _is_absent(self, path: str) -> bool:
        """Say whether a fact belongs to something that is known to be absent."""
        return any(self._facts.values.get(group) is False for group in outer_paths(path))

    def _numeric(
        self,
        path: str,
        kind: QuantityKind,
        start: float,
        unit: Unit,
        mends: Callable[[Change], bool],
    ) -> Change | None:
        def change(value: float) -> Change | None:
            return _written(path, kind, value, unit)

        def holds(value: float) -> bool:
            tried = change(value)
            return tried is not None and mends(tried)

        sizes = self._rulebook.sizes.get(without_positions(path))
        if sizes is not None and sizes.values:
            ordered = sorted(sizes.values, key=lambda size: abs(size[1] - start))
            options = (Change(path, si, text) for text, si in ordered if si != start)
            return next((option for option in options if mends(option)), None)
        scale = abs(start - float(unit.zero)) or float(unit.factor)
        step = sizes.step if sizes is not None else None
        values = []
        for up in (True, False):
            edge = nearest(holds, start, scale, up)
            if edge is not None:
                values.append(_practical(edge, step, up, unit, holds))
        best = min(values, key=lambda value: abs(value - start), default=None)
        return None if best is None else change(best)

    def _whole(
        self, path: str, kind: WholeKind, start: float, mends: Callable[[Change], bool]
    ) -> Change | None:
        options: Sequence[int] = kind.options or range(_MOST_COUNTED)
        for option in sorted(options, key=lambda number: abs(number - start)):
            change = Change(path, float(option), str(option))
            if option != start and mends(change):
                return change
        return None

    def _unit(self, path: str, kind: QuantityKind) -> Unit:
        written = self._facts.written.get(path, kind.example)
        return parse_quantity(written).unit

    def _remedy(self, trial: Trial, own: tuple[str, str]) -> Remedy:
        before, after = breached_in(self._before), breached_in(trial.verdicts)
        path = trial.change.path
        item = item_label(self._facts, path)
        label = label_of(path)
        return Remedy(
            path=path,
            label=f"{label} ({item})" if item else label,
            now=self._facts.written.get(path, "none"),
            then=trial.change.written,
            mends=self._affected(before - after - {own}),
            breaks=self._affected(after - before),
            opens=self._affected(self._opened(trial.verdicts)),
        )

    def _affected(self, keys: Iterable[tuple[str, str]]) -> tuple[Affected, ...]:
        rules = self._rulebook.rules
        return tuple(Affected(rule, rules[rule].title, item) for rule, item in sorted(keys))

    def _opened(self, after: Verdicts) -> Iterator[tuple[str, str]]:
        for key, verdict in after.items():
            was = self._before.get(key)
            if verdict is Verdict.UNDECIDED and was in (Verdict.MET, Verdict.BREACHED):
                yield key


_MOST_COUNTED = 64
_SLACK = 1e-9
"""More than writing a value rounds it by, as a share."""

_COARSEST, _FINEST = 2, 7
"""Digits that a value without a practical step is rounded to: the fewest that still mend."""


def _practical(
    edge: float, step: float | None, up: bool, unit: Unit, holds: Callable[[float], bool]
) -> float:
    """Round a value to what can be built or set, away from where the change comes from."""
    zero = float(unit.zero)
    steps = [step, step / 10] if step else []
    size = abs(edge - zero)
    for digits in range(_COARSEST, _FINEST):
        steps.append(_decimal_step(size / float(unit.factor), digits) * float(unit.factor))
    for practical_step in steps:
        whole = _rounded((edge - zero) / practical_step, up)
        # A value at the limit may still fail, so the next step beyond is tried too.
        for beyond in (whole, whole + (1 if up else -1)):
            if holds(zero + beyond * practical_step):
                return zero + beyond * practical_step
    return edge


def _rounded(number: float, up: bool) -> int:
    whole = round(number)
    if math.isclose(number, whole, rel_tol=1e-9, abs_tol=1e-12):
        return whole
    return math.ceil(number) if up else math.floor(number)


def _decimal_step(size: float, digits: int) -> float:
    """Return the value of the last digit, if a number is written with so many."""
    if size == 0:
        return 1.0
    return float(10.0 ** (math.floor(math.log10(size)) - digits + 1))


def _written(path: str, kind: QuantityKind, value: float, unit: Unit) -> Change | None:
    """Return a change to a value as one would write it, or None where it cannot be."""
    low, high = kind.bounds_in_si
    slack = _SLACK * (abs(value) + float(unit.zero))
    # So far beyond a bound that no rounding brings it back, it need not be written to be refused.
    if not low - slack <= value <= high + slack:
        return None
    number = show_number(in_unit(value, unit), digits=12)
    text = f"{number} {unit.symbol}"
    if unit.symbol == "1" or len(text) > LONGEST_QUANTITY:
        return None  # no file could state it
    try:
        # What reading the text would give, without reading it.
        quantity = kind.read(Quantity(Decimal(number), unit))
    except ValueError:
        return None
    return Change(path, quantity.si, text)
