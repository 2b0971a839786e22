"""What no part of the program may do, whatever file it is given, except where it says so here."""

from __future__ import annotations

import ast
from collections.abc import Iterator

import pytest

from architecture.test_imports import ENGINE, FILES

CODE = frozenset(["eval", "exec", "compile", "__import__", "import_module"])
MODULES = frozenset(
    [
        "subprocess",
        "socket",
        "socketserver",
        "ssl",
        "urllib",
        "http",
        "ftplib",
        "smtplib",
        "imaplib",
        "poplib",
        "telnetlib",
        "xmlrpc",
        "asyncio",
        "selectors",
        "webbrowser",
        "ctypes",
        "pickle",
        "marshal",
        "shelve",
        "dbm",
        "runpy",
        "code",
        "codeop",
        "pty",
        "requests",
        "httpx",
        "urllib3",
        "aiohttp",
        "multiprocessing",
        "cffi",
    ]
)
OF_SYSTEM = frozenset(
    ["system", "popen", "fork", "forkpty", "execv", "execve", "execvp", "posix_spawn", "spawnv"]
)

ALLOWED: dict[str, frozenset[str]] = {
    # The one place where what the emitter wrote becomes a function; tests/language/test_alphabet.py
    # holds what it may write.
    "language/evaluate/compiled.py": frozenset({"exec"}),
    # Writes the path of a file as a URI; this part of the library reaches nothing.
    "report/formats/sarif_places.py": frozenset({"urllib.parse"}),
    # Subcommands are modules of a fixed table, of which a command loads its own.
    "command/main.py": frozenset({"import_module"}),
    # What is kept from one run to the next, read back only behind the seal of `storing`.
    "rulebook/cache/serialise.py": frozenset({"marshal"}),
    "rulebook/cache/rulebook_cache.py": frozenset({"marshal"}),
    # A table of homes is judged by several processes of this program.
    "portfolio/parallel.py": frozenset({"multiprocessing"}),
    # The front door loads a module of a fixed table when one of its names is first asked for.
    "__init__.py": frozenset({"import_module"}),
}
"""By file, what it may use all the same, each with its reason."""


def reaches(source: str) -> Iterator[str]:
    """Give the names in a source by which a program reaches out of itself, or makes code."""
    for node in ast.walk(ast.parse(source)):
        match node:
            case ast.Import(names=names):
                yield from (one.name for one in names if one.name.partition(".")[0] in MODULES)
            case ast.ImportFrom(module=str(module), names=names, level=0):
                if module.partition(".")[0] in MODULES:
                    yield module
                yield from (one.name for one in names if one.name in CODE | OF_SYSTEM)
            case ast.Name(id=name) if name in CODE:
                yield name
            # re.compile and the like are other things of the same name.
            case ast.Attribute(attr=name) if name in (CODE - {"compile"}) | OF_SYSTEM:
                yield name


def test_nothing_reaches_out_except_where_it_says_so() -> None:
    for path in FILES:
        name = path.relative_to(ENGINE).as_posix()
        assert set(reaches(path.read_text())) <= ALLOWED.get(name, frozenset()), name


def test_nothing_is_allowed_that_is_not_used() -> None:
    for name, allowed in ALLOWED.items():
        assert set(reaches((ENGINE / name).read_text())) == allowed


@pytest.mark.parametrize(
    "source",
    [
        "eval('1')",
        "import builtins\nbuiltins.exec('1')",
        "run = exec",
        "from importlib import import_module",
        "import urllib.request",
        "from http.client import HTTPConnection",
        "def late():\n    import pickle",
        "import os\nos.system('x')",
        "from os import popen",
        "__import__('socket')",
    ],
)
def test_reaching_out_is_found(source: str) -> None:
    assert list(reaches(source))


@pytest.mark.parametrize("source", ["import re\nre.compile('x')", "'exec'", "import hashlib"])
def test_what_only_looks_like_it_is_let_through(source: str) -> None:
    assert not list(reaches(source))
