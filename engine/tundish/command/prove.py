"""`tundish prove`: every rule and quantity run on the cases that prove it."""

from __future__ import annotations

import argparse

from tundish.command.page import put_out
from tundish.command.parser import Subcommands, add_command, add_plain, add_rules


def add(subcommands: Subcommands) -> None:
    """Add the subcommand."""
    parser = add_command(
        subcommands,
        "prove",
        "Run every rule and quantity on its own cases, and say which do not hold.",
        "Ends with 1 if a case does not hold or is missing.",
        """
        tundish prove
        tundish prove --rules our-rules/
        """,
    )
    add_rules(parser)
    add_plain(parser)
    parser.set_defaults(run=run)


def run(arguments: argparse.Namespace) -> int:
    """Prove the rulebook; return what the command ends with."""
    from tundish.report.proof_lines import is_proved, proof_lines
    from tundish.rulebook.proving import prove
    from tundish.rulebook.rulebook import Rulebook

    proofs = list(prove(Rulebook.load(*arguments.rules)))
    put_out(proof_lines(proofs), arguments.plain)
    return int(not all(is_proved(proof) for proof in proofs))
