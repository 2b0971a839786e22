"""What every part of a job is made of: the class `Part`, its field types, and `fact`."""

import datetime
from collections.abc import Mapping
from typing import (
    TYPE_CHECKING,
    Annotated,
    Any,
    ClassVar,
    Literal,
    Self,
    TypeVar,
    dataclass_transform,
)

from tundish.job.model.errors import problems_in
from tundish.job.model.field_types import FactType, ItemsType, Marking, OrNoneType
from tundish.job.model.fields import Asking, PartClass
from tundish.job.model.fields import Who as Who
from tundish.job.model.kinds import (
    DateKind,
    NumberKind,
    QuantityKind,
    TextKind,
    TextsKind,
    TruthKind,
    WholeKind,
)
from tundish.job.model.parse import Wrong, parse
from tundish.job.model.pipe_size import PipeKind, PipeSize
from tundish.text.place import Path, Places
from tundish.text.problem import Problem, Refused
from tundish.units.quantity import Quantity


@dataclass_transform(kw_only_default=True, frozen_default=True)
class _Described(PartClass):
    """Tells a checker of types that parts are built from their facts."""


class Part(metaclass=_Described):
    """A part of a job; every fact may be left out while it is not known.

    It is frozen. Built with facts that cannot be read, it raises one `Refused` with all that is
    wrong, as reading a file does.
    """

    answered_by: ClassVar[Who] = "designer"
    found_in: ClassVar[str] = ""
    written_as: ClassVar[dict[str, str]] = {}

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
        """Return facts as members have them, where people write some otherwise.

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
        """Return what is known as TOML and JSON can hold it; read again, it is the same part."""
        return {name: _plain(value) for name, value in self.__dict__.items()}

    def __setattr__(self, name: str, value: object) -> None:
        """Refuse, except for what is kept beside the facts."""
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
        """Return it as it could be built, without what is not known."""
        facts = ", ".join(f"{name}={value!r}" for name, value in self.__dict__.items())
        return f"{type(self).__name__}({facts})"


def _plain(value: Any) -> Any:
    if isinstance(value, Part):
        return value.as_data()
    if isinstance(value, tuple):
        return [_plain(each) for each in value]
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


_Record = TypeVar("_Record", bound=Part)
_Text = TypeVar("_Text", bound=str)

if TYPE_CHECKING:
    OrNone = Annotated[_Record | Literal["none"] | None, OrNoneType()]
    """A record, or "none" where the thing is known to be absent."""

    Items = Annotated[tuple[_Record, ...] | None, ItemsType()]
    """A list of records."""

    Choice = Annotated[_Text | None, FactType()]
    """One of the texts of a `Literal`."""

    Choices = Annotated[tuple[_Text, ...] | None, FactType(several=True)]
    """A list of texts out of a `Literal`."""
else:
    # The same in short: `Annotated` with types in types takes a good part of the loading time.
    OrNone = Marking(OrNoneType())
    Items = Marking(ItemsType())
    Choice = Marking(FactType())
    Choices = Marking(FactType(several=True))

Text = Annotated[str | None, FactType(TextKind())]
Texts = Annotated[tuple[str, ...] | None, FactType(TextsKind())]
Truth = Annotated[bool | None, FactType(TruthKind())]
Day = Annotated[datetime.date | None, FactType(DateKind())]
Count = Annotated[int | None, FactType(WholeKind())]
Phases = Annotated[int | None, FactType(WholeKind(options=(1, 3), example="1"))]
Number = Annotated[float | None, FactType(NumberKind())]
PowerFactor = Annotated[float | None, FactType(NumberKind(most=1.0))]
PH = Annotated[float | None, FactType(NumberKind(most=14.0))]
Pipe = Annotated[PipeSize | None, FactType(PipeKind())]


def _quantity(noun: str, example: str, least: str = "", most: str = "") -> FactType:
    return FactType(QuantityKind(noun, example, least, most))


# Bounds here say only what cannot be; what should be is a matter of rules.
Length = Annotated[Quantity | None, _quantity("a length", "150 mm", "0 mm")]
Elevation = Annotated[Quantity | None, _quantity("a height above or below", "40 m")]
Area = Annotated[Quantity | None, _quantity("an area", "2.4 m2", "0 m2")]
CrossSection = Annotated[Quantity | None, _quantity("a cross-section", "6 mm2", "0 mm2")]
Volume = Annotated[Quantity | None, _quantity("a volume", "40 L", "0 L")]
Mass = Annotated[Quantity | None, _quantity("a mass", "124 kg", "0 kg")]
Duration = Annotated[Quantity | None, _quantity("a time", "6 min", "0 s")]
Current = Annotated[Quantity | None, _quantity("a current", "32 A", "0 A")]
Temperature = Annotated[Quantity | None, _quantity("a temperature", "-3 degC", "-273.15 degC")]
TemperatureDifference = Annotated[
    Quantity | None, _quantity("a temperature difference", "5 K", "0 K")
]
Flow = Annotated[Quantity | None, _quantity("a flow", "22 L/min", "0 L/min")]
Velocity = Annotated[Quantity | None, _quantity("a speed", "0.8 m/s", "0 m/s")]
Pressure = Annotated[Quantity | None, _quantity("a pressure", "1.3 bar", "0 bar")]
AreaLoad = Annotated[Quantity | None, _quantity("a load on an area", "0.6 kN/m2", "0 kN/m2")]
Power = Annotated[Quantity | None, _quantity("a power", "6.9 kW", "0 kW")]
Energy = Annotated[Quantity | None, _quantity("an energy", "1.2 kWh", "0 kWh")]
Voltage = Annotated[Quantity | None, _quantity("a voltage", "230 V", "0 V")]
Resistance = Annotated[Quantity | None, _quantity("a resistance", "0.28 ohm", "0 ohm")]
LetThrough = Annotated[Quantity | None, _quantity("a let-through energy", "35000 A2.s", "0 A2.s")]
Frequency = Annotated[Quantity | None, _quantity("a frequency", "50 Hz", "0 Hz")]
SoundLevel = Annotated[Quantity | None, _quantity("a sound level", "54 dB")]
LevelDifference = Annotated[
    Quantity | None,
    FactType(QuantityKind("a difference of levels", "3 dB", "0 dB", difference=True)),
]
Fraction = Annotated[Quantity | None, _quantity("a share", "30 %", "0 %", "100 %")]
Density = Annotated[Quantity | None, _quantity("a density", "200 kg/m3", "0 kg/m3")]
Concentration = Annotated[Quantity | None, _quantity("a concentration", "50 mg/L", "0 mg/L")]
Hardness = Annotated[Quantity | None, _quantity("a hardness", "1.9 mmol/L", "0 mmol/L")]
ElectricalConductivity = Annotated[
    Quantity | None, _quantity("an electrical conductivity", "350 uS/cm", "0 uS/cm")
]
ThermalConductivity = Annotated[
    Quantity | None, _quantity("a thermal conductivity", "0.038 W/(m.K)", "0 W/(m.K)")
]
ThermalResistivity = Annotated[
    Quantity | None, _quantity("a thermal resistivity", "2.5 K.m/W", "0 K.m/W")
]
HeatTransfer = Annotated[
    Quantity | None, _quantity("a heat transfer coefficient", "1.2 W/(m2.K)", "0 W/(m2.K)")
]
HeatLossPerDegree = Annotated[
    Quantity | None, _quantity("a heat loss per kelvin", "180 W/K", "0 W/K")
]
DepositionRate = Annotated[
    Quantity | None, _quantity("a deposition rate", "60 mg/(m2.day)", "0 mg/(m2.day)")
]
