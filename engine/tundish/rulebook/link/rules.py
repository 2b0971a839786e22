"""Linking the rules of all packs, in the order the packs lie."""

from __future__ import annotations

import datetime
from collections.abc import Mapping
from dataclasses import replace

from tundish.language.tree import tree as t
from tundish.language.tree.kind import DATE, TRUTH
from tundish.rulebook.files.faults import Faults
from tundish.rulebook.files.file_shapes import CitationShape, PackShape, RuleShape
from tundish.rulebook.files.pack import Pack
from tundish.rulebook.files.read_file import read_shape
from tundish.rulebook.files.sources_file import cited
from tundish.rulebook.link.expressions import Linker
from tundish.rulebook.link.overrides import Claim, no_rule, override_rules, stated_override
from tundish.rulebook.model.choices import FORMAT
from tundish.rulebook.model.definition import Override, variables_of
from tundish.rulebook.model.rule import Rule
from tundish.rulebook.model.rule_file import RuleFile
from tundish.text.bounds import MOST_ADJUSTED
from tundish.text.nearest import did_you_mean

_DAY = "job.date"


def link_rules(packs: list[Pack], linker: Linker) -> dict[str, Rule]:
    """Link the rules of all packs: later ones may replace or retire those of earlier ones."""
    rules: dict[str, Rule] = {}
    out_of_use: list[Claim] = []
    settled: set[str] = set()
    for pack in packs:
        for retirement in _retirements(pack, rules, linker.problems):
            if retirement.override.region:
                out_of_use.append(retirement)
            else:
                settled.add(retirement.name)
                del rules[retirement.name]
        for name, file in pack.rules.items():
            shape, wrong = read_shape(RuleShape, file.file.data, file, (), "rule")
            linker.problems.extend(wrong)
            if shape is None:
                linker.problems.refuse("rule", name)
                _check_texts(linker, file)
                continue
            below = rules.get(name)
            if sentence := _misplaced(name, shape, pack, rules, linker.problems):
                linker.problems.append(file.problem(("replaces",), sentence))
                continue
            rule = link_rule(linker, name, shape, file, pack.region)
            if rule is None:
                linker.problems.refuse("rule", name)
                continue
            if below is not None and shape.regions:
                settled.add(name)  # it says itself where it holds
            if below is not None and rule.overrides is None:
                rule = replace(rule, overrides=below.overrides)
            rules[name] = rule
    override_rules(rules, out_of_use, frozenset(settled), linker.scope, linker.problems)
    return rules


def _misplaced(
    name: str, shape: RuleShape, pack: Pack, rules: Mapping[str, Rule], problems: Faults
) -> str:
    """Say why a rule cannot stand under its name in a pack, or nothing where it can."""
    below = rules.get(name)
    stands_below = below is not None or problems.has_refused("rule", name)
    is_of_others = below is not None and pack.region and below.regions != (pack.region,)
    if is_of_others:
        return (
            f"Outside {pack.region} there is a rule '{name}' too: give this one a name of its own, "
            "and say in 'overrides' if it takes the place of that one."
        )
    if stands_below == (shape.replaces is not None):
        return ""
    if stands_below:
        return f"Another pack already has a rule '{name}': say 'replaces' and why."
    return no_rule(name, rules, "replace")


def _retirements(pack: Pack, rules: Mapping[str, Rule], problems: Faults) -> list[Claim]:
    """Return the rules that a pack takes out of use: everywhere, or in its country alone."""
    if pack.about is None:
        return []
    shape, wrong = read_shape(PackShape, pack.about.file.data, pack.about, (), "pack")
    problems.extend(wrong)
    claims = []
    if shape is not None and shape.format != FORMAT:
        sentence = (
            f"The pack is written for rule format {shape.format}; this program reads {FORMAT}."
        )
        problems.append(pack.about.problem(("format",), sentence))
    for at, retirement in enumerate(shape.retire if shape else []):
        rule = rules.get(retirement.rule)
        key = ("retire", at, "rule")
        if rule is not None:
            region = "" if rule.regions == (pack.region,) else pack.region
            override = Override(region, "", retirement.because)
            claims.append(Claim(retirement.rule, override, pack.about, key))
            continue
        if problems.has_refused("rule", retirement.rule):
            continue
        problems.append(pack.about.problem(key, no_rule(retirement.rule, rules, "retire")))
    return claims


def link_rule(
    linker: Linker, name: str, shape: RuleShape, file: RuleFile, region: str = ""
) -> Rule | None:
    """Check and compile a rule; in a national pack it holds in that region alone."""
    if region and shape.regions:
        linker.note(file, ("regions",), f"In the pack of {region} a rule holds in {region}.")
    regions = (region,) if region else tuple(shape.regions)
    each = linker.each(shape.each, file, ("each",))
    variables = variables_of(each) if each else linker.refused_item(shape.each)
    asked_where, written = _asked_where(linker, shape, file, variables)
    applies = asked_where and held_between(
        linker.in_regions(asked_where, regions), shape.holds_from, shape.holds_until
    )
    requires = linker.checked(shape.requires, file, ("requires",), variables, TRUTH)
    breach = linker.template(shape.breach, file, variables)
    adjust = _adjust(linker, shape, file)
    shared = linker.shared(shape, file, ())
    if (
        asked_where is None
        or applies is None
        or requires is None
        or (shape.each is not None and each is None)
    ):
        return None
    return Rule(
        name=name,
        title=shape.title,
        applies=applies,
        requires=requires,
        severity=shape.severity,
        stage=shape.stage,
        regions=regions,
        because=shape.because,
        remedy=shape.remedy,
        breach=breach,
        adjust=adjust,
        formerly=tuple(shape.formerly),
        each=each,
        asked_where=asked_where,
        written={"applies": written, "requires": shape.requires},
        overrides=stated_override(name, shape, file, (), region, linker.problems),
        overridden=(),
        replaces=shape.replaces is not None,
        **shared,
    )


