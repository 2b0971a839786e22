"""Making new texts of real ones: by characters, by words, by lines, and by keys and values."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from random import Random

_WORD = re.compile(r"\s+|[\w.°µΩ²³]+|\S")
_PAIR = re.compile(r"^(\s*[\w.\-\"']+\s*=\s*)(.*)$", re.DOTALL)

NUMBERS = (
    *("0", "-0", "1", "-1", "0.1", "1e308", "1e309", "-1e400", "1e-400", "9" * 20, "9" * 400),
    *("inf", "-inf", "nan", "1_000", "0x10", "0b1", "١", "1,5", "1,500", ".5", "5.", "+3", "1e999"),
)
STRANGE = (
    *("", "\x00", "\x1b[2J", "\u202e", "\ud800".encode("utf-8", "surrogatepass").hex(), "\ufeff"),
    *("é", "²", "\u2028", "𝟛", "µ", "\r", "\n", "\t", "'", '"', "'''", '"""', "\\", "\\u0000", "#"),
    *("[", "]", "[[", "]]", "{", "}", "=", ".", ",", "/", "^", "(", ")", "\udcff", "\udcc3(", "-"),
)
VALUES = (
    *('"none"', '"None"', "[]", "{}", "true", "false", '""', '" "', "0", "-1", "1.5", "inf", "nan"),
    *('"5 mm"', '"-5 mm"', '"0 m"', '"5 kg"', '"20 degC"', '"300 K"', '"50 %"', '"5"', '"1e300 m"'),
    *("2026-11-25", "2026-11-25T10:00:00Z", "10:00:00", "0001-01-01", "9999-12-31", "9" * 25),
    *('["a"]', "[[]]", "[{}]", "[1, 2]", "{ a = 1 }", '[{ name = "a" }, { name = "a" }]', "'x'"),
    *(
        '"' + "x" * 2001 + '"',
        "[" * 40 + "]" * 40,
        '"\\u0000"',
        '"\\u202e"',
        '"<b>"',
        "0x7f",
        "1e400",
    ),
)


def mutated(chance: Random, text: str, others: Sequence[str], words: Sequence[str] = ()) -> str:
    """Change a text in some places.

    Args:
        chance: Decides where and how.
        text: The text.
        others: Texts of the same sort, from which lines and words are taken.
        words: Words that mean something in such a text.
    """
    for _ in range(chance.choice((1, 1, 1, 2, 2, 3, 5, 8))):
        text = chance.choice(_WAYS)(chance, text, others, words)
    return text


def _by_character(chance: Random, text: str, others: Sequence[str], words: Sequence[str]) -> str:
    at = chance.randint(0, len(text))
    match chance.randint(0, 3):
        case 0:
            return text[:at] + chance.choice(STRANGE) + text[at:]
        case 1:
            return text[:at] + text[at + 1 :]
        case 2:
            return text[:at] + chr(chance.randint(32, 126)) + text[at + 1 :]
        case _:
            end = min(len(text), at + chance.randint(1, 20))
            return text[:end] + text[at:end] * chance.choice((1, 1, 2, 40)) + text[end:]


def _by_word(chance: Random, text: str, others: Sequence[str], words: Sequence[str]) -> str:
    before, line, after = _a_line(chance, text)
    parts = _WORD.findall(line)
    if not parts:
        return text
    at = chance.randrange(len(parts))
    match chance.randint(0, 5):
        case 0:
            del parts[at]
        case 1:
            parts.insert(at, parts[chance.randrange(len(parts))])
        case 2:
            other = chance.randrange(len(parts))
            parts[at], parts[other] = parts[other], parts[at]
        case 3 if words:
            parts[at] = chance.choice(words)
        case 4:
            numbers = [place for place, part in enumerate(parts) if part[0].isdigit()]
            parts[chance.choice(numbers) if numbers else at] = chance.choice(NUMBERS)
        case _:
            _, other_line, _ = _a_line(chance, chance.choice(others))
            parts[at] = chance.choice(_WORD.findall(other_line) or [""])
    return before + "".join(parts) + after


def _by_value(chance: Random, text: str, others: Sequence[str], words: Sequence[str]) -> str:
    before, line, after = _a_line(chance, text)
    pair = _PAIR.match(line)
    if pair is None:
        return _by_word(chance, text, others, words)
    match chance.randint(0, 4):
        case 0 | 1:
            return f"{before}{pair[1]}{chance.choice(VALUES)}{after}"
        case 2 if words:
            return f"{before}{chance.choice(words)} = {pair[2]}{after}"
        case 3 if words:
            return f'{before}{pair[1]}"{chance.choice(words)}"{after}'
        case _:
            _, other, _ = _a_line(chance, chance.choice(others))
            other_pair = _PAIR.match(other)
            return f"{before}{pair[1]}{other_pair[2] if other_pair else other}{after}"


def _by_line(chance: Random, text: str, others: Sequence[str], words: Sequence[str]) -> str:
    before, line, after = _a_line(chance, text)
    match chance.randint(0, 4):
        case 0:
            return before + after.removeprefix("\n")
        case 1:
            return f"{before}{line}\n{line}{after}"
        case 2:
            return f"{line}\n{before}{after.removeprefix(chr(10))}"
        case 3:
            _, other, _ = _a_line(chance, chance.choice(others))
            return f"{before}{other}\n{line}{after}"
        case _:
            _, other, other_after = _a_line(chance, chance.choice(others))
            return before + other + other_after


_WAYS: tuple[Callable[[Random, str, Sequence[str], Sequence[str]], str], ...] = (
    _by_character,
    _by_word,
    _by_word,
    _by_value,
    _by_value,
    _by_line,
)


def _a_line(chance: Random, text: str) -> tuple[str, str, str]:
    """Return what stands before a line, the line, and what stands after it."""
    at = chance.randint(0, len(text))
    start = text.rfind("\n", 0, at) + 1
    end = text.find("\n", at)
    end = len(text) if end < 0 else end
    return text[:start], text[start:end], text[end:]


def thinned(chance: Random, text: str, most: int) -> str:
    """Keep a few of the tables of a TOML text, and of each a few lines."""
    tables = re.split(r"\n(?=\[)", text)
    kept = []
    for table in chance.sample(tables, min(len(tables), chance.randint(1, most))):
        head, *lines = table.split("\n")
        some = chance.random()
        kept.append("\n".join([head, *(line for line in lines if chance.random() < some)]))
    kept.sort(key=tables_first)
    return "\n".join(kept)


def tables_first(table: str) -> bool:
    """Sort what stands outside any table before the tables."""
    return table.startswith("[")
