"""The template of a rule: a whole small rule about one fact, a comment on each of its lines."""

from __future__ import annotations

import datetime
from collections.abc import Iterator, Mapping
from textwrap import wrap

from tundish.groundwork.dataclass import dataclass
from tundish.job.hints import measure_of_pipe
from tundish.job.model.schema import Asked, Fact
from tundish.report.forms.fact_place import FactPlace, place_of_fact
from tundish.report.forms.requirement import Requirement, requirement
from tundish.rulebook.model.declared_facts import kind_of
from tundish.rulebook.rulebook import Rulebook
from tundish.text.inline_toml import inline, toml_string

_WIDTH = 78

_PIPE = "copper 28 x 0.9"
_MEASURES = {
    # measure: (condition on it, how that is said, another pipe)
    "outside_diameter": (">= 28 mm", "be at least 28 mm", "copper 22 x 0.9"),
    "wall": (">= 0.9 mm", "be at least 0.9 mm", "copper 28 x 0.8"),
    "name": (f"== '{_PIPE}'", f"be '{_PIPE}'", "copper 22 x 0.9"),
    "size": ("== '28 x 0.9'", "be '28 x 0.9'", "copper 22 x 0.9"),
    "material": ("== 'copper'", "be 'copper'", "steel DN25"),
}


def rule_template(asked: Asked, rulebook: Rulebook, today: datetime.date) -> str:
    """Write the template of a rule that asks something of a fact, a group or a list.

    Args:
        asked: What the rule is to look at.
        rulebook: What conditions may name, and the facts that packs declare.
        today: The day of its first review.

    Returns:
        TOML text that can be proved as it stands; empty where no rule can ask anything of it.
    """
    measure = measure_of_pipe(asked)
    path, written = asked.path, asked.path
    if measure:
        path, written = measure.path, measure.path.rpartition(".")[0]
        wanted: Requirement | None = _of_pipe(measure)
    else:
        wanted = requirement(asked, kind_of(path, rulebook.declared))
    if wanted is None:
        return ""
    place = place_of_fact(path, rulebook.scope.is_taken)
    source = _common_practice(rulebook)
    return "\n".join(_Template(wanted, place, written, source, today).rows()) + "\n"


def _of_pipe(measure: Fact) -> Requirement:
    """Return what a template asks of one measure of a pipe size.

    Args:
        measure: The measure; its path ends with its name.
    """
    condition, must, other = _MEASURES[measure.path.rpartition(".")[2]]
    return Requirement(
        f"{{name}} {condition}",
        f"the {measure.label} must {must}",
        "it is not",
        f"Fit a pipe of which the {measure.label} is as asked.",
        _PIPE,
        other,
        "such a pipe",
        "another pipe",
        may_change=measure.kind == "quantity",
        notes=("A pipe size is written as one text; a condition names one of its measures.",),
    )


def _common_practice(rulebook: Rulebook) -> str:
    """Return the name of the source that stands for common practice."""
    names = [name for name, source in rulebook.sources.items() if source.basis == "common practice"]
    return names[0] if names else "common-practice"


@dataclass(frozen=True, slots=True)
class _Template:
    """What a template is written from.

    Attributes:
        wanted: What is asked.
        place: Where the fact stands.
        written: The path under which a case states it.
        source: The source that is cited.
        today: The day of the review.
    """

    wanted: Requirement
    place: FactPlace
    written: str
    source: str
    today: datetime.date

    def rows(self) -> Iterator[str]:
        yield from self._asking()
        yield from self._telling()
        yield from self._cases()

    def _asking(self) -> Iterator[str]:
        wanted, place = self.wanted, self.place
        yield "# The requirement, as one sentence."
        yield f"title    = {toml_string(self._title())}"
        if place.lists:
            around = place.lists[0]
            yield "# The list whose every item it is asked of, and what an item is called below."
            yield f'each     = "{around.path} as {around.variable}"'
        yield "# When it is asked at all; leave the line out if always. Ask nothing of jobs it"
        yield "# cannot concern."
        groups = [f"present({group})" for group in place.condition_groups]
        applies = " and ".join(groups) or "placement.on == 'ground'"
        yield f"{'' if groups else '# '}applies  = {toml_string(applies)}"
        yield "# The condition that must hold. Names are facts of a job and quantities; a unit"
        yield "# follows its number."
        for note in wanted.notes:
            yield from (f"# {row}" for row in wrap(note.replace("{name}", place.name), _WIDTH))
        yield f"requires = {toml_string(self._condition())}"

    def _title(self) -> str:
        title, lists = self.wanted.title, self.place.lists
        if not lists:
            return title[:1].upper() + title[1:]
        labels = " and each ".join(around.label for around in lists)
        return f"For each {labels}, {title}"

    def _condition(self) -> str:
        condition = self.wanted.condition.replace("{name}", self.place.name)
        for around in reversed(self.place.lists[1:]):
            items = self.place.named(around.path)
            condition = f"all({condition} for {around.variable} in {items})"
        return condition

    def _telling(self) -> Iterator[str]:
        wanted = self.wanted
        yield "# danger: people may be hurt; fault: it will not work, be damaged or be refused;"
        yield "# caution: it will work worse or wear; note."
        yield 'severity = "caution"'
        yield "# From when on it must be decided: enquiry, survey, design, order, installation,"
        yield "# commissioning."
        yield 'stage    = "design"'
        yield "# Why, in a sentence that a tired installer understands."
        yield f"because  = {toml_string(f'Say here what goes wrong where {wanted.otherwise}.')}"
        yield "# What mends a breach; something that can be done."
        yield f"remedy   = {toml_string(wanted.remedy)}"
        if wanted.may_change:
            yield "# The facts that mending may change; the least change is then worked out."
            yield f"adjust   = {toml_string(self.place.path)}"
        yield "# On whose authority: a source of sources.toml, with its place; recall = true if"
        yield "# from memory."
        yield f"cite     = [{{ source = {toml_string(self.source)} }}]"
        yield f"reviewed = {self.today.isoformat()}"

    def _cases(self) -> Iterator[str]:
        wanted, place = self.wanted, self.place
        yield ""
        yield "# What proves it: at least one case that is met, one breached, one undecided, and"
        yield "# both sides of every limit."
        yield from self._case(wanted.why_met, self._stated(wanted.met), "met")
        yield ""
        yield from self._case(wanted.why_breached, self._stated(wanted.breached), "breached")
        unknown = place.unknown()
        if unknown:
            given, path = unknown
            yield ""
            yield from self._case("nobody knows yet", self._beside(given), "undecided", path)
        if place.lists:
            path = place.lists[0].path
            yield ""
            yield from self._case("the list is not known yet", {}, "undecided", path)
        for group in place.groups:
            if place.named(group) in place.condition_groups:
                absent = place.given(group, "none")
                yield ""
                yield from self._case("there is none", absent, "not applicable")

    def _stated(self, value: object) -> dict[str, object]:
        return self._beside(self.place.given(self.written, value))

    def _beside(self, given: Mapping[str, object]) -> dict[str, object]:
        return {**given, **dict(self.wanted.beside)}

    def _case(
        self, why: str, given: Mapping[str, object], outcome: str, unknown: str = ""
    ) -> Iterator[str]:
        yield "[[case]]"
        yield f"why     = {toml_string(why)}"
        yield f"given   = {inline(given)}"
        yield f'outcome = "{outcome}"'
        if unknown:
            yield f"unknown = [{toml_string(unknown)}]"
