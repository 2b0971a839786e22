"""A rule or quantity of a country stands in the place of an international one there."""

from __future__ import annotations

from pathlib import Path

import pytest

from rulebook.packs import QUANTITY, RULE, load, only_problem, proofs, write_pack
from tundish import Job, Verdict, assess
from tundish.compare.compare import compare
from tundish.rulebook.prove.run_mutants import run_mutants
from tundish.rulebook.rulebook import Rulebook
from tundish.text.problem import Refused

HERE = '"job.region" = "XA", '
OWN = (
    RULE.replace("stands clear of snow", "stands a hand's breadth above the snow")
    .replace(">= site.snow_depth", ">= site.snow_depth + 100 mm")
    .replace("given   = { ", f"given   = {{ {HERE}")
)
SAYS = 'overrides = "snow/clear"\noverrides_because = "The invented law of XA asks for more."\n'
OVERRIDING = OWN.replace("reviewed", f"{SAYS}reviewed", 1)
FILES = {"snow/clear.toml": RULE, "national/XA/snow/by-law.toml": OVERRIDING}
BETWEEN = {"placement.height_below": "150 mm", "site.snow_depth": "120 mm"}


def verdicts(rulebook: Rulebook, region: str | None) -> dict[str, Verdict]:
    findings = assess(Job.from_data(BETWEEN), rulebook, region=region).findings
    return {finding.rule: finding.verdict for finding in findings}


def test_an_overridden_rule_holds_elsewhere_alone(tmp_path: Path) -> None:
    rulebook = load(tmp_path, FILES)
    here, elsewhere, nowhere = (verdicts(rulebook, region) for region in ("XA", "XB", None))
    assert here == {"snow/clear": Verdict.NOT_APPLICABLE, "snow/by-law": Verdict.BREACHED}
    assert elsewhere == {"snow/clear": Verdict.MET, "snow/by-law": Verdict.NOT_APPLICABLE}
    assert set(nowhere.values()) == {Verdict.UNDECIDED}


def test_each_of_the_two_names_the_other_and_why(tmp_path: Path) -> None:
    rules = load(tmp_path, FILES).rules
    (overridden,), overrides = rules["snow/clear"].overridden, rules["snow/by-law"].overrides
    assert overrides is not None
    assert (overrides.other, overridden.other) == ("snow/clear", "snow/by-law")
    assert {overrides.region, overridden.region} == {"XA"}
    assert overrides.because == overridden.because == "The invented law of XA asks for more."


def test_cases_of_an_international_rule_need_no_country(tmp_path: Path) -> None:
    files = {**FILES, "national/XB/snow/too.toml": OVERRIDING.replace("XA", "XB")}
    assert not any(proof.failures for proof in proofs(tmp_path, files).values())
    alone = load(tmp_path / "alone", {"snow/clear.toml": RULE})
    runs = [
        [one.excuse for one in run_mutants(rulebook.rules["snow/clear"], rulebook).survivors]
        for rulebook in (alone, load(tmp_path / "both", files))
    ]
    assert runs[0] == runs[1]


def test_two_countries_override_one_rule(tmp_path: Path) -> None:
    files = {**FILES, "national/XB/snow/too.toml": OVERRIDING.replace("XA", "XB")}
    rulebook = load(tmp_path, files)
    assert (
        rulebook.rules["snow/clear"].as_written.applies == rulebook.rules["snow/clear"].asked_where
    )
    for region in ("XA", "XB"):
        assert verdicts(rulebook, region)["snow/clear"] is Verdict.NOT_APPLICABLE


def national(text: str, *others: str) -> dict[str, str]:
    rules = {f"national/XA/snow/{at}.toml": other for at, other in enumerate(others)}
    return {"snow/clear.toml": RULE, "national/XA/snow/by-law.toml": text, **rules}


