"""What the generator can write: a small alphabet of Python, in which no text of a rule is code."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterable, Iterator
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from language.test_fused import NEEDED
from language.test_properties import CONDITIONS
from language.world import SCOPE
from tundish import Rulebook
from tundish.language.check.checker import check_expression
from tundish.language.codegen.common_subexpressions import Conditions
from tundish.language.evaluate import compiled
from tundish.language.evaluate import fused as whole
from tundish.language.operations.functions import FUNCTIONS
from tundish.language.operations.operators import ARITHMETIC
from tundish.language.tree import tree as t
from tundish.language.tree.kind import PLAIN_NUMBER, TRUTH, Kind, text_kind
from tundish.rulebook.evaluate.evaluator import Evaluator
from tundish.text.bundled_folders import bundled_folder

NODES = frozenset(
    [
        "Module",
        "FunctionDef",
        "arguments",
        "arg",
        "Assign",
        "AugAssign",
        "Expr",
        "Return",
        "If",
        "For",
        "Continue",
        "Break",
        "Name",
        "Load",
        "Store",
        "Constant",
        "Attribute",
        "Subscript",
        "Dict",
        "Call",
        "Pass",
        "Try",
        "ExceptHandler",
        "Tuple",
        "Starred",
        "NamedExpr",
        "List",
        "Set",
        "Compare",
        "BoolOp",
        "And",
        "Or",
        "UnaryOp",
        "Not",
        "USub",
        "BinOp",
        "Add",
        "Sub",
        "Mult",
        "Div",
        "FloorDiv",
        "IfExp",
        "Is",
        "IsNot",
        "In",
        "NotIn",
        "Eq",
        "NotEq",
        "Lt",
        "LtE",
        "Gt",
        "GtE",
    ]
)
NAMES = frozenset(
    [
        "facts",
        "session",
        "item",
        "met",
        "breached",
        "undecided",
        "not_applicable",
        "deferred",
        "interpolated",
        "member",
        "agreed",
        "float",
        "does_not_hold",
        "len",
        "list",
        "open_list",
        "abs",
        "max",
        "budget",
        "start",
        "rows",
        "zip",
        "few",
        "spent",
        "limit",
        "found",
        *(f"function_{name}" for name in FUNCTIONS),
        *(f"function_{operator.name}" for operator in ARITHMETIC.values()),
    ]
)
ATTRIBUTES = frozenset(
    [
        "append",
        "get",
        "derive",
        "derive_within",
        "tables",
        "rows",
        "near",
        "remember",
        "spend",
        "check_lists",
        "budget",
        "left",
        "stop",
        "spent",
    ]
)
CLASS_TESTS = (
    ".__class__ is list",
    ".__class__ is open_list",
    ".__class__ is not open_list",
)
OWN_NAME = re.compile(r"[var][0-9]+")


def is_allowed(node: ast.Subscript) -> bool:
    """Say whether a subscript names a table, or a column of one, or puts a row among rows."""
    of = ast.unparse(node.value)
    if OWN_NAME.fullmatch(of):
        return isinstance(node.ctx, ast.Store)
    named = node.slice.elts if isinstance(node.slice, ast.Tuple) else [node.slice]
    by_name = all(isinstance(one, ast.Constant) and isinstance(one.value, str) for one in named)
    lengths = {"rows": 2, "session.rows": 2, "rows.tables": 1, "session.rows.tables": 1}
    return lengths.get(of) == len(named) and by_name and isinstance(node.ctx, ast.Load)


def foreign(source: str) -> Iterator[str]:
    """Give whatever in a source is not of the alphabet."""
    tree = ast.parse(source)
    tested = {
        id(node.left)
        for node in ast.walk(tree)
        if isinstance(node, ast.Compare) and ast.unparse(node).endswith(CLASS_TESTS)
    }
    transposed = {
        id(node.args[0])
        for node in ast.walk(tree)
        if isinstance(node, ast.Call) and re.fullmatch(r"zip\(\*v[0-9]+\)", ast.unparse(node))
    }
    for node in ast.walk(tree):
        match node:
            case ast.Name(id=name) if name not in NAMES and not OWN_NAME.fullmatch(name):
                yield f"name {name}"
            case ast.Attribute(attr="__class__") if id(node) in tested:
                pass
            case ast.Attribute(attr=name) if name not in ATTRIBUTES:
                yield f"attribute {name}"
            case ast.Subscript() if not is_allowed(node):
                yield "subscript"
            case ast.Constant(value=value) if type(value) not in (str, float, int, bool, tuple):
                if value is not None:
                    yield f"constant {value!r}"
            case ast.ExceptHandler() if ast.unparse(node.type or node) != "does_not_hold":
                yield "except for all"
            case ast.Starred() if id(node) in transposed:
                pass
            case ast.keyword() | ast.Starred():
                yield "argument by name or by the dozen"
        if type(node).__name__ not in NODES:
            yield type(node).__name__


def source_of(parameters: str, lines: Iterable[str]) -> str:
    return f"def function({parameters}):\n" + "\n".join(f"    {line}" for line in lines)


@pytest.fixture(name="sources")
def written_sources(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """Return a list that gets every source which is made into a function from here on."""
    written: list[str] = []
    made = compiled.function_of

    def noting(parameters: str, lines: Iterable[str]) -> Any:
        rows = list(lines)
        written.append(source_of(parameters, rows))
        return made(parameters, rows)

    monkeypatch.setattr(compiled, "function_of", noting)
    monkeypatch.setattr(whole, "function_of", noting)
    return written


def test_the_built_in_rules_keep_to_the_alphabet(sources: list[str]) -> None:
    book = Rulebook.load(bundled_folder("rules"), with_built_in=False)
    Evaluator(book)
    for rule in book.rules.values():
        assert rule.does_apply and rule.is_met and rule.could_apply
    assert all(quantity.calculate for quantity in book.quantities.values())
    assert len(sources) > 2 * len(book.rules)
    assert {one for source in sources for one in foreign(source)} == set()


HELD = settings(
    max_examples=150,
    deadline=None,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.function_scoped_fixture],
)


@HELD
@given(CONDITIONS)
def test_conditions_keep_to_the_alphabet(sources: list[str], condition: str) -> None:
    sources.clear()
    root = check_expression(condition, SCOPE, {}, TRUTH)
    compiled.compile_function(root)
    whole.compile_fused([Conditions(root, root)], NEEDED)
    assert len(sources) == 2
    assert [one for source in sources for one in foreign(source)] == []


HOSTILE = st.one_of(
    st.text(),
    st.sampled_from(
        [
            "__import__('os').system('x')",
            "'); import os; ('",
            "\n    import os",
            '\\\'"""',
            "\r\nexec",
            "\x00\u2028\ud800",
            "{0}",
            "v1",
            "#",
            "\\",
        ]
    ),
)
NUMBER, TEXT = PLAIN_NUMBER, text_kind()


