"""The order in which a unit sheet asks for facts: rows of a published table, then by headings.

It is data of the built-in rules folder that no rule rests on, so it is read only where a sheet is
written, and is no part of a linked rulebook.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from functools import cache
from pathlib import Path as FilePath

from tundish.groundwork.dataclass import dataclass
from tundish.job.model.schema import Record
from tundish.job.schema import job_schema
from tundish.rulebook.files.faults import Faults
from tundish.rulebook.files.file_shapes import SheetSectionShape
from tundish.rulebook.files.pack import FORMS, Pack
from tundish.rulebook.files.read_file import read_shape
from tundish.rulebook.files.sources_file import cited, read_sources
from tundish.rulebook.model.rule_file import RuleFile
from tundish.rulebook.model.source import Citation, Source
from tundish.text.bundled_folders import bundled_folder
from tundish.text.nearest import did_you_mean
from tundish.text.place import Path
from tundish.text.problem import Problem, Refused
from tundish.text.toml_file import read_toml

UNIT_SHEET = f"{FORMS}/unit-sheet.toml"
"""The file that orders the facts of a unit sheet, from the folder of a pack."""


@dataclass(frozen=True, slots=True)
class SheetRow:
    """What stands together in a unit sheet.

    Attributes:
        facts: Paths of the facts, lists without positions.
        row: What the published table calls it; empty for a fact under a plain heading.
        symbol: The symbol that the table gives it, or an empty text.
        note: How to make the facts of what the table states, or an empty text.
    """

    facts: tuple[str, ...]
    row: str = ""
    symbol: str = ""
    note: str = ""


@dataclass(frozen=True, slots=True)
class SheetSection:
    """A section of a unit sheet.

    Attributes:
        heading: What it is called.
        rows: What it holds, in order.
        citations: On whose authority it is in this order.
    """

    heading: str
    rows: tuple[SheetRow, ...]
    citations: tuple[Citation, ...]


@cache
def sheet_sections(folder: FilePath | None = None) -> tuple[SheetSection, ...]:
    """Return the sections of a unit sheet, in order.

    Args:
        folder: The pack to read them from; the built-in one if left out.

    Raises:
        Refused: If the file cannot be read, names what is no fact of a unit, or names one twice;
            carries every problem.

    Example:
        >>> sheet_sections()[0].rows[0].facts
        ('unit.model',)
    """
    pack = folder or bundled_folder("rules")
    file = RuleFile.of(read_toml(pack / UNIT_SHEET))
    problems = Faults()
    bibliography = RuleFile.of(read_toml(pack / "sources.toml"))
    sources = read_sources([Pack(pack, sources=bibliography)], problems)
    shapes = list(_shapes(file, problems))
    _check_facts(shapes, file, problems)
    sections = [
        _section(shape, ("section", position), sources, file, problems)
        for position, shape in shapes
    ]
    if problems:
        raise Refused(problems)
    return tuple(sections)


def _shapes(file: RuleFile, problems: list[Problem]) -> Iterator[tuple[int, SheetSectionShape]]:
    tables = file.file.data.get("section")
    if not isinstance(tables, list):
        sentence = "The order of a unit sheet is a list of [[section]]."
        problems.append(Problem(file.file.name, None, None, sentence))
        return
    for key in file.file.data:
        if key != "section":
            sentence = f"'{key}' does not belong; there are [[section]]s and nothing else."
            problems.append(file.problem((key,), sentence))
    for position, table in enumerate(tables):
        at = ("section", position)
        if not isinstance(table, dict):
            problems.append(file.problem(at, "A section is a table, [[section]]."))
            continue
        shape, wrong = read_shape(SheetSectionShape, table, file, at, "section")
        problems.extend(wrong)
        if shape is not None:
            yield position, shape


def _section(
    shape: SheetSectionShape,
    at: Path,
    sources: Mapping[str, Source],
    file: RuleFile,
    problems: Faults,
) -> SheetSection:
    if bool(shape.rows) == bool(shape.facts):
        problems.append(file.problem(at, "A section has either 'rows' or 'facts'."))
    citations = cited(shape.cite, sources, file, at, problems)
    rows = [SheetRow(tuple(row.facts), row.row, row.symbol, row.note) for row in shape.rows]
    rows += [SheetRow((path,)) for path in shape.facts]
    return SheetSection(shape.heading, tuple(rows), citations)


def _check_facts(
    shapes: Iterable[tuple[int, SheetSectionShape]], file: RuleFile, problems: list[Problem]
) -> None:
    """Report what is no fact of a unit, and what stands in the file twice."""
    unit = job_schema().fields["unit"]
    assert isinstance(unit, Record)
    facts = [fact.path for fact in unit.facts()]
    listed = set[str]()
    for at, path in _paths(shapes):
        if path not in facts:
            sentence = f"'{path}' is no fact of a unit.{did_you_mean(path, facts)}"
            problems.append(file.problem(at, sentence))
        elif path in listed:
            problems.append(file.problem(at, f"'{path}' stands here a second time."))
        listed.add(path)


def _paths(shapes: Iterable[tuple[int, SheetSectionShape]]) -> Iterator[tuple[Path, str]]:
    for position, shape in shapes:
        at: Path = ("section", position)
        for number, row in enumerate(shape.rows):
            for place, path in enumerate(row.facts):
                yield (*at, "rows", number, "facts", place), path
        for place, path in enumerate(shape.facts):
            yield (*at, "facts", place), path
