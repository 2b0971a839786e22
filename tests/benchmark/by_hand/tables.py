"""The small tables that the rules by hand look up, in SI units."""

from __future__ import annotations

from typing import Any

PIPE_BORES: dict[Any, float] = {
    ("PEX", "15"): 0.0117,
    ("PEX", "22"): 0.0177,
    ("PEX", "28"): 0.0225,
    ("copper", "10"): 0.0088,
    ("copper", "12"): 0.0108,
    ("copper", "15"): 0.0136,
    ("copper", "22"): 0.0202,
    ("copper", "28"): 0.0262,
    ("copper", "35"): 0.0326,
    ("copper", "42"): 0.0396,
    ("copper", "54"): 0.0516,
    ("multilayer", "16"): 0.012,
    ("multilayer", "20"): 0.016,
    ("multilayer", "26"): 0.02,
    ("multilayer", "32"): 0.026,
    ("polybutylene", "15"): 0.0117,
    ("polybutylene", "22"): 0.0177,
    ("polybutylene", "28"): 0.0225,
    ("steel", "DN10"): 0.0126,
    ("steel", "DN15"): 0.0161,
    ("steel", "DN20"): 0.0217,
    ("steel", "DN25"): 0.0273,
    ("steel", "DN32"): 0.036,
    ("steel", "DN40"): 0.0419,
    ("steel", "DN50"): 0.0531,
    ("steel", "DN65"): 0.0689,
    ("steel", "DN80"): 0.0809,
    ("steel", "DN100"): 0.1053,
}

CHLORIDE_CLASSES = (
    (60e-6 / 86_400, "C3"),
    (300e-6 / 86_400, "C4"),
    (1500e-6 / 86_400, "C5"),
    (1.0 / 86_400, "CX"),
)

_INLAND = ((500.0, "C4"), (3_000.0, "C3"), (20e6, "C2"))
_OPEN = ((500.0, "C5"), (3_000.0, "C4"), (10_000.0, "C3"), (20e6, "C2"))

COAST_CORROSIVITY: dict[Any, tuple[tuple[float, str], ...]] = {
    "coastal plain": _OPEN,
    "inland": _INLAND,
    "open hill": _OPEN,
    "open shore": _OPEN,
    "sheltered bay": _INLAND,
    "town": ((500.0, "C5"), (3_000.0, "C4"), (20e6, "C3")),
}

CONNECTION_BORES: dict[Any, float] = {
    "22 mm": 0.02,
    "28 mm": 0.025,
    "35 mm": 0.032,
    "42 mm": 0.039,
    "G 3/4": 0.02,
    "G 1": 0.025,
    "G 1 1/4": 0.032,
    "G 1 1/2": 0.039,
    "G 2": 0.05,
    "R 3/4": 0.02,
    "R 1": 0.025,
    "R 1 1/4": 0.032,
    "R 1 1/2": 0.039,
    "R 2": 0.05,
}

STEEL_DIAMETERS: dict[Any, float] = {
    "DN10": 0.0172,
    "DN15": 0.0213,
    "DN20": 0.0269,
    "DN25": 0.0337,
    "DN32": 0.0424,
    "DN40": 0.0483,
    "DN50": 0.0603,
    "DN65": 0.0761,
    "DN80": 0.0889,
    "DN100": 0.1143,
}

BRITISH_PIPE_LOSSES = (
    (0.015, 7.89),
    (0.022, 9.12),
    (0.028, 10.07),
    (0.035, 11.08),
    (0.042, 12.19),
)

RELIEF_DISCHARGE: dict[Any, float] = {
    "DN 15": 0.015,
    "DN15": 0.015,
    "G 1/2": 0.015,
    "G1/2": 0.015,
    "DN 20": 0.022,
    "DN20": 0.022,
    "G 3/4": 0.022,
    "G3/4": 0.022,
    "DN 25": 0.028,
    "DN25": 0.028,
    "G 1": 0.028,
    "G1": 0.028,
}

BACKFLOW_CATEGORIES: dict[Any, int] = {
    "air gap": 5,
    "never connected": 5,
    "break tank": 4,
    "reduced pressure zone": 4,
    "check valves": 3,
    "disconnector": 3,
    "none": 1,
}

GLYCOL_DENSITIES: dict[Any, float] = {"ethylene glycol": 1113.0, "propylene glycol": 1036.0}

FLEXIBLE_COPPER: dict[Any, float] = {
    # By cross-section in mm2, as that is how it is written.
    0.5: 0.039,
    0.75: 0.026,
    1.0: 0.0195,
    1.5: 0.0133,
    2.5: 0.00798,
    4.0: 0.00495,
    6.0: 0.0033,
    10.0: 0.00191,
    16.0: 0.00121,
    25.0: 0.00078,
}

_EARTHED = ((120.0, (0.8, 5.0)), (230.0, (0.4, 5.0)), (400.0, (0.2, 5.0)))
_UNEARTHED = ((120.0, (0.3, 1.0)), (230.0, (0.2, 1.0)), (400.0, (0.07, 1.0)))

DISCONNECTION_TIMES: dict[Any, tuple[tuple[float, tuple[float, float]], ...]] = {
    "IT": _UNEARTHED,
    "TT": _UNEARTHED,
    "TN-C": _EARTHED,
    "TN-C-S": _EARTHED,
    "TN-S": _EARTHED,
}

VOLTAGES_TO_NEUTRAL: dict[Any, float] = {
    220.0: 220.0,
    230.0: 230.0,
    240.0: 240.0,
    380.0: 220.0,
    400.0: 230.0,
    415.0: 240.0,
}

HOLDS_MULTIPLES: dict[Any, float] = {"B": 3.0, "C": 5.0, "D": 10.0}
