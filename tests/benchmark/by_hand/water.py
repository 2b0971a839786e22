"""Water circuit: pump, ways, fittings, pressure and what it is filled with."""

from __future__ import annotations

from itertools import pairwise

from by_hand.tables import BACKFLOW_CATEGORIES, RELIEF_DISCHARGE
from by_hand.verdict import (
    BREACHED,
    MET,
    NOT_APPLICABLE,
    UNDECIDED,
    Job,
    Truth,
    at_least,
    at_most,
    of,
    reaches,
    some,
)


def measured_defrost_flow(job: Job) -> str:
    unit = job.get("unit", {})
    source, stated = unit.get("heat_source"), unit.get("water", {})
    if source != "outdoor air":
        return UNDECIDED if source is None else NOT_APPLICABLE
    flow = job.get("readings", {}).get("water", {}).get("flow", {}).get("defrost")
    return at_least(flow, stated.get("minimum_defrost_flow", stated.get("minimum_flow")))


def filter_isolable(job: Job) -> str:
    strainer = job.get("water", {}).get("filter")
    if strainer is None:
        return UNDECIDED
    return NOT_APPLICABLE if strainer == "none" else of(strainer.get("isolable"))


def air_separator(job: Job) -> str:
    def fits(fitting: Job) -> Truth:
        kind, on = fitting.get("kind"), fitting.get("on")
        if kind not in (None, "air separator") or on not in (None, "flow"):
            return False
        return None if kind is None or on is None else True

    fittings = job.get("water", {}).get("fittings")
    return UNDECIDED if fittings is None else of(some(map(fits, fittings)))


def check_valves_with_second_source(job: Job) -> str:
    source = job.get("controls", {}).get("second_heat_source")
    if source == "none":
        return NOT_APPLICABLE
    connection = None if source is None else source.get("connection")
    if connection != "in parallel":
        return UNDECIDED if connection is None else NOT_APPLICABLE
    fittings = job.get("water", {}).get("fittings")
    if fittings is None:
        return UNDECIDED
    kinds = [fitting.get("kind") for fitting in fittings]
    if "three-way valve" in kinds:
        return MET
    return UNDECIDED if None in kinds else of(kinds.count("check valve") >= 2)


def priority_valve_run_by_unit(job: Job) -> str:
    valve = job.get("hot_water", {}).get("priority_valve")
    if valve is None:
        return UNDECIDED
    return NOT_APPLICABLE if valve == "none" else of(valve.get("run_by_unit"))


def cooling_flow(job: Job) -> str:
    water = job.get("water", {})
    cools = water.get("cools")
    if not cools:
        return UNDECIDED if cools is None else NOT_APPLICABLE
    wanted = job.get("unit", {}).get("water", {}).get("minimum_flow")
    return at_least(water.get("flow", {}).get("cooling"), wanted)


def _emitters_on_the_unit_pump(water: Job) -> Truth:
    vessel = water.get("volume_vessel")
    if vessel is None:
        return None
    if vessel == "none":
        return True
    connection = vessel.get("connection")
    return None if connection is None else connection in ("in series, flow", "in series, return")


def way_when_shut(job: Job) -> str:
    water = job.get("water", {})
    on_pump = _emitters_on_the_unit_pump(water)
    emitters, bypass, open_zones = (water.get(one) for one in ("emitter", "bypass", "open_zones"))
    by_passed = None if bypass is None else bypass != "none"
    if on_pump is False or open_zones or by_passed:
        return MET
    shut = [None] if emitters is None else [emitter.get("shut_by") for emitter in emitters]
    if "nothing" in shut:
        return MET
    unknown = on_pump is None or open_zones is None or by_passed is None or None in shut
    return UNDECIDED if unknown else BREACHED


def _pump_in_unit(stated: Job) -> Truth:
    pump, curve = stated.get("pump"), stated.get("pump_head")
    if pump is not None:
        return bool(pump == "built in")
    return None if curve is None else len(curve) >= 1


def pump_there(job: Job) -> str:
    inside = _pump_in_unit(job.get("unit", {}).get("water", {}))
    added = job.get("water", {}).get("external_pump")
    if inside or (added is not None and added != "none"):
        return MET
    return UNDECIDED if inside is None or added is None else BREACHED


def _head(curve: list[Job] | None, least_flow: float | None) -> float | None:
    """Read a pump curve at the least flow, or at its lowest point above."""
    if not curve or least_flow is None:
        return None
    if any("flow" not in point or "head" not in point for point in curve):
        return None
    points: list[tuple[float, float]] = sorted((point["flow"], point["head"]) for point in curve)
    if len({flow for flow, _ in points}) < len(points):
        return None
    at = max(least_flow, points[0][0])
    for (low, first), (high, last) in pairwise(points):
        if at <= high * (1 + 1e-9):
            return first + (last - first) * min(1.0, (at - low) / (high - low))
    return points[0][1] if len(points) == 1 and at <= points[0][0] * (1 + 1e-9) else None


