"""The files of one job as an interview changes them: the job's own, and its unit sheet."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

from tundish.interview.order import schema_order
from tundish.interview.written_file import WrittenFile
from tundish.job.changes import Change, put_into_data
from tundish.job.job import MORE, Job
from tundish.job.model.paths import path_steps, path_text
from tundish.job.model.schema import Fact
from tundish.job.schema import job_schema
from tundish.rulebook.evaluate.contradictions import nowhere
from tundish.rulebook.rulebook import Rulebook
from tundish.text.problem import Problem, refusal
from tundish.text.quoted import quoted
from tundish.text.toml_edit.edit import EditError, Guide, with_value
from tundish.text.toml_file import parse_toml

Steps = tuple[str | int, ...]


class AnswerConflictError(Exception):
    """An answer that does not go with the rest of the job; its text says why."""


class JobText:
    """A job's files, of which each answer changes one.

    Args:
        path: The job's own file.
        rulebook: Knows which facts contradict each other.

    Attributes:
        job: The job as its files have it.

    Raises:
        Refused: If a file cannot be read, or is a form or sheet merged over a job.
    """

    def __init__(self, path: Path, rulebook: Rulebook) -> None:
        self.path = path
        self._rulebook = rulebook
        self._told_of_sheet = False
        self._load()

    def _load(self) -> None:
        self.job = _read(self.path)
        self._own = WrittenFile(self.path)
        source = self.job.source
        sheet = source.sheet if source is not None else None
        self._sheet = WrittenFile(Path(sheet.name)) if sheet is not None else None

    @property
    def files(self) -> tuple[WrittenFile, ...]:
        """Return the files."""
        return (self._own,) if self._sheet is None else (self._own, self._sheet)

    def file_of(self, path: str) -> WrittenFile:
        """Return the file that a fact stands in, or is to be put into.

        Facts of the unit are the maker's and stand in its sheet, where the job names one; the
        items of a list stand where the list does.
        """
        if self._sheet is None or not path.startswith("unit."):
            return self._own
        outermost = path_steps(path.partition("[")[0])
        own = parse_toml(self._own.text, str(self.path)).data
        return self._own if "[" in path and _at(own, outermost) is not None else self._sheet

    def is_first_into_sheet(self, file: WrittenFile) -> bool:
        """Return whether a file is the unit sheet and was never told to be one; tells it once."""
        was_told, self._told_of_sheet = (
            self._told_of_sheet,
            self._told_of_sheet or file is self._sheet,
        )
        return file is self._sheet and not was_told

    def read_again(self) -> list[Path]:
        """Read all anew; return the files that somebody else has changed meanwhile.

        Raises:
            Refused: If one can no longer be read.
        """
        changed = [file.path for file in self.files if file.read_again()]
        if changed:
            self._load()
        return changed

    def put(self, path: str, value: Any) -> WrittenFile:
        """Put one fact into its file, whole or not at all.

        Args:
            path: Its path, positions counted from 1; one past the last of a list adds an item.
            value: What stands there from now on, as TOML has it.

        Returns:
            The file that was changed.

        Raises:
            AnswerConflictError: If it contradicts the rest of the job, or has no place in a file.
            OSError: If the file cannot be written.
        """
        self._check(path, value)
        file = self.file_of(path)
        try:
            text = file.text
            for steps, inner in self._writings(file, path_steps(path), value):
                text = with_value(text, steps, inner, _GUIDE)
        except EditError:
            raise AnswerConflictError(
                f"This finds no place in {file.path} as it is written; put {path} in by hand."
            ) from None
        file.write(text)
        self.job = _read(self.path)
        return file

    def _writings(self, file: WrittenFile, steps: Steps, value: Any) -> Iterator[tuple[Steps, Any]]:
        """Give what is written into a file for a fact, each at its place there.

        A job that is based on another has fewer items in its lists than both together: an item of
        the base is told by its name first, so that what is said of it is merged over it.

        Raises:
            AnswerConflictError: If the item has no name by which it could be told.
        """
        source = self.job.source
        depth = next((at for at, step in enumerate(steps) if isinstance(step, int)), None)
        at = steps[:depth]
        if file is not self._own or source is None or depth is None or not source.in_bases(at):
            yield steps, value
            return
        whole = _at(source.data, at)
        own = _at(parse_toml(file.text, str(self.path)).data, at)
        position = _position_in(own, whole, int(steps[depth]))
        if position is not None:
            yield (*at, position, *steps[depth + 1 :]), value
            return
        is_new = int(steps[depth]) >= len(whole)
        name = value.get("name") if is_new and isinstance(value, Mapping) else None
        name = name if is_new else whole[int(steps[depth])].get("name")
        if name is None:
            raise AnswerConflictError(
                f"'{path_text(at)}' stands in the job that this one is based on, and this item of "
                "it has no name; give it one there, or write it there."
            )
        behind = (*at, len(own or []))
        if is_new:
            yield behind, value
            return
        yield behind, {"name": name}
        yield (*behind, *steps[depth + 1 :]), value

    def put_back(self, path: Path, before: bytes, after: bytes) -> bool:
        """Give a file the bytes that it had before an answer.

        Args:
            path: The file.
            before: Its bytes before the answer.
            after: Its bytes with the answer; where it has others by now it is left alone.

        Returns:
            Whether it was given back what it had.
        """
        file = next((file for file in self.files if file.path == path), None)
        if file is None or file.content != after:
            return False
        file.write_bytes(before)
        self.job = _read(self.path)
        return True

    def _check(self, path: str, value: Any) -> None:
        if path.startswith(f"{MORE}."):
            return  # read by the pack that declares it, and by its kind already
        problems: list[Problem] = []
        data = put_into_data(self.job.as_data(), Change(path, "", ""), value)
        job = Job.read(data, problems, str(self.path), None)
        if job is None:
            raise AnswerConflictError(" ".join(problem.sentence for problem in problems))
        source, facts = self.job.source, self._rulebook.facts(job, may_contradict=True)
        for contradiction in self._rulebook.contradictions.of(facts):
            raise AnswerConflictError(contradiction.sentence(source.place if source else nowhere))


def _read(path: Path) -> Job:
    job = Job.from_file(path)
    over = job.source.files[0].data.get("of_job") if job.source else None
    if over is not None:
        sentence = f"This is a sheet, merged over a job; ask about the job itself, {quoted(over)}."
        raise refusal(str(path), sentence)
    return job


def _at(data: Any, steps: tuple[str | int, ...]) -> Any:
    for step in steps:
        data = data.get(step) if isinstance(data, dict) else None
    return data


def _position_in(own: Any, whole: Any, position: int) -> int | None:
    """Return where in the job's own list an item of the whole list stands; None if nowhere.

    A list of the job's own with a nameless item takes the place of the base's whole.
    """
    if not isinstance(own, list):
        return None
    if any("name" not in item for item in own):
        return position
    if position >= len(whole):
        return None
    name = whole[position].get("name")
    return next((at for at, item in enumerate(own) if item["name"] == name), None)


def _is_table(names: tuple[str, ...]) -> bool:
    entry = job_schema().find(".".join(names))
    return names == (MORE,) or (entry is not None and not isinstance(entry, Fact))


def _rank(names: tuple[str, ...]) -> tuple[int, ...]:
    return schema_order(".".join(names))


_GUIDE = Guide(_is_table, _rank)
