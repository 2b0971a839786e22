"""Frost and pipes: what keeps water outdoors from freezing, and the pipes it runs in."""

from __future__ import annotations

from itertools import pairwise
from math import log, pi

from by_hand.tables import (
    BRITISH_PIPE_LOSSES,
    CONNECTION_BORES,
    GLYCOL_DENSITIES,
    PIPE_BORES,
    STEEL_DIAMETERS,
)
from by_hand.verdict import (
    BREACHED,
    MET,
    NOT_APPLICABLE,
    UNDECIDED,
    Job,
    Truth,
    Verdict,
    at_least,
    at_most,
    each,
    of,
    reaches,
    some,
)


def _glycol_in_water(water: Job) -> Truth:
    glycol, fluid = water.get("frost", {}).get("glycol"), water.get("fluid")
    if glycol is not None:
        return bool(glycol != "none")
    return None if fluid is None else fluid != "water"


def _antifreeze_valves(water: Job) -> Truth:
    frost = water.get("frost", {})
    valves, strategy = frost.get("antifreeze_valves"), frost.get("strategy")
    if valves is not None:
        return len(valves) > 0
    return None if strategy is None else "antifreeze valves" in strategy


def _water_outdoors_can_freeze(job: Job) -> Truth:
    form, site = job.get("unit", {}).get("form"), job.get("site", {})
    outdoors: Truth = True
    if form != "monobloc":
        runs = job.get("water", {}).get("run")
        places = [None] if runs is None else [run.get("place") for run in runs]
        if "outdoors" not in places:
            outdoors = None if form is None or None in places else False
    design, coldest = site.get("design_air_temperature"), site.get("coldest_air_temperature")
    cold = some((reaches(276.15, design), reaches(276.15, coldest)))
    if outdoors is False or cold is False:
        return False
    return None if outdoors is None or cold is None else True


def glycol_not_too_weak(job: Job) -> str:
    water = job.get("water", {})
    applies = _glycol_in_water(water)
    if not applies:
        return UNDECIDED if applies is None else NOT_APPLICABLE
    glycol = water.get("frost", {}).get("glycol")
    by = None if glycol is None else glycol.get("by")
    share = None if by is None else glycol.get("fraction")
    if by != "volume" and share is not None:
        density = GLYCOL_DENSITIES.get(water.get("fluid"))
        if density is None or not share:
            return UNDECIDED
        share = 1 / (1 + (1 / share - 1) * density / 998.2)
    return at_least(share, 0.25)


def works_without_power(job: Job) -> str:
    applies, water = _water_outdoors_can_freeze(job), job.get("water", {})
    if not applies:
        return UNDECIDED if applies is None else NOT_APPLICABLE
    glycol, valves = _glycol_in_water(water), _antifreeze_valves(water)
    if glycol or valves:
        return MET
    frost = water.get("frost", {})
    strategy, off = frost.get("strategy"), frost.get("switched_off_in_winter")
    if strategy is None:
        return UNDECIDED
    if "separating heat exchanger" in strategy:
        return MET
    drained = off if "drained by hand" in strategy else False
    return of(some((glycol, valves, drained)))


def valve_outlet_height(job: Job) -> str:
    water = job.get("water", {})
    fitted, glycol = _antifreeze_valves(water), _glycol_in_water(water)
    if fitted is False or glycol:
        return NOT_APPLICABLE
    valves = water.get("frost", {}).get("antifreeze_valves")
    if fitted is None or glycol is None or valves is None:
        return UNDECIDED
    high = [reaches(valve.get("height_above_ground"), 0.15) for valve in valves]
    return BREACHED if False in high else UNDECIDED if None in high else MET


def glycol_kind_allowed(job: Job) -> str:
    water, allowed = job.get("water", {}), job.get("unit", {}).get("water", {})
    allowed = allowed.get("glycol_allowed", {})
    glycol, may, fluid = _glycol_in_water(water), allowed.get("allowed"), water.get("fluid")
    if glycol is False or may is False or fluid == "water":
        return NOT_APPLICABLE
    kinds = allowed.get("kinds")
    if glycol is None or may is None or fluid is None or kinds is None:
        return UNDECIDED
    return of(fluid in kinds)


def valves_tried(job: Job) -> str:
    fitted = _antifreeze_valves(job.get("water", {}))
    if not fitted:
        return UNDECIDED if fitted is None else NOT_APPLICABLE
    return of(job.get("readings", {}).get("antifreeze_valves_tested"))


def frost_mode_on(job: Job) -> str:
    freezes, glycol = _water_outdoors_can_freeze(job), _glycol_in_water(job.get("water", {}))
    if freezes is False or glycol:
        return NOT_APPLICABLE
    if freezes is None or glycol is None:
        return UNDECIDED
    return of(job.get("controls", {}).get("frost_mode"))


def outdoor_insulation(job: Job) -> Verdict:
    def judge(run: Job) -> str:
        place, insulation = run.get("place"), run.get("insulation")
        if place != "outdoors":
            return UNDECIDED if place is None else NOT_APPLICABLE
        if insulation is None or insulation == "none":
            return UNDECIDED if insulation is None else BREACHED
        return at_least(insulation.get("thickness"), 0.019)

    return each(job.get("water", {}).get("run"), judge)