@pytest.mark.parametrize(
    ("files", "place", "told"),
    [
        pytest.param(
            national(OVERRIDING.replace('"snow/clear"', '"snow/clean"')),
            "national/XA/snow/by-law.toml:6",
            "There is no rule 'snow/clean' to override. Did you mean 'snow/clear'?",
            id="no such rule",
        ),
        pytest.param(
            national(OVERRIDING.replace('"snow/clear"', '"snow/by-law"')),
            "national/XA/snow/by-law.toml:6",
            "A rule cannot override itself.",
            id="itself",
        ),
        pytest.param(
            national(OVERRIDING, OVERRIDING),
            "national/XA/snow/by-law.toml:6",
            "In XA 'snow/clear' is overridden by 'snow/0' already.",
            id="twice",
        ),
        pytest.param(
            national(OVERRIDING.replace('"snow/clear"', '"snow/0"'), OWN),
            "national/XA/snow/by-law.toml:6",
            "'snow/0' is a rule of XA alone: change that one, or replace it.",
            id="of the same country",
        ),
        pytest.param(
            {
                **FILES,
                "national/XB/snow/b.toml": OVERRIDING.replace('"snow/clear"', '"snow/by-law"'),
            },
            "national/XB/snow/b.toml:6",
            "'snow/by-law' does not hold in XB: there is nothing to override.",
            id="of another country",
        ),
        pytest.param(
            {"snow/clear.toml": RULE, "snow/by-law.toml": OVERRIDING},
            "snow/by-law.toml:6",
            "Only a rule of a country, in national/CC/, overrides another.",
            id="in no country",
        ),
        pytest.param(
            national(OVERRIDING.replace(SAYS, 'overrides = "snow/clear"\n')),
            "national/XA/snow/by-law.toml:6",
            "Say in 'overrides_because' why it takes the place of 'snow/clear'.",
            id="no reason",
        ),
        pytest.param(
            national(OVERRIDING.replace(SAYS, 'overrides_because = "The law."\n')),
            "national/XA/snow/by-law.toml:6",
            "This says why it overrides, and not what: write 'overrides' too.",
            id="a reason alone",
        ),
        pytest.param(
            {
                **national(OVERRIDING.replace('"snow/clear"', '"spare_height"')),
                "snow/quantities.toml": QUANTITY,
            },
            "national/XA/snow/by-law.toml:6",
            "'spare_height' is a quantity: a rule overrides rules alone.",
            id="a quantity",
        ),
        pytest.param(
            {
                **FILES,
                "snow/clear.toml": RULE.replace("reviewed", 'formerly = ["snow/old"]\nreviewed', 1),
                "national/XA/snow/by-law.toml": OVERRIDING.replace('"snow/clear"', '"snow/old"'),
            },
            "national/XA/snow/by-law.toml:6",
            "The rule 'snow/old' is called 'snow/clear' now.",
            id="by a former name",
        ),
        pytest.param(
            national(OVERRIDING.replace("reviewed", "holds_from = 2027-01-01\nreviewed", 1)),
            "national/XA/snow/by-law.toml:6",
            "A rule that overrides another holds on every day: without 'holds_from' and "
            "'holds_until'.",
            id="for a time",
        ),
        pytest.param(
            {"snow/clear.toml": RULE, "national/XA/snow/clear.toml": OWN},
            "national/XA/snow/clear.toml:None",
            "Outside XA there is a rule 'snow/clear' too: give this one a name of its own, and say "
            "in 'overrides' if it takes the place of that one.",
            id="the same name",
        ),
    ],
)
def test_what_cannot_be_overridden_is_told(
    tmp_path: Path, files: dict[str, str], place: str, told: str
) -> None:
    problem = only_problem(tmp_path, files)
    assert problem.sentence == told
    assert f"{problem.file}:{problem.line}".startswith(place.partition(":")[0])


# -- quantities ---------------------------------------------------------------------------------

COUNTED = QUANTITY.replace("spare_height", "counted_height").replace(
    "given = { ", f"given = {{ {HERE}"
)
COUNTED_BECAUSE = 'overrides = "spare_height"\noverrides_because = "Half the snow counts there."\n'
QUANTITIES = {
    "snow/clear.toml": RULE.replace(
        "placement.height_below >= site.snow_depth", "spare_height >= 0 mm"
    ),
    "snow/quantities.toml": QUANTITY,
    "national/XA/snow/quantities.toml": COUNTED.replace("reviewed", f"{COUNTED_BECAUSE}reviewed", 1)
    .replace("- site.snow_depth", "- site.snow_depth / 2")
    .replace("180 mm", "240 mm"),
}


def test_an_overridden_quantity_has_the_value_of_the_country_there(tmp_path: Path) -> None:
    rulebook = load(tmp_path, QUANTITIES)
    deep = {"placement.height_below": "100 mm", "site.snow_depth": "120 mm"}
    judged = {
        region: assess(Job.from_data(deep), rulebook, region=region).findings[0]
        for region in ("XA", "XB", None)
    }
    assert judged["XA"].verdict is Verdict.MET
    assert judged["XB"].verdict is Verdict.BREACHED
    assert judged[None].verdict is Verdict.UNDECIDED
    assert [one.path for one in judged[None].open] == ["job.region"]
    shown = {one.name: one.formula for one in judged["XA"].workings}
    assert shown["spare_height"] == "counted_height"
    assert not any(proof.failures for proof in proofs(tmp_path, QUANTITIES).values())


