"""The linker: checks conditions, formulas and sentences of packs against all their names."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import field
from typing import Any

from tundish.groundwork.dataclass import dataclass
from tundish.language.check.checker import check_expression
from tundish.language.check.names import OF_NO_LIST
from tundish.language.check.scope import Scope
from tundish.language.syntax.problem import ExpressionError
from tundish.language.tree.kind import TRUTH, Kind
from tundish.language.tree.tree import Logic, Node, walk
from tundish.rulebook.files.cases import linked_cases
from tundish.rulebook.files.faults import Faults
from tundish.rulebook.files.file_shapes import (
    ConstraintShape,
    ProvisionShape,
    QuantityShape,
    RuleShape,
)
from tundish.rulebook.files.sources_file import cited
from tundish.rulebook.model.definition import Each
from tundish.rulebook.model.rule_file import RuleFile
from tundish.rulebook.model.source import Source
from tundish.rulebook.model.templates import split_template, stray_brackets
from tundish.text.bounds import MOST_PARTS
from tundish.text.nearest import did_you_mean
from tundish.text.place import Path

_EACH = re.compile(r"([a-z_]+(?:\.[a-z_]+)*) as ([a-z_]+)")


@dataclass(slots=True)
class Linker:
    """Checks what packs say; notes every problem and goes on.

    Attributes:
        scope: What names mean; grows as quantities are declared.
        sources: The bibliography.
        problems: What is wrong so far.
        parts: How many parts the expressions so far have.
    """

    scope: Scope
    sources: Mapping[str, Source]
    problems: Faults = field(default_factory=Faults)
    parts: int = 0

    def template(
        self, text: str | None, file: RuleFile, variables: Mapping[str, str]
    ) -> tuple[str | Node, ...]:
        """Check the expressions in a sentence; return its parts."""
        if text is None:
            return ()
        for at, sentence in stray_brackets(text):
            self.problems.append(file.problem_in_text(("breach",), at, at + 1, sentence))
        parts: list[str | Node] = []
        for piece, start in split_template(text):
            if start is None:
                parts.append(piece)
                continue
            node = self.checked(piece, file, ("breach",), variables, None, offset=start)
            if node is not None:
                parts.append(node)
        return tuple(parts)

    def each(self, text: str | None, file: RuleFile, at: Path, quiet: bool = False) -> Each | None:
        """Read which list is looked at item by item; note what is wrong, or be quiet."""
        if text is None:
            return None
        match = _EACH.fullmatch(text)
        sentence = ""
        if match is None:
            sentence = f"'{text}' is not of the form 'electricity.circuit as circuit'."
            if self._is_list(text):
                sentence += f" Write '{text} as {text.rpartition('.')[2]}'."
        elif not self._is_list(match[1]):
            lists = [path for path, known in self.scope.facts.items() if known.kind.name == "items"]
            sentence = f"'{match[1]}' is no list of a job.{did_you_mean(match[1], lists)}"
        elif self.scope.is_taken(match[2]):
            sentence = f"'{match[2]}' already names something else here."
        if sentence and not quiet:
            self.note(file, at, sentence)
        return None if sentence or match is None else Each(match[1], match[2])

    def checked(
        self,
        expression: str,
        file: RuleFile,
        at: Path,
        variables: Mapping[str, str],
        wanted: Kind | None,
        offset: int = 0,
    ) -> Node | None:
        """Return an expression as a checked tree, or note what is wrong with it.

        Args:
            expression: Its text.
            file: The file it stands in.
            at: Its key there.
            variables: The lists that names of items stand for.
            wanted: The kind it must have, or None where any will do.
            offset: Index of its first character in the text of the key.
        """
        if self.parts > MOST_PARTS:
            return None
        try:
            root = check_expression(expression, self.scope, variables, wanted)
        except ExpressionError as error:
            self.problems.extend(
                file.problem_in_text(
                    at, problem.start + offset, problem.end + offset, problem.sentence
                )
                for problem in error.problems
            )
            return None
        self.parts += sum(1 for _ in walk(root, {}))
        if self.parts > MOST_PARTS:
            self.note(file, at, _TOO_MANY_PARTS)
            return None
        return root

    def in_regions(self, condition: Node, regions: tuple[str, ...]) -> Node:
        """Join the regions and a condition: an unknown region leaves both open."""
        if not regions:
            return condition
        codes = ", ".join(f"'{code}'" for code in regions)
        region = check_expression(f"job.region in [{codes}]", self.scope)
        return Logic(TRUTH, 0, condition.end, "and", (region, condition))

    def shared(
        self,
        shape: RuleShape | QuantityShape | ProvisionShape | ConstraintShape,
        file: RuleFile,
        at: Path,
    ) -> dict[str, Any]:
        """Return what rules, quantities and parts have in common.

        Args:
            shape: What the file says.
            file: The file.
            at: Where in it the table of the rule, quantity or part stands.
        """
        return {
            "citations": cited(shape.cite, self.sources, file, at, self.problems),
            "reviewed": shape.reviewed,
            "cases": linked_cases(shape.case, file, at, self.problems),
            "unnoticed": {excuse.change: excuse.because for excuse in shape.unnoticed},
            "source": file,
        }

    def refused_item(self, text: str | None) -> dict[str, str]:
        """Return what the item of a list may be called where `each` is refused already.

        So that conditions that name it are not reported too.

        Args:
            text: What `each` says, if anything.
        """
        words = (text or "").split()
        last = words[-1].rpartition(".")[2] if words else ""
        path = words[0] if words and self._is_list(words[0]) else OF_NO_LIST
        names = {last, last.removesuffix("s")}
        return {name: path for name in names if name and not self.scope.is_taken(name)}

    def _is_list(self, path: str) -> bool:
        meaning = self.scope.facts.get(path)
        return meaning is not None and meaning.kind.name == "items"

    def note(self, file: RuleFile, at: Path, sentence: str) -> None:
        """Note what is wrong at a key."""
        self.problems.append(file.problem(at, sentence))


_TOO_MANY_PARTS = (
    f"All conditions and formulas up to here have more than {MOST_PARTS:,} parts; use fewer packs "
    "at once."
)
