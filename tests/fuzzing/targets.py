"""All targets, by name."""

from __future__ import annotations

from fuzzing.reading_files import JOB, JSON_ROWS, ROWS, SHEETS, TOML
from fuzzing.reading_packs import PACKS, RULES, TABLES
from fuzzing.reading_texts import EXPRESSIONS, QUANTITIES, UNITS
from fuzzing.target import Target

TARGETS: dict[str, Target] = {
    target.name: target
    for target in (
        UNITS,
        QUANTITIES,
        EXPRESSIONS,
        TOML,
        JOB,
        SHEETS,
        ROWS,
        JSON_ROWS,
        RULES,
        TABLES,
        PACKS,
    )
}