def trees(text: str, other: str, number: float) -> Iterator[t.Node]:
    """Give trees that hold texts, names and numbers wherever a tree can hold one."""
    items = t.Read(Kind("items", record=other), 0, 0, text, other)
    constant = t.Constant(TEXT, 0, 0, text, other)
    read = t.Read(TEXT, 0, 0, text, other)
    yield constant
    yield read
    yield t.Constant(NUMBER, 0, 0, number, text)
    yield t.Derived(NUMBER, 0, 0, text, other, None)
    yield t.Comparison(TRUTH, 0, 0, "==", constant, read)
    yield t.Membership(TRUTH, 0, 0, read, (text, other), None)
    yield t.Lookup(NUMBER, 0, 0, text, other, (read,))
    inside = t.Read(TEXT, 0, 0, other, text, text)
    derived = t.Derived(TRUTH, 0, 0, other, text, None, text)
    same = t.Comparison(TRUTH, 0, 0, "==", inside, constant)
    for function, term in (("all", same), ("any", derived), ("count", same)):
        yield t.Loop(TRUTH, 0, 0, function, term, text, items, derived)


@HELD
@given(HOSTILE, HOSTILE, st.floats(allow_nan=False, allow_infinity=False))
def test_no_text_or_name_becomes_code(
    sources: list[str], text: str, other: str, number: float
) -> None:
    sources.clear()
    needed = {("", text): (t.Constant(TEXT, 0, 0, other, other), "")}
    for root in trees(text, other, number):
        compiled.compile_function(root)
        condition = Conditions(root, root, text, other)
        whole.compile_fused([Conditions(root, root)] * 2, needed)
        if not isinstance(root, t.Loop):  # whose variable would be bound twice
            whole.compile_fused([condition] * 2, needed)
    assert [one for source in sources for one in foreign(source)] == []


def test_what_is_made_runs_without_built_ins() -> None:
    assert compiled._GLOBALS["__builtins__"] == {}
    function = compiled.function_of("facts", ["return facts"])
    assert function.__globals__["__builtins__"] == {}
    assert set(function.__globals__) <= NAMES | {"__builtins__"}
    with pytest.raises(NameError):
        compiled.function_of("facts", ["return open"])({})


@pytest.mark.parametrize(
    "line",
    [
        "import os",
        "v1 = open('x')",
        "v1 = facts.__globals__",
        "v1 = session.rows.tables[v2]",
        "session.rows.tables['x'] = v1",
        "v1 = session.rows['x']",
        "v1 = rows['x', v2]",
        "rows['x', 'y'] = v1",
        "v1 = facts.__class__",
        "v1 = facts.__class__ is dict",
        "v1 = ().__class__.__mro__",
        "v1 = lambda: 1",
        "v1 = [v2 for v2 in facts]",
        "v1 = f'{facts}'",
        "v1 = facts['x']",
        "try: v1 = 1\n    except: pass",
        "v1 = max(*facts)",
        "v1 = max(facts, key=len)",
        "v1 = b'x'",
        "while True: pass",
        "v1 = (yield)",
        "vx = 1",
        "del facts",
        "global v1",
    ],
)
def test_what_is_not_of_the_alphabet_is_found(line: str) -> None:
    assert list(foreign(source_of("facts, session", [line])))
