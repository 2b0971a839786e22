"""What every part of a job is made of: the class `Part`, and `fact` for its members."""

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any, ClassVar, Self, dataclass_transform

from tundish.job.model.errors import problems_in
from tundish.job.model.fields import Asking, PartClass
from tundish.job.model.fields import Who as Who
from tundish.job.model.parse import Wrong, parse
from tundish.text.place import Path, Places
from tundish.text.problem import Problem, Refused


@dataclass_transform(kw_only_default=True, frozen_default=True)
class _Described(PartClass):
    """Tells type checkers that parts are built from their facts."""


class Part(metaclass=_Described):
    """A part of a job; every fact may be left out while it is not known.

    It is frozen. Built with facts that cannot be read, it raises one `Refused` with all that is
    wrong, as reading a file does.
    """

    answered_by: ClassVar[Who] = "designer"
    found_in: ClassVar[str] = ""
    written_as: ClassVar[dict[str, str]] = {}

    def __init_subclass__(cls, answered_by: Who | None = None, found_in: str | None = None) -> None:
        """Take the class options: who knows the facts of the part, and how to find them out."""
        cls.answered_by = answered_by or cls.answered_by
        cls.found_in = cls.found_in if found_in is None else found_in

    if not TYPE_CHECKING:

        def __init__(self, **facts: Any) -> None:
            kind, problems = type(self), []
            part = kind.read(facts, problems, f"<{kind.__name__}>", None)
            if part is None:
                raise Refused(problems)
            self.__dict__.update(part.__dict__)

    @classmethod
    def read(
        cls,
        data: object,
        problems: list[Problem],
        file: str,
        places: Places | None,
        root: Path = (),
        whole: PartClass | None = None,
    ) -> Self | None:
        """Return a part made of data from a file, and note what is wrong with the data.

        Args:
            data: A table of its facts, by name.
            problems: Gets what is wrong.
            file: Name of the file.
            places: The places in the file; None if the data came from no text.
            root: The path of the part in the file.
            whole: What the part is in, where an unknown key may belong; the part itself if None.

        Returns:
            The part; None where something is wrong.
        """
        wrong = list[Wrong]()
        part: Self | None = parse(cls, data, wrong)
        problems.extend(problems_in(wrong, cls, file, places, root, whole or cls))
        return part

    @classmethod
    def prepared(cls, facts: Mapping[str, Any]) -> Mapping[str, Any]:
        """Return facts under the names of the members, where people write some otherwise.

        Raises:
            ValueError: If they do not go together.
        """
        return facts

    def check(self) -> None:
        """Check the facts that must agree with each other.

        Raises:
            ValueError: If they do not go together.
        """

    @property
    def given(self) -> Mapping[str, Any]:
        """Return what is known, by name in the order of the members."""
        return self.__dict__

    def as_data(self) -> dict[str, Any]:
        """Return what is known as plain data for TOML or JSON; read again, it is the same part."""
        return {name: _plain(value) for name, value in self.__dict__.items()}

    def __setattr__(self, name: str, value: object) -> None:
        """Refuse, except for private attributes such as caches."""
        if not name.startswith("_"):
            raise ValueError(f"{type(self).__name__} is frozen: '{name}' stays as it is.")
        object.__setattr__(self, name, value)

    def __delattr__(self, name: str) -> None:
        """Refuse."""
        raise ValueError(f"{type(self).__name__} is frozen: '{name}' stays as it is.")

    def __eq__(self, other: object) -> bool:
        """Return whether the other part is of the same class and holds the same facts."""
        return isinstance(other, Part) and (type(self), self.__dict__) == (
            type(other),
            other.__dict__,
        )

    def __hash__(self) -> int:
        """Return a hash of the facts."""
        return hash((type(self), *self.__dict__.items()))

    def __repr__(self) -> str:
        """Return the expression that builds it, without what is not known."""
        facts = ", ".join(f"{name}={value!r}" for name, value in self.__dict__.items())
        return f"{type(self).__name__}({facts})"


def _plain(value: Any) -> Any:
    if isinstance(value, Part):
        return value.as_data()
    if isinstance(value, tuple):
        return [_plain(item) for item in value]
    return value if isinstance(value, str | bool | int | float | dict) else str(value)


def fact(
    question: str,
    how: str = "",
    *,
    who: Who | None = None,
    label: str = "",
    example: str = "",
    otherwise: str = "",
) -> Any:
    """Return the member for one fact or one nested part.

    Args:
        question: What a surveyor would ask to learn it.
        how: How to find it out; the part's own `found_in` when empty.
        who: Who can be asked; the part's own `answered_by` when None.
        label: A short noun phrase for the middle of a sentence; made from the name when empty.
        example: What would usually be written, as in a job file but without quotes around a text.
            Only a truth goes without: "true" does for it.
        otherwise: What else may be written, as a sentence, where something else may.

    Returns:
        The member, not known until it is given.
    """
    return Asking(question, how, who, label, example, otherwise)
