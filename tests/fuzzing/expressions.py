"""Typed expressions by chance, over the small world of `language.world`.

Every operator, function, loop, table and word of the language comes up, each with operands of
kinds that fit it.
"""

from __future__ import annotations

from collections.abc import Callable
from random import Random

from tundish.language.operations.aggregates import AGGREGATES
from tundish.language.operations.functions import FUNCTIONS, INTERPOLATE, SPECIAL
from tundish.language.syntax.tokens import RESERVED

WORDS = (
    *sorted(RESERVED),
    *FUNCTIONS,
    *AGGREGATES,
    *SPECIAL,
    INTERPOLATE,
    *(
        "pi",
        "+",
        "-",
        "*",
        "/",
        "^",
        "<",
        "<=",
        ">",
        ">=",
        "==",
        "!=",
        "(",
        ")",
        "[",
        "]",
        ",",
        "'",
    ),
)

LEAVES: dict[str, tuple[str, ...]] = {
    "length": ("a", "b", "c", "both", "water.depth", "all_twice", "1 m", "0 m", "20 cm", "1e308 m"),
    "area": ("area", "2 m2", "0 m2", "(a * b)"),
    "flow": ("flow", "20 L/min", "0 m3/h"),
    "power": ("power", "3 kW", "0 W"),
    "volume": ("water.vessel.volume", "20 L", "0 L"),
    "number": (
        "n",
        "m",
        "0",
        "1",
        "2",
        "0.5",
        "pi",
        "50 %",
        "1e300",
        "count(rod)",
        "count(water.run)",
    ),
    "point": ("warm", "cold", "20 degC", "-5 degC", "0 degC"),
    "rise": ("rise", "5 K", "0 K"),
    "level": ("loud", "quiet", "45 dB", "(loud - 40 dB)"),
    "gap": ("(loud - quiet)", "decibels(n)", "decibels(2)"),
    "pressure": ("1 bar", "101 kPa", "0 Pa"),
    "truth": ("f", "g", "h", "true", "false", "either", "present(water)", "present(water.vessel)"),
    "text": ("name", "colour", "paint"),
    "date": ("start", "finish"),
}
"""What needs no operands, by kind; `gap` is a difference of sound levels."""

OF_ITEM: dict[str, dict[str, tuple[str, ...]]] = {
    "water.run": {
        "length": ("length", "twice", "reach"),
        "rise": ("rise",),
        "point": ("at",),
        "text": ("kind",),
        "truth": ("open",),
    },
    "water.run.part": {"length": ("size", "half")},
    "rod": {"length": ("length",)},
}
"""What an item of each list has, by kind."""

AMOUNTS = ("length", "area", "flow", "power", "volume", "number", "rise", "gap", "pressure")
QUANTITIES = (*AMOUNTS, "point", "level")
SIGNS = ("<", "<=", ">", ">=", "==", "!=")
BOOKISH = {
    "name": ("'x'", "'thin'", "'thick'"),
    "colour": ("'red'", "'green'"),
    "paint": ("'red'",),
}


class Writer:
    """Writes one expression.

    Args:
        chance: Decides what stands where.
        lists: The lists that variables around it run over, by variable.
    """

    def __init__(self, chance: Random, lists: dict[str, str] | None = None) -> None:
        self._chance = chance
        self._lists = dict(lists or {})
        self._loops = 0

    def write(self, kind: str, depth: int) -> str:
        """Return an expression of a kind, at most so many operators deep."""
        if depth <= 0 or self._chance.random() < 0.15:
            return self._leaf(kind)
        ways = _WAYS.get(kind, ())
        if kind in QUANTITIES:
            ways = (*ways, *_OF_QUANTITIES, *(_OF_AMOUNTS if kind in AMOUNTS else ()))
        if not ways:
            return self._leaf(kind)
        return self._chance.choice(ways)(self, kind, depth - 1)

    def one_of(self, *options: str) -> str:
        """Return one of some texts."""
        return self._chance.choice(options)

    def _leaf(self, kind: str) -> str:
        own = [
            f"{variable}.{name}"
            for variable, path in self._lists.items()
            for name in OF_ITEM[path].get(kind, ())
        ]
        if own and self._chance.random() < 0.6:
            return self._chance.choice(own)
        return self._chance.choice(LEAVES[kind])

    def over(self) -> tuple[str, str] | None:
        """Return a new variable and a list it can run over, if one more loop may stand here."""
        # A rule of items has a loop around it already, though that one is not counted.
        if self._loops == 2:
            return None
        variable = ("run", "each", "other", "one")[len(self._lists)]
        inner = [f"{name}.part" for name, path in self._lists.items() if path == "water.run"]
        return variable, self.one_of("water.run", "water.run", "rod", *inner * 2)

    def inside(self, variable: str, items: str, write: Callable[[], str]) -> str:
        """Write what stands inside a loop."""
        self._lists[variable] = "water.run.part" if items.endswith(".part") else items
        self._loops += 1
        written = write()
        self._loops -= 1
        del self._lists[variable]
        return written

    def filter(self, depth: int) -> str:
        """Return a condition on which items count, or nothing."""
        return f" if {self.write('truth', depth)}" if self._chance.random() < 0.6 else ""


