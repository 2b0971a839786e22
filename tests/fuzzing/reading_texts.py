"""Targets that read one short text: units, quantities and expressions."""

from __future__ import annotations

from random import Random

from fuzzing.expressions import LEAVES, WORDS, an_expression
from fuzzing.facts import as_world, some_facts
from fuzzing.mutating import NUMBERS, STRANGE, mutated
from fuzzing.target import Target, in_short, sentence_ends_well
from language.world import FACTS, check, computed, explained
from tundish.language.budget.budget import TooManySteps
from tundish.language.syntax.problem import ExpressionError
from tundish.text.bounds import LONGEST_QUANTITY
from tundish.units.format import show
from tundish.units.quantity import parse_quantity
from tundish.units.unit import KNOWN, MeasureError, read_unit
from tundish.units.units import SPELLINGS

_UNITS = [*KNOWN, *SPELLINGS]
_COMPOSED = (
    "W/(m2.K)",
    "kJ/(kg.K)",
    "m3/h",
    "kg/m3",
    "m.K/W",
    "L/min",
    "m^-1",
    "1/h",
    "Pa·s",
    "m/s2",
)


def _unit(chance: Random) -> str:
    match chance.randint(0, 3):
        case 0:
            return chance.choice(_UNITS)
        case 1:
            parts = [chance.choice(_UNITS)]
            for _ in range(chance.randint(1, 4)):
                parts.append(chance.choice(("/", ".", "·", "/(", ")", "^", "^-", "", "2", "^9")))
                parts.append(chance.choice((*_UNITS, "1", "2", "")))
            return "".join(parts)
        case 2:
            return mutated(chance, chance.choice(_COMPOSED), _COMPOSED, _UNITS)
        case _:
            return mutated(chance, chance.choice(_UNITS), _UNITS, _COMPOSED)


def _hold_unit(text: str) -> str:
    try:
        unit = read_unit(text)
    except MeasureError as error:
        sentence_ends_well(str(error))
        return in_short(str(error))
    assert str(unit) == text
    assert read_unit(str(unit)) == unit
    assert unit.factor > 0
    return "accepted" if unit.dimension.name else "accepted, without a name"


def _quantity(chance: Random) -> str:
    number = chance.choice(
        (
            *NUMBERS,
            str(chance.uniform(-1e3, 1e3)),
            f"{chance.random():e}",
            str(chance.randint(0, 99)),
        )
    )
    text = f"{number}{chance.choice((' ', '', '  ', chr(160)))}{_unit(chance)}"
    return text if chance.random() < 0.6 else mutated(chance, text, _COMPOSED, _UNITS)


def _hold_quantity(text: str) -> str:
    try:
        quantity = parse_quantity(text)
    except MeasureError as error:
        sentence_ends_well(str(error))
        return in_short(str(error))
    assert quantity.si == float(quantity.exact)
    written = str(quantity)
    if len(written) > LONGEST_QUANTITY - 2:  # a space or a point more, and it is too long to read
        return "accepted, as long as may be"
    again = parse_quantity(written if quantity.unit.symbol != "1" else f"{written} 1")
    assert again.exact == quantity.exact, (written, again)
    assert str(again) == written
    shown = show(quantity.si, quantity.unit)
    assert shown.isprintable(), shown
    return "accepted"


_KINDS = [*LEAVES]
_TEXTS = [an_expression(Random(seed), kind, 3) for seed in range(40) for kind in _KINDS]
_EXPRESSION_WORDS = (*WORDS, *FACTS, *NUMBERS, *STRANGE, "5 m", "run", "20 degC", "'red'", "45 dB")


def _expression(chance: Random) -> str:
    if chance.random() < 0.2:
        return an_expression(chance, chance.choice(_KINDS), chance.choice((1, 2, 4)))
    if chance.random() < 0.2:
        count = chance.choice((3, 8, 20, 600, 1100))
        words = [chance.choice(_EXPRESSION_WORDS) for _ in range(count)]
        return chance.choice((" ", "")).join(words)
    text = an_expression(chance, chance.choice(_KINDS), chance.choice((0, 1, 1, 2, 3)))
    return mutated(chance, text, _TEXTS, _EXPRESSION_WORDS)


def _hold_expression(text: str) -> str:
    try:
        node = check(text)
    except ExpressionError as error:
        assert list(error.problems) == sorted(error.problems) != []
        for problem in error.problems:
            sentence_ends_well(problem.sentence)
            assert 0 <= problem.start <= problem.end <= len(text) or problem.start == 0
        return in_short(error.problems[0].sentence)
    assert check(text) == node
    chance = Random(text)
    for _ in range(3):
        facts = as_world(some_facts(chance))
        try:
            value, step = computed(node, facts), explained(node, facts)
        except TooManySteps:
            return "accepted, too many steps"
        assert value == step.value and type(value) is type(step.value), (facts, value, step.value)
    return f"accepted, {node.kind.name}"


UNITS = Target("units", _unit, _hold_unit, seconds=1.0)
QUANTITIES = Target("quantities", _quantity, _hold_quantity, seconds=1.0)
EXPRESSIONS = Target("expressions", _expression, _hold_expression)
