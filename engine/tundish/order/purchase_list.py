"""The order list: what a job needs, what comes with the unit, and what of it was ordered."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import field
from enum import StrEnum

from tundish.findings.assess import digest_of, program_version
from tundish.findings.cautions import CAUTIONS
from tundish.findings.details import Details, item_label, open_facts
from tundish.findings.finding import Open
from tundish.findings.judged_job import assessed_facts
from tundish.findings.phrases import Wording
from tundish.groundwork.dataclass import dataclass
from tundish.job.facts import Facts
from tundish.job.job import Job
from tundish.language.budget.budget import TooManySteps
from tundish.language.evaluate.step import Step
from tundish.language.tree.tree import Constant
from tundish.rulebook.evaluate.provisions import Need, Provided, ask, explain_provision
from tundish.rulebook.model.provision import AMOUNTS, Provision
from tundish.rulebook.model.source import Citation
from tundish.rulebook.rulebook import Rulebook
from tundish.text.nearest import did_you_mean
from tundish.units.format import show
from tundish.units.unit import read_unit


class Standing(StrEnum):
    """How a part stands."""

    MISSING = "missing"
    SURPLUS = "surplus"
    TO_ORDER = "to order"
    DOUBTFUL = "doubtful"
    ORDERED = "ordered"
    WITH_UNIT = "with the unit"


@dataclass(frozen=True, slots=True)
class OrderLine:
    """One part of an order list.

    Attributes:
        name: What an order list calls it.
        part: What to buy.
        standing: How it stands.
        needed: How much the job needs, with its unit; "" while it is not known, or none.
        ordered: How much was ordered, with its unit; "" where none was, or nobody says how much.
        statement: What is said of it, in a sentence.
        supplier: Who supplies it.
        because: Why it is needed.
        numbers: How the amount was worked out, where it is more than a number written out.
        open: The facts that would decide whether, or how much of it, is needed.
        assumed: What this takes for granted until it is known.
        sources: On whose authority.
    """

    name: str
    part: str
    standing: Standing
    needed: str
    ordered: str
    statement: str
    supplier: str
    because: str
    numbers: str = ""
    open: tuple[Open, ...] = ()
    assumed: tuple[str, ...] = ()
    sources: tuple[Citation, ...] = ()

    @property
    def from_memory(self) -> bool:
        """Say whether anything it rests on was written from memory."""
        return any(citation.recall for citation in self.sources)


@dataclass(frozen=True, slots=True)
class OrderList:
    """The order list of one job.

    Attributes:
        job: The job's title, or "".
        file: The file it was read from, or "".
        region: The region it was made for, or "".
        compared: Whether the job says what was ordered.
        lines: The parts, by how they stand and then by name.
        job_digest: SHA-256 of the job's facts.
        rulebook_digest: SHA-256 of the rulebook's files.
        version: The program's version.
        cautions: What a reader must know.
    """

    job: str
    file: str
    region: str
    compared: bool
    lines: tuple[OrderLine, ...]
    job_digest: str
    rulebook_digest: str
    version: str
    cautions: tuple[str, ...] = field(default=())

    def of(self, standing: Standing) -> tuple[OrderLine, ...]:
        """Return the parts that stand so."""
        return tuple(line for line in self.lines if line.standing is standing)


def order_list(job: Job, rulebook: Rulebook | None = None, region: str | None = None) -> OrderList:
    """Derive what a job needs, and compare it with what it says was ordered.

    Args:
        job: The job; nothing in it is changed.
        rulebook: Its provisions say what is needed; the built-in one where none is given.
        region: The ISO 3166 code to go by, in place of the job's own.

    Returns:
        Every part that is needed, comes with the unit, was ordered or may be needed.

    Example:
        >>> order = order_list(Job.from_data({"water.filter": "none"}))
        >>> order.compared
        False
    """
    rules = rulebook or Rulebook.built_in()
    facts = assessed_facts(job, rules, None, region)
    lines = sorted(_Writer(facts, rules).lines(), key=_rank)
    return OrderList(
        job=job.title or "",
        file=job.source.files[0].name if job.source else "",
        region=str(facts.values.get("job.region", "")),
        compared="order" in facts.values,
        lines=tuple(lines),
        job_digest=digest_of(facts),
        rulebook_digest=rules.digest,
        version=program_version(),
        cautions=CAUTIONS,
    )


def _rank(line: OrderLine) -> tuple[int, str]:
    return list(Standing).index(line.standing), line.name


@dataclass(frozen=True, slots=True)
class _Amount:
    """What was ordered of a part: in all, in SI units; None where nobody says how much."""

    total: float | None
    supplier: str


class _Writer:
    """Writes the lines of one job."""

    def __init__(self, facts: Facts, rulebook: Rulebook) -> None:
        self._facts = facts
        self._rulebook = rulebook
        self._wording = Wording(facts)
        self._explainer = rulebook.explainer(facts)
        self._details = Details(rulebook.quantities, self._wording, lambda _: "", self._item_label)
        items = facts.values.get("order")
        self._compared = isinstance(items, list)
        self._items: list[Mapping[str, object]] = list(items) if isinstance(items, list) else []

    def lines(self) -> Iterator[OrderLine]:
        session = self._rulebook.session(self._facts.values)
        asked_for: set[str] = set()
        for provision in self._rulebook.provisions.values():
            asked_for.update(name.lower() for name in provision.names)
            line = self._line(provision, ask(provision, session))
            if line is not None:
                yield line
        for item in self._items:
            name = str(item.get("name", ""))
            if name.lower() not in asked_for:
                yield _unasked(name, sorted(asked_for))

    def _line(self, provision: Provision, provided: Provided) -> OrderLine | None:
        ordered = self._ordered(provision)
        standing, statement = _judged(provision, provided, ordered, self._compared)
        if standing is None:
            return None
        needed, total = provided.amount, ordered.total if ordered else None
        steps = self._steps(provision)
        return OrderLine(
            name=provision.name,
            part=provision.part,
            standing=standing,
            needed="" if needed is None else show(needed, provision.unit),
            ordered="" if total is None else show(total, provision.unit),
            statement=statement,
            supplier=(ordered and ordered.supplier) or provision.supplier,
            because=provision.because,
            numbers=self._numbers(provision, provided),
            open=self._open(steps, provided),
            assumed=self._details.of(steps)[2],
            sources=provision.citations,
        )

    def _ordered(self, provision: Provision) -> _Amount | None:
        """Return what was ordered under any name of a part, or None if nothing was."""
        names = {name.lower() for name in provision.names}
        orders = [item for item in self._items if str(item.get("name", "")).lower() in names]
        if not orders:
            return None
        stated = [item.get(AMOUNTS[provision.unit.dimension.name]) for item in orders]
        known = [amount for amount in stated if isinstance(amount, float)]
        suppliers = (str(item["supplied_by"]) for item in orders if "supplied_by" in item)
        return _Amount(sum(known) if len(known) == len(stated) else None, next(suppliers, ""))

    def _numbers(self, provision: Provision, provided: Provided) -> str:
        if provided.amount is None or isinstance(provision.number, Constant):
            return ""
        try:
            return self._wording.numbers(self._explainer.explain(provision.number, {}))
        except TooManySteps:
            return ""

    def _steps(self, provision: Provision) -> tuple[Step, ...]:
        try:
            return explain_provision(provision, self._explainer)
        except TooManySteps:
            return ()

    def _open(self, steps: tuple[Step, ...], provided: Provided) -> tuple[Open, ...]:
        if provided.need is not Need.UNDECIDED:
            return ()
        needs = frozenset[str]().union(*(step.needs for step in steps))
        return open_facts(needs, self._item_label, find=self._rulebook.asked)

    def _item_label(self, path: str) -> str:
        return item_label(self._facts, path)


def _judged(
    provision: Provision, provided: Provided, ordered: _Amount | None, compared: bool
) -> tuple[Standing | None, str]:
    """Return how a part stands, and a sentence on it; no standing where it is of no concern."""
    match provided.need:
        case Need.UNDECIDED:
            also = "; it was ordered" if ordered else ""
            return Standing.DOUBTFUL, f"Whether it is needed is not known yet{also}."
        case Need.WITH_UNIT if ordered:
            return Standing.SURPLUS, "It comes with the unit, and was ordered as well."
        case Need.WITH_UNIT:
            return Standing.WITH_UNIT, "It comes with the unit."
        case Need.NOT_NEEDED if ordered:
            return Standing.SURPLUS, "It was ordered, and this job does not need it."
        case Need.NOT_NEEDED:
            return None, ""
    if not compared:
        return Standing.TO_ORDER, "The job needs it."
    return _compared(provision, provided.amount or 0.0, ordered)


def _compared(provision: Provision, needed: float, ordered: _Amount | None) -> tuple[Standing, str]:
    """Compare what is needed with what was ordered."""
    if ordered is None:
        return Standing.MISSING, "The job needs it, and it was not ordered."
    if ordered.total is None:
        unit = AMOUNTS[provision.unit.dimension.name]
        return Standing.DOUBTFUL, f"It was ordered, but no {unit} of it is told."
    apart = ordered.total - needed
    if abs(apart) <= _CLOSE * needed:
        return Standing.ORDERED, "It was ordered, as much as is needed."
    by = show(abs(apart), provision.unit)
    if apart < 0:
        return Standing.MISSING, f"Too little was ordered: short by {by}."
    counted = provision.unit == read_unit("1")
    if not counted:  # pipe and fluid are sold by the roll and the canister
        return Standing.ORDERED, f"It was ordered, {by} more than is needed."
    return Standing.SURPLUS, f"More was ordered than is needed: {by} too many."


_CLOSE = 1e-9
"""Share within which two amounts are equal, as everywhere."""


def _unasked(name: str, names: list[str]) -> OrderLine:
    statement = f"It was ordered, and no rule knows such a part.{did_you_mean(name, names)}"
    return OrderLine(name, name, Standing.DOUBTFUL, "", "", statement, "", "")