def bypass_opens(job: Job) -> str:
    water, stated = job.get("water", {}), job.get("unit", {}).get("water", {})
    bypass = water.get("bypass")
    if bypass == "none":
        return NOT_APPLICABLE
    kind = None if bypass is None else bypass.get("kind")
    if kind != "automatic":
        return UNDECIDED if kind is None else NOT_APPLICABLE
    inside, added = _pump_in_unit(stated), water.get("external_pump")
    if inside is None:
        return UNDECIDED
    own = _head(stated.get("pump_head"), stated.get("minimum_flow")) if inside else 0.0
    helps = True if not inside else _emitters_on_the_unit_pump(water)
    if added == "none" or helps is False:
        help_head: float | None = 0.0
    else:
        help_head = added.get("head") if added is not None and helps else None
    if own is None or help_head is None:
        return UNDECIDED
    return at_most(bypass.get("opens_at"), own + help_head)


def filling_suits_unit(job: Job) -> str:
    pressure = job.get("water", {}).get("filling", {}).get("pressure")
    return at_least(pressure, job.get("unit", {}).get("water", {}).get("lowest_pressure"))


def measured_hot_pressure(job: Job) -> str:
    own, relief = job.get("unit", {}).get("water", {}).get("relief_valve"), None
    fitted = job.get("water", {}).get("relief")
    if fitted is not None and fitted != "none":
        relief = fitted.get("set_pressure")
    if own is not None:
        relief = own if relief is None else min(own, relief)
    if relief is None:
        return UNDECIDED
    final = relief - 50_000.0 if reaches(500_000.0, relief) else 0.9 * relief
    return at_most(job.get("readings", {}).get("water", {}).get("hot_pressure"), final)


def measured_precharge(job: Job) -> str:
    vessel = job.get("water", {}).get("expansion_vessel")
    if vessel is None or vessel == "none":
        return UNDECIDED if vessel is None else NOT_APPLICABLE
    read = job.get("readings", {}).get("water", {}).get("precharge")
    stated = vessel.get("precharge")
    return at_most(None if read is None or stated is None else abs(read - stated), 10_000.0)


def discharge_size(job: Job) -> str:
    relief = job.get("water", {}).get("relief")
    if relief is None or relief == "none":
        return UNDECIDED if relief is None else NOT_APPLICABLE
    outlet = relief.get("outlet")
    if outlet is None or outlet == "none":
        return UNDECIDED if outlet is None else NOT_APPLICABLE
    diameter = outlet.get("pipe", {}).get("outside_diameter")
    return at_least(diameter, RELIEF_DISCHARGE.get(relief.get("bore")))


def discharge_safe(job: Job) -> str:
    relief = job.get("water", {}).get("relief")
    if relief is None or relief == "none":
        return UNDECIDED if relief is None else NOT_APPLICABLE
    outlet = relief.get("outlet")
    if outlet is None or outlet == "none":
        return UNDECIDED if outlet is None else BREACHED
    to, safe = outlet.get("to"), outlet.get("safe")
    if to == "nowhere" or safe is False:
        return BREACHED
    return UNDECIDED if to is None or safe is None else MET


def filling_backflow(job: Job) -> str:
    water = job.get("water", {})
    protection = water.get("filling", {}).get("backflow_protection")
    category = BACKFLOW_CATEGORIES.get(protection)
    if category is None:
        return UNDECIDED
    if category != 3:
        return MET if category > 3 else BREACHED
    fluid = water.get("fluid")
    return of(None if fluid is None else fluid != "ethylene glycol")


def flushed(job: Job) -> str:
    return of(job.get("water", {}).get("filling", {}).get("flushed"))


RULES = {
    "defrost-water/measured-flow": measured_defrost_flow,
    "filters-and-valves/filter-isolable": filter_isolable,
    "filters-and-valves/air-separator": air_separator,
    "filters-and-valves/check-valves-with-second-source": check_valves_with_second_source,
    "filters-and-valves/priority-valve-run-by-unit": priority_valve_run_by_unit,
    "flow-and-head/cooling-flow": cooling_flow,
    "flow-and-head/way-when-shut": way_when_shut,
    "flow-and-head/pump-there": pump_there,
    "flow-and-head/bypass-opens": bypass_opens,
    "pressure-and-expansion/filling-suits-unit": filling_suits_unit,
    "pressure-and-expansion/measured-hot-pressure": measured_hot_pressure,
    "pressure-and-expansion/measured-precharge": measured_precharge,
    "pressure-and-expansion/discharge-size": discharge_size,
    "pressure-and-expansion/discharge-safe": discharge_safe,
    "pressure-and-expansion/filling-backflow": filling_backflow,
    "water-quality/flushed": flushed,
}