def _asked_where(
    linker: Linker, shape: RuleShape, file: RuleFile, variables: Mapping[str, str]
) -> tuple[t.Node | None, str]:
    """Return when a rule is asked, and the text of it.

    What is asked until or once something is known says so to every evaluator in the words of the
    language: `not known(x)`, `known(x)`.
    """
    asked_where = linker.checked(shape.applies, file, ("applies",), variables, TRUTH)
    words = {"once_known": "known", "until_known": "not known"}
    parts: list[str] = []
    for key, word in words.items():
        for at, name in enumerate(getattr(shape, key)):
            known = f"known({name})"
            offset = -known.index(name)
            if not linker.checked(known, file, (key, at), variables, TRUTH, offset):
                asked_where = None
            parts.append(f"{word}({name})")
    if asked_where is None or not parts:
        return asked_where, shape.applies
    if not isinstance(asked_where, t.Constant):
        is_loose = (
            isinstance(asked_where, t.Choice | t.Logic) and len(t.conjuncts(asked_where)) == 1
        )
        parts.append(f"({shape.applies})" if is_loose else shape.applies.strip())
    text = " and ".join(parts)
    return linker.checked(text, file, ("applies",), variables, TRUTH), text


def _check_texts(linker: Linker, file: RuleFile) -> None:
    """Check the conditions of a rule that is refused already, to report all its faults at once."""
    texts = {
        key: text
        for key in ("each", "applies", "requires", "breach")
        if isinstance(text := file.file.data.get(key), str) and text
    }
    each = linker.each(texts.get("each"), file, ("each",))
    variables = variables_of(each) if each else linker.refused_item(texts.get("each"))
    for key in ("applies", "requires"):
        if key in texts:
            linker.checked(texts[key], file, (key,), variables, TRUTH)
    linker.template(texts.get("breach"), file, variables)
    cited(_citations(file.file.data.get("cite")), linker.sources, file, (), linker.problems)


def _adjust(linker: Linker, shape: RuleShape, file: RuleFile) -> tuple[str, ...]:
    paths = [shape.adjust] if isinstance(shape.adjust, str) else shape.adjust
    if len(paths) > MOST_ADJUSTED:
        sentence = f"'adjust' has {len(paths):,} entries; the most is {MOST_ADJUSTED:,}."
        linker.note(file, ("adjust",), sentence)
        return ()
    for path in paths:
        meaning = linker.scope.facts.get(path)
        if meaning is None and linker.scope.was_refused(path):
            continue
        if meaning is None or meaning.kind.name in ("record", "items"):
            hint = did_you_mean(path, list(linker.scope.facts))
            linker.note(file, ("adjust",), f"'{path}' is no fact of a job.{hint}")
    return tuple(paths)


def _citations(cite: object) -> list[CitationShape]:
    """Return what is cited, where every citation names a source at least."""
    entries = cite if isinstance(cite, list) else []
    names = [entry.get("source") for entry in entries if isinstance(entry, dict)]
    texts = [name for name in names if isinstance(name, str)]
    return [CitationShape(source=name) for name in texts] if len(texts) == len(entries) else []


def held_between(
    condition: t.Node, first: datetime.date | None, last: datetime.date | None
) -> t.Node:
    """Return a condition that is asked between two days alone.

    Args:
        condition: The condition.
        first: The first day on which it is asked, or None.
        last: The last day on which it is asked, or None.
    """
    day = t.Read(DATE, 0, 0, _DAY, "day of the description")
    known = t.Known(TRUTH, 0, 0, day)
    parts: list[t.Node] = [
        t.Comparison(TRUTH, 0, 0, sign, day, _constant(limit))
        for sign, limit in ((">=", first), ("<=", last))
        if limit is not None
    ]
    if not parts:
        return condition
    holds = parts[0] if len(parts) == 1 else t.Logic(TRUTH, 0, 0, "and", tuple(parts))
    newest = t.Constant(TRUTH, 0, 0, last is None, "true" if last is None else "false")
    # Whether the day is known is always known, so nobody is asked for it.
    on_its_day = t.Choice(TRUTH, 0, 0, known, holds, newest)
    return t.Logic(TRUTH, 0, condition.end, "and", (on_its_day, condition))


def _constant(day: datetime.date) -> t.Constant:
    return t.Constant(DATE, 0, 0, float(day.toordinal()), day.isoformat())
