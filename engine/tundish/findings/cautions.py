"""The cautions that end every assessment, whatever came out."""

from __future__ import annotations

CAUTIONS: tuple[str, ...] = (
    "This is an aid to a competent person and no approval. National and local codes, the product "
    "data and licensed trades prevail over anything said here.",
    "A job can be wrong in ways that no rule here looks at; what is not known is not thereby "
    "right.",
    "Electricity kills: isolate every supply, lock off and prove dead before opening a unit; "
    "leave electrical work to those licensed for it.",
    "Hot water scalds and pressure bursts: cool down and relieve the pressure before opening a "
    "circuit; never close or plug a relief discharge.",
    "Refrigerant can suffocate, freeze skin and, in many units, burn: leave the refrigerant "
    "circuit to certified people and keep sources of ignition away.",
    "Units are heavy and tall: plan the lift, use lifting gear, and work at height safely.",
)
"""One sentence or two each, in the order they are shown."""