Way = Callable[[Writer, str, int], str]


def _joined(form: str, *kinds: str) -> Way:
    """Return a way to write a form with operands of some kinds; "" is the kind itself."""

    def way(writer: Writer, kind: str, depth: int) -> str:
        return form.format(*(writer.write(one or kind, depth) for one in kinds))

    return way


def _loop(words: tuple[str, ...], term: str = "") -> Way:
    def way(writer: Writer, kind: str, depth: int) -> str:
        over = writer.over()
        if over is None:
            return writer.write(kind, 0)
        variable, items = over

        def inside() -> str:
            written = writer.write(term or kind, depth - 1)
            return f"{written} for {variable} in {items}{writer.filter(depth - 1)}"

        return f"{writer.one_of(*words)}({writer.inside(variable, items, inside)})"

    return way


def _interpolation(writer: Writer, kind: str, depth: int) -> str:
    over = writer.over()
    if over is None:
        return writer.write(kind, 0)
    variable, items = over
    keys = [writer.one_of("length", "length", "rise", "point") for _ in range(writer_keys(writer))]
    places = [writer.write(key, depth - 1) for key in keys]

    def inside() -> str:
        pairs = [f"{at}, {writer.write(key, 0)}" for at, key in zip(places, keys, strict=True)]
        value = writer.write(kind, depth - 1)
        return f"{', '.join([*pairs, value])} for {variable} in {items}{writer.filter(0)}"

    return f"interpolate({writer.inside(variable, items, inside)})"


def writer_keys(writer: Writer) -> int:
    """Return by how many keys a list is read."""
    return int(writer.one_of("1", "1", "1", "2"))


def _comparison(writer: Writer, kind: str, depth: int) -> str:
    operands = writer.one_of(*QUANTITIES, "date")
    first, second = writer.write(operands, depth), writer.write(operands, depth)
    return f"({first} {writer.one_of(*SIGNS)} {second})"


def _chained(writer: Writer, kind: str, depth: int) -> str:
    operands = writer.one_of(*QUANTITIES, "date")
    parts = [writer.write(operands, depth) for _ in range(3)]
    signs = writer.one_of("<", "<="), writer.one_of("<", "<=")
    return f"({parts[0]} {signs[0]} {parts[1]} {signs[1]} {parts[2]})"


def _known(writer: Writer, kind: str, depth: int) -> str:
    named = writer.one_of("a", "b", "both", "colour", "has", "start", "f", "all_twice", "warm", "n")
    return f"known({named})"


def _of_words(writer: Writer, kind: str, depth: int) -> str:
    return writer.one_of(
        "(colour in ['red', 'blue'])",
        "(paint == 'red')",
        "(colour != 'green')",
        "(paint == colour)",
        "(name == paint)",
        "(name in ['thin', 'x'])",
        "('biocide' in has)",
        "('inhibitor' in also)",
        "(name in has)",
        "(start < finish)",
        "((if f then colour else paint) == 'white')",
        "(assume(colour, 'red') == 'red')",
        "(lookup('rating.kind', a) == 'small')",
        f"(n in [1, 2, {writer.one_of('0', '1e-9', '3.5')}])",
        f"(a in [1 m, 20 cm, {writer.one_of('0 m', '1000.0000005 mm')}])",
        "(quiet in [45 dB])",
    )