def pipes_held(job: Job) -> Verdict:
    def judge(run: Job) -> str:
        place = run.get("place")
        if place is None:
            return UNDECIDED
        return of(run.get("supported")) if place == "outdoors" else NOT_APPLICABLE

    return each(job.get("water", {}).get("run"), judge)


def wall_sealed(job: Job) -> Verdict:
    def judge(run: Job) -> str:
        place = run.get("place")
        if place is None:
            return UNDECIDED
        if place not in ("outdoors", "underground"):
            return NOT_APPLICABLE
        return of(run.get("sleeved"))

    return each(job.get("water", {}).get("run"), judge)


def below_frost(job: Job) -> Verdict:
    water, depth = job.get("water", {}), job.get("site", {}).get("frost_depth")
    glycol, runs = _glycol_in_water(water), water.get("run")
    if glycol and runs is None:
        return NOT_APPLICABLE

    def judge(run: Job) -> str:
        place = run.get("place")
        if glycol or place not in (None, "underground"):
            return NOT_APPLICABLE
        if glycol is None or place is None:
            return UNDECIDED
        return at_least(run.get("burial_depth"), depth)

    return each(runs, judge)


def oxygen_barrier(job: Job) -> Verdict:
    def judge(run: Job) -> str:
        material = run.get("pipe", {}).get("material")
        if material not in ("PEX", "PE-RT", "polybutylene", "polypropylene"):
            return UNDECIDED if material is None else NOT_APPLICABLE
        return of(run.get("oxygen_barrier"))

    return each(job.get("water", {}).get("run"), judge)


def connection_not_reduced(job: Job) -> Verdict:
    water = job.get("water", {})
    emitters = water.get("emitter")
    wanted = CONNECTION_BORES.get(job.get("unit", {}).get("water", {}).get("connection"))

    def judge(run: Job) -> str:
        feeds = run.get("feeds")
        names = [None] if emitters is None else [one.get("name") for one in emitters]
        if feeds is None and names:
            return UNDECIDED
        if feeds is not None and "all" not in feeds:
            if any(name in feeds for name in names):
                return NOT_APPLICABLE
            if None in names:
                return UNDECIDED
        pipe = run.get("pipe", {})
        bore = PIPE_BORES.get((pipe.get("material"), pipe.get("size")))
        if bore is None:
            outside, wall = pipe.get("outside_diameter"), pipe.get("wall")
            bore = None if outside is None or wall is None else outside - 2 * wall
        return at_least(bore, wanted)

    return each(water.get("run"), judge)


def _british_limit(diameter: float) -> float | None:
    for (low, first), (high, last) in pairwise(BRITISH_PIPE_LOSSES):
        if low * (1 - 1e-9) <= diameter <= high * (1 + 1e-9):
            return first + (last - first) * (diameter - low) / (high - low)
    return None


def _british_loss(run: Job, diameter: float) -> float | None:
    """Return what a metre of pipe loses at 45 K."""
    insulation, insulated, resistance = run.get("insulation"), diameter, 0.0
    if insulation is None:
        return None
    if insulation != "none":
        thickness, conductivity = insulation.get("thickness"), insulation.get("conductivity")
        if thickness is None or not conductivity:
            return None
        insulated = diameter + 2 * thickness
        resistance = log(insulated / diameter) / (2 * pi * conductivity)
    return 45 / (resistance + 1 / (10 * pi * insulated))


def british_insulation(job: Job) -> Verdict:
    region, runs = job.get("job", {}).get("region"), job.get("water", {}).get("run")
    if runs is None and region not in (None, "GB"):
        return NOT_APPLICABLE

    def judge(run: Job) -> str:
        place = run.get("place")
        if region not in (None, "GB") or place not in (None, "outdoors", "unheated room"):
            return NOT_APPLICABLE
        if region is None or place is None:
            return UNDECIDED
        pipe = run.get("pipe", {})
        diameter = pipe.get("outside_diameter")
        if diameter is None and pipe.get("material") == "steel":
            diameter = STEEL_DIAMETERS.get(pipe.get("size"))
        if diameter is None:
            return UNDECIDED
        return at_most(_british_loss(run, diameter), _british_limit(diameter))

    return each(runs, judge)


RULES = {
    "frost-protection/glycol-not-too-weak": glycol_not_too_weak,
    "frost-protection/works-without-power": works_without_power,
    "frost-protection/valve-outlet-height": valve_outlet_height,
    "frost-protection/outdoor-insulation": outdoor_insulation,
    "glycol-effects/kind-allowed": glycol_kind_allowed,
    "commissioning/antifreeze-valves-tried": valves_tried,
    "controls/frost-mode-on": frost_mode_on,
    "outdoor-pipework/held": pipes_held,
    "outdoor-pipework/wall-sealed": wall_sealed,
    "outdoor-pipework/below-frost": below_frost,
    "outdoor-pipework/heat-loss-limit": british_insulation,
    "pipework/oxygen-barrier": oxygen_barrier,
    "pipework/connection-not-reduced": connection_not_reduced,
}
