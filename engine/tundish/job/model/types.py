"""The types of facts that parts of a job declare, as in `length: t.Length = fact(…)`."""

import datetime
from typing import TYPE_CHECKING, Annotated, Literal, TypeVar

from tundish.job.model.field_types import FactType, ItemsType, Marking, OrNoneType
from tundish.job.model.kinds import (
    DateKind,
    NumberKind,
    QuantityKind,
    TextKind,
    TextsKind,
    TruthKind,
    WholeKind,
)
from tundish.job.model.part import Part
from tundish.job.model.pipe_size import PipeKind, PipeSize
from tundish.units.quantity import Quantity

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
