"""The values that keys of rule files choose from, such as severities and stages."""

from __future__ import annotations

from typing import Literal, get_args

FORMAT = 1
"""The format of rule files that this program reads; a pack says which it was written for."""

Severity = Literal["danger", "fault", "caution", "note"]
Stage = Literal["enquiry", "survey", "design", "order", "installation", "commissioning"]

SEVERITIES: tuple[Severity, ...] = get_args(Severity)
"""From the most to the least serious."""

STAGES: tuple[Stage, ...] = get_args(Stage)
"""In the order a job goes through them."""
Supplier = Literal[
    "maker of the unit",
    "heating supplier",
    "electrical supplier",
    "customer",
    "hire firm",
]
Section = Literal["siting"]
Outcome = Literal["met", "breached", "undecided", "not applicable"]
