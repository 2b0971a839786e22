"""The compiled form: checked trees turned into Python functions.

This is the only place where source text is executed. The code generator writes it from its own
words, constants and numbered names; no text of a rule gets into it, and it runs without built-ins.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from types import CodeType, FunctionType
from typing import Any

from tundish.groundwork.open_list import OpenList
from tundish.language.evaluate.session import Function
from tundish.language.operations import values
from tundish.language.operations.functions import FUNCTIONS
from tundish.language.operations.interpolation import interpolated
from tundish.language.operations.operators import ARITHMETIC
from tundish.language.tree.tree import Node

_GLOBALS: dict[str, object] = {
    "__builtins__": {},
    "len": len,
    "list": list,
    "open_list": OpenList,
    "abs": abs,
    "max": max,
    "float": float,
    "zip": zip,
    "does_not_hold": values.DOES_NOT_HOLD,
    "interpolated": interpolated,
    **{
        f"function_{operation.name}": operation.calculate
        for operation in (*ARITHMETIC.values(), *FUNCTIONS.values())
    },
    **{name: getattr(values, name) for name in ("member", "agreed")},
}


def compile_function(root: Node, variables: Mapping[str, str] | None = None) -> Function:
    """Compile one checked expression.

    Args:
        root: The checked tree.
        variables: The variable that is bound to an item, if one is, with its list's path.

    Returns:
        A function of (facts by path, session) and, with a variable, of its item's facts. It
        returns the value, or None where it is unknown.
    """
    # Loaded here, as what is cached or prebuilt is compiled already.
    from tundish.language.codegen.expressions import expression_lines

    bound = {name: ("item", path) for name, path in (variables or {}).items()}
    parameters = "facts, session, item" if bound else "facts, session"
    function: Function = function_of(parameters, expression_lines(root, bound))
    return function


def function_of(parameters: str, lines: Iterable[str]) -> Any:
    """Return the function of emitted statements.

    Args:
        parameters: The names of its parameters.
        lines: Its statements.
    """
    body = "\n".join(f"    {line}" for line in lines)
    namespace: dict[str, Any] = {}
    exec(f"def function({parameters}):\n{body}\n", _GLOBALS, namespace)
    return namespace["function"]


def function_from(code: CodeType) -> Any:
    """Return the function of code that was compiled here before.

    Args:
        code: The `__code__` of a function that `compile_function` or `function_of` returned.
    """
    return FunctionType(code, _GLOBALS)
