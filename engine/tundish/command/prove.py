"""`tundish prove`: every rule and quantity run on the cases that prove it."""

from __future__ import annotations

import argparse
from typing import TYPE_CHECKING

from tundish.command.output import put_out
from tundish.command.parser import Subcommands, add_command, add_plain, add_rules
from tundish.command.progress import with_progress

if TYPE_CHECKING:
    from tundish.report.tell.deep_proof import Uncaught
    from tundish.rulebook.prove.case_run import Proved
    from tundish.rulebook.prove.run_mutants import MutationRun, Survivor
    from tundish.rulebook.rulebook import Rulebook


def add(subcommands: Subcommands) -> None:
    """Add the subcommand."""
    parser = add_command(
        subcommands,
        "prove",
        "Run every rule and quantity on its own cases, and say which do not hold.",
        "With --deep also what the cases leave unproved: mutants of each condition, formula and "
        "number that no case notices, each with a case that would notice it where one is found; "
        "limits that no case stands on both sides of; rules at odds on some job; tables with "
        "gaps, and what nothing uses, cites or reads.\n\n"
        "Ends with 1 if a case does not hold or is missing, and with --deep also if a mutant "
        "survives that the file does not excuse with a reason.",
        """
        tundish prove
        tundish prove snow --deep
        tundish prove --rules our-rules/
        """,
    )
    parser.add_argument(
        "topics", metavar="TOPIC", nargs="*", help="prove these topics or rules alone"
    )
    parser.add_argument(
        "--deep", action="store_true", help="look for what the cases leave unproved too"
    )
    parser.add_argument(
        "--older-than",
        metavar="TIME",
        type=_duration,
        help="with --deep, tell reviews older than this, such as '2 years'",
    )
    add_rules(parser)
    add_plain(parser)
    parser.set_defaults(run=run)


def run(arguments: argparse.Namespace) -> int:
    """Prove the rulebook; return what the command ends with."""
    from tundish.findings.proof_phrases import ProofWords
    from tundish.report.tell.proof import is_proved, proof_lines
    from tundish.rulebook.prove.prove import prove
    from tundish.rulebook.rulebook import Rulebook

    rulebook = Rulebook.load(*arguments.rules)
    chosen = _chosen(rulebook, arguments)
    proofs = list(prove(rulebook, ProofWords(), chosen))
    put_out(proof_lines(proofs), arguments.plain)
    proved = all(is_proved(proof) for proof in proofs)
    if arguments.deep:
        return _deep(rulebook, chosen, arguments) or int(not proved)
    return int(not proved)


def _chosen(rulebook: Rulebook, arguments: argparse.Namespace) -> set[str]:
    """Return the names of what is to be proved, or end with a sentence where nothing fits."""
    from tundish.text.nearest import did_you_mean

    everything = rulebook.definitions
    if not arguments.topics:
        return {definition.name for definition in everything}
    chosen: set[str] = set()
    for topic in arguments.topics:
        name = topic.rstrip("/")
        matching = {
            definition.name
            for definition in everything
            if name in (definition.topic, definition.name)
        }
        matching |= {rule.name for rule in rulebook.rules.values() if name in rule.former_names}
        if not matching:
            names = sorted(
                {key for definition in everything for key in (definition.topic, definition.name)}
            )
            arguments.parser.error(
                f"There is no topic or rule '{name}'.{did_you_mean(name, names)}"
            )
        chosen |= matching
    return chosen


def _deep(rulebook: Rulebook, chosen: set[str], arguments: argparse.Namespace) -> int:
    """Tell what the cases leave unproved; return 1 where a mutant survives without an excuse."""
    import datetime

    from tundish.report.tell import deep_proof
    from tundish.rulebook.prove.audit import audit
    from tundish.rulebook.prove.contradictions import contradictions
    from tundish.rulebook.prove.coverage import coverage
    from tundish.rulebook.prove.run_mutants import run_mutants

    proved = [definition for definition in rulebook.definitions if definition.name in chosen]
    runs = [
        run_mutants(definition, rulebook) for definition in with_progress(proved, "Trying mutants")
    ]
    coverages = [
        part
        for name, rule in rulebook.rules.items()
        if name in chosen
        for part in coverage(rule, rulebook)
    ]
    uncaught = [
        _uncaught(definition, survivor, run, rulebook)
        for definition, run in zip(proved, runs, strict=True)
        for survivor in run.unexcused
    ]
    lines = [
        *deep_proof.uncaught_lines(uncaught),
        *deep_proof.excuse_lines(runs),
        *deep_proof.coverage_lines(coverages),
    ]
    if not arguments.topics:
        lines += deep_proof.contradiction_lines(list(contradictions(rulebook)))
        older = arguments.older_than and datetime.timedelta(seconds=arguments.older_than)
        lines += deep_proof.remark_lines(list(audit(rulebook, datetime.date.today(), older)))
    put_out([*lines, deep_proof.deep_summary(runs, coverages)], arguments.plain)
    return int(bool(uncaught))


def _uncaught(proved: Proved, survivor: Survivor, run: MutationRun, rulebook: Rulebook) -> Uncaught:
    from tundish.report.tell.deep_proof import Uncaught
    from tundish.rulebook.prove.missing_cases import noticing_case, stated_outcome

    facts = noticing_case(proved, survivor.mutant, rulebook)
    outcome = "" if facts is None else stated_outcome(proved, facts, rulebook)
    return Uncaught(run, survivor, facts, outcome)


def _duration(text: str) -> float:
    """Read an age with its unit.

    Raises:
        argparse.ArgumentTypeError: If it is none.
    """
    from tundish.units.dimension import TIME
    from tundish.units.quantity import parse_quantity
    from tundish.units.unit import MeasureError

    try:
        quantity = parse_quantity(text)
    except MeasureError as error:
        raise argparse.ArgumentTypeError(str(error)) from None
    if quantity.dimension != TIME:
        raise argparse.ArgumentTypeError(f"'{text}' is no time, such as '2 years'.")
    return quantity.si
