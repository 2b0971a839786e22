"""What first files ask for: the facts that were measured to decide most, by stage.

It is data, rules/forms/starters.toml, which tests/tables/starter_facts.py makes.
"""

from __future__ import annotations

from functools import cache

from tundish.job.model.schema import Fact
from tundish.rulebook.files.pack import FORMS
from tundish.rulebook.forms.unit_sheet import sheet_sections
from tundish.rulebook.link.facts_read import facts_read
from tundish.rulebook.rulebook import Rulebook
from tundish.text.bundled_folders import bundled_folder
from tundish.text.toml_file import read_toml

_UNIT = "unit"


def facts_of_first_job(rulebook: Rulebook, stage: str, region: str | None) -> list[str]:
    """Return the paths of the facts that a first job file asks for.

    Args:
        rulebook: The rules; a fact that none of them looks at in the region is left out.
        stage: The stage of the job.
        region: Its ISO 3166-1 code, or None while it is not known.
    """
    read = _read_in(rulebook, region)
    return [path for path in _lists()[stage] if path.endswith(".name") or _is_read(path, read)]


def facts_of_packs(rulebook: Rulebook, region: str | None) -> list[Fact]:
    """Return the facts that packs declare and that rules look at in a region."""
    read = _read_in(rulebook, region)
    facts = [declared.fact for declared in rulebook.declared.values()]
    return [fact for fact in facts if fact.path in read]


def facts_of_first_sheet() -> list[str]:
    """Return the paths of the facts that a first unit sheet asks for.

    They are all those that makers must publish, and what else decides most.
    """
    published = [path for row in sheet_sections()[0].rows for path in row.facts]
    return [*published, *_lists()[_UNIT]]


@cache
def _lists() -> dict[str, list[str]]:
    return read_toml(bundled_folder("rules") / FORMS / "starters.toml").data


def _read_in(rulebook: Rulebook, region: str | None) -> frozenset[str]:
    rules = [rule for rule in rulebook.rules.values() if region is None or rule.may_hold_in(region)]
    return frozenset(path for rule in rules for path in facts_read(rule, rulebook.quantities))


def _is_read(path: str, read: frozenset[str]) -> bool:
    """Say whether a fact is read, or the group around it, as for whether there is one."""
    group = path.rpartition(".")[0]
    return (
        path in read or group in read or any(read_path.startswith(f"{path}.") for read_path in read)
    )
