"""`tundish completion`: a script that lets a shell complete commands, options and their words."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Callable, Iterable, Iterator

from tundish.command.parser import Parser, Subcommands, add_command, one_of
from tundish.groundwork.dataclass import dataclass

SHELLS = ("bash", "zsh", "fish")


def add(subcommands: Subcommands) -> None:
    """Add the subcommand."""
    parser = add_command(
        subcommands,
        "completion",
        "Print a script that lets a shell complete commands, options and files.",
        "Load it where your shell loads such scripts.",
        """
        tundish completion bash > ~/.local/share/bash-completion/completions/tundish
        tundish completion zsh > ~/.zfunc/_tundish
        tundish completion fish > ~/.config/fish/completions/tundish.fish
        """,
    )
    parser.add_argument("shell", metavar="SHELL", type=one_of(SHELLS), help=", ".join(SHELLS))
    parser.set_defaults(run=run, whole=subcommands)


def run(arguments: argparse.Namespace) -> int:
    """Print the script; return what the command ends with."""
    commands = [_command(name, parser) for name, parser in arguments.whole.choices.items()]
    sys.stdout.write(_SCRIPTS[arguments.shell](commands))
    return 0


@dataclass(frozen=True, slots=True)
class _Option:
    name: str
    about: str
    takes_value: bool


@dataclass(frozen=True, slots=True)
class _Command:
    name: str
    about: str
    options: tuple[_Option, ...]


def _command(name: str, parser: Parser) -> _Command:
    about = (parser.description or "").split("\n", 1)[0].strip()
    return _Command(name, about, tuple(_options(parser)))


def _options(parser: Parser) -> Iterator[_Option]:
    for action in parser._actions:
        for name in action.option_strings:
            if name.startswith("--"):
                about = (action.help or "").partition(";")[0].partition(":")[0]
                yield _Option(name, about, action.nargs != 0)


def _names(named: Iterable[_Command | _Option]) -> str:
    return " ".join(entry.name for entry in named)


def _bash(commands: list[_Command]) -> str:
    names = _names(commands)
    cases = "\n".join(
        f"        {command.name}) options='{_names(command.options)}' ;;" for command in commands
    )
    return f"""\
# Completion of tundish for bash.
_tundish() {{
    local word="${{COMP_WORDS[COMP_CWORD]}}" options=''
    if [ "$COMP_CWORD" -eq 1 ]; then
        COMPREPLY=($(compgen -W '{names} --help --version' -- "$word"))
        return
    fi
    case "${{COMP_WORDS[1]}}" in
{cases}
    esac
    case "$word" in
        -*) COMPREPLY=($(compgen -W "$options" -- "$word")) ;;
        *) COMPREPLY=($(compgen -f -- "$word")) ;;
    esac
}}
complete -o filenames -F _tundish tundish
"""


def _zsh(commands: list[_Command]) -> str:
    named = "\n".join(
        f"        {_quoted(f'{command.name}:{command.about}')}" for command in commands
    )
    cases = "\n".join(_zsh_case(command) for command in commands)
    return f"""\
#compdef tundish
# Completion of tundish for zsh.
_tundish() {{
    local -a commands=(
{named}
    )
    if (( CURRENT == 2 )); then
        _describe 'command' commands
        return
    fi
    local command=$words[2]
    shift words
    (( CURRENT-- ))
    case $command in
{cases}
    esac
}}
_tundish "$@"
"""


def _zsh_case(command: _Command) -> str:
    value = ":value:_files"
    rows = [
        _quoted(f"{option.name}[{option.about.translate(_BRACKETS)}]{value * option.takes_value}")
        for option in command.options
    ]
    return f"        {command.name}) _arguments {' '.join([*rows, _quoted('*:file:_files')])} ;;"


def _fish(commands: list[_Command]) -> str:
    rows = ["# Completion of tundish for fish."]
    for command in commands:
        rows.append(
            f"complete -c tundish -n __fish_use_subcommand -f -a {command.name} "
            f"-d {_quoted(command.about)}"
        )
        for option in command.options:
            in_command = _quoted(f"__fish_seen_subcommand_from {command.name}")
            value = " -r" if option.takes_value else ""
            rows.append(
                f"complete -c tundish -n {in_command} -l {option.name[2:]}{value} "
                f"-d {_quoted(option.about)}"
            )
    return "\n".join(rows) + "\n"


_BRACKETS = str.maketrans("[]:", "()-")


def _quoted(text: str) -> str:
    """Return text as the shells take it whole, in single quotes."""
    return "'" + text.replace("'", "'\\''") + "'"


_SCRIPTS: dict[str, Callable[[list[_Command]], str]] = {"bash": _bash, "zsh": _zsh, "fish": _fish}