@pytest.mark.parametrize(
    ("old", "new", "told"),
    [
        ('"spare_height"', '"spare_heigth"', "There is no quantity 'spare_heigth' to override."),
        ('unit     = "mm"', 'unit     = "kW"', "'spare_height' is "),
        ('formula  = "', 'of = "water.run as run"\nformula  = "', "is a quantity of the job, and"),
    ],
)
def test_a_quantity_overrides_one_of_its_kind(
    tmp_path: Path, old: str, new: str, told: str
) -> None:
    name = "national/XA/snow/quantities.toml"
    text = QUANTITIES[name].replace(old, new)
    if "kW" in new:
        text = text.replace("placement.height_below - site.snow_depth / 2", "2 kW")
    assert told in only_problem(tmp_path, {**QUANTITIES, name: text}).sentence


# -- packs on top -------------------------------------------------------------------------------


def on_top(tmp_path: Path, files: dict[str, str]) -> Rulebook:
    below = write_pack(tmp_path / "below", FILES)
    above = write_pack(tmp_path / "above", files)
    (above / "sources.toml").unlink()
    return Rulebook.load(below, above, with_built_in=False)


def test_a_country_takes_a_rule_out_of_use_there(tmp_path: Path) -> None:
    retire = '[{ rule = "snow/clear", because = "It never snows there." }]'
    pack = {"national/XB/pack.toml": f'title = "XB"\nretire = {retire}\n'}
    rulebook = on_top(tmp_path, {"pack.toml": 'title = "Above"\n', **pack})
    assert verdicts(rulebook, "XB")["snow/clear"] is Verdict.NOT_APPLICABLE
    assert verdicts(rulebook, "XC")["snow/clear"] is Verdict.MET
    assert [one.other for one in rulebook.rules["snow/clear"].overridden] == ["snow/by-law", ""]


@pytest.mark.parametrize(
    "files",
    [
        {"pack.toml": 'title = "A"\nretire = [{ rule = "snow/old", because = "No snow." }]\n'},
        {"snow/old.toml": 'replaces = "Ours."\n' + RULE},
    ],
)
def test_a_pack_that_names_a_rule_as_it_was_called_is_told_the_name_of_today(
    tmp_path: Path, files: dict[str, str]
) -> None:
    renamed = RULE.replace("reviewed", 'formerly = ["snow/old"]\nreviewed', 1)
    below = write_pack(tmp_path / "below", {"snow/clear.toml": renamed})
    above = write_pack(tmp_path / "above", files)
    (above / "sources.toml").unlink()
    with pytest.raises(Refused, match="The rule 'snow/old' is called 'snow/clear' now"):
        Rulebook.load(below, above, with_built_in=False)


def test_a_renamed_rule_is_compared_with_itself(tmp_path: Path) -> None:
    old = load(tmp_path / "old", {"snow/old.toml": RULE})
    renamed = RULE.replace("reviewed", 'formerly = ["snow/old"]\nreviewed', 1)
    new = load(tmp_path / "new", {"snow/clear.toml": renamed})
    job = Job.from_data(BETWEEN | {"placement.height_below": "100 mm"})
    assert compare(job, job, old, new).findings == ()


def test_where_an_overriding_rule_is_retired_the_international_one_holds_again(
    tmp_path: Path,
) -> None:
    retire = '[{ rule = "snow/by-law", because = "That law ended." }]'
    rulebook = on_top(tmp_path, {"pack.toml": f'title = "Above"\nretire = {retire}\n'})
    assert verdicts(rulebook, "XA") == {"snow/clear": Verdict.MET}


def test_what_replaces_a_rule_is_overridden_as_that_was_and_overrides_as_that_did(
    tmp_path: Path,
) -> None:
    replaces = 'replaces = "Our house is stricter."\n'
    files = {
        "snow/clear.toml": replaces + RULE,
        "national/XA/snow/by-law.toml": replaces + OWN,
    }
    assert verdicts(on_top(tmp_path, files), "XA") == {
        "snow/clear": Verdict.NOT_APPLICABLE,
        "snow/by-law": Verdict.BREACHED,
    }


def test_what_replaces_a_rule_and_names_its_regions_holds_in_those(tmp_path: Path) -> None:
    text = 'replaces = "Our house is stricter."\nregions = ["XA"]\n' + RULE
    rulebook = on_top(tmp_path, {"snow/clear.toml": text})
    assert verdicts(rulebook, "XA")["snow/clear"] is Verdict.MET


def test_a_rule_that_is_retired_is_not_missed_by_what_overrode_it(tmp_path: Path) -> None:
    retire = '[{ rule = "snow/clear", because = "No snow here." }]'
    rulebook = on_top(tmp_path, {"pack.toml": f'title = "Above"\nretire = {retire}\n'})
    assert verdicts(rulebook, "XA") == {"snow/by-law": Verdict.BREACHED}