_OF_QUANTITIES: tuple[Way, ...] = (
    _joined("(if {} then {} else {})", "truth", "", ""),
    _joined("least({}, {})", "", ""),
    _joined("greatest({}, {}, {})", "", "", ""),
    _loop(("least", "greatest")),
    _joined("assume({}, {})", "", ""),
    _interpolation,
)
_OF_AMOUNTS: tuple[Way, ...] = (
    _joined("({} + {})", "", ""),
    _joined("({} - {})", "", ""),
    _joined("({} + {} - {})", "", "", ""),
    _joined("(-{})", ""),
    _joined("({} * {})", "", "number"),
    _joined("({} / {})", "", "number"),
    _joined("({} / {} * {})", "", "", ""),
    _joined("absolute({})", ""),
    _joined("square_root({} * {})", "", ""),
    _joined("({0} ^ 2 / {1})", "", ""),
    _joined("({} * {} / {})", "", "length", "length"),
    _loop(("sum",)),
)
_WAYS: dict[str, tuple[Way, ...]] = {
    "length": (
        _joined("square_root({})", "area"),
        _joined("({} / {})", "area", "length"),
        _joined("({} ^ (1 / 2))", "area"),
        _joined("(lookup('rating.current', {}) * 1 m / 1 A)", "length"),
        _joined("lookup('wall', {})", "text"),
    ),
    "area": (
        _joined("({} * {})", "length", "length"),
        _joined("({} ^ 2)", "length"),
        _joined("({} / {})", "volume", "length"),
    ),
    "volume": (_joined("({} * {})", "area", "length"), _joined("({} * 1 min)", "flow")),
    "number": (
        _joined("({} / {})", "length", "length"),
        _joined("({} / {})", "power", "power"),
        _joined("exponential({})", "number"),
        _joined("logarithm({})", "number"),
        _joined("whole_above({})", "number"),
        _joined("friction_factor({}, {})", "number", "number"),
        _joined("decibel_ratio({})", "gap"),
        _joined("humidity_ratio({}, {}, {})", "point", "number", "pressure"),
        _joined("({} ^ {})", "number", "number"),
        _joined("({} ^ -1)", "number"),
        _joined("lookup('step', {})", "number"),
        _joined("lookup('density', {}, {})", "point", "number"),
        _joined("(air_enthalpy({}, {}, {}) / 1 kJ/kg)", "point", "number", "pressure"),
        _loop(("count",), "truth"),
        _loop(("count",), "truth"),
    ),
    "point": (
        _joined("({} + {})", "point", "rise"),
        _joined("({} - {})", "point", "rise"),
        _joined("({} + {})", "rise", "point"),
        _joined("dew_point({}, {}, {})", "point", "number", "pressure"),
        _joined("wet_bulb({}, {}, {})", "point", "number", "pressure"),
    ),
    "rise": (_joined("({} - {})", "point", "point"),),
    "level": (
        _joined("({} + {})", "level", "gap"),
        _joined("({} - {})", "level", "gap"),
        _joined("level_sum({}, {})", "level", "level"),
    ),
    "gap": (_joined("({} - {})", "level", "level"), _joined("decibels({})", "number")),
    "pressure": (
        _joined("air_pressure({})", "length"),
        _joined("saturation_pressure({})", "point"),
    ),
    "text": (
        _joined("(if {} then colour else paint)", "truth"),
        _joined("lookup('rating.kind', {})", "length"),
    ),
    "truth": (
        _comparison,
        _comparison,
        _chained,
        _known,
        _of_words,
        _of_words,
        _joined("({} and {})", "truth", "truth"),
        _joined("({} or {})", "truth", "truth"),
        _joined("({} and {} and {})", "truth", "truth", "truth"),
        _joined("({} or {} or {})", "truth", "truth", "truth"),
        _joined("(not {})", "truth"),
        _joined("({} == {})", "truth", "truth"),
        _joined("({} != {})", "truth", "truth"),
        _joined("(if {} then {} else {})", "truth", "truth", "truth"),
        _joined("assume({}, {})", "truth", "truth"),
        _loop(("all", "any")),
        _loop(("all", "any")),
    ),
}


def an_expression(
    chance: Random, kind: str = "truth", depth: int = 3, lists: dict[str, str] | None = None
) -> str:
    """Return an expression by chance.

    Args:
        chance: Decides what it is.
        kind: A key of `LEAVES`.
        depth: How many operators may stand inside each other.
        lists: The lists that variables around it run over, by variable.
    """
    return Writer(chance, lists).write(kind, depth)
