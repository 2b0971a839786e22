"""Heat and hot water: emitters, curve, rooms, a second source and the cylinder."""

from __future__ import annotations

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
    either,
    of,
    reaches,
    some,
)


def curve_reaches_the_design(job: Job) -> str:
    curve = job.get("controls", {}).get("weather_compensation")
    if curve is None:
        return UNDECIDED
    if curve == "none":
        return NOT_APPLICABLE
    return at_least(curve.get("highest_flow"), job.get("water", {}).get("flow_temperature"))


def _mixed_down(name: str | None, fittings: list[Job] | None) -> Truth:
    def mixes(fitting: Job) -> Truth:
        kind, feeds = fitting.get("kind"), fitting.get("feeds")
        if kind not in (None, "mixing valve"):
            return False
        if feeds is not None and name is not None and name not in feeds:
            return False
        return None if kind is None or (feeds is not None and name is None) else True

    return None if fittings is None else some(map(mixes, fittings))


def curve_bearable_for_floors(job: Job) -> Verdict:
    water, curve = job.get("water", {}), job.get("controls", {}).get("weather_compensation")
    emitters, fittings = water.get("emitter"), water.get("fittings")
    if curve == "none" and emitters is None:
        return NOT_APPLICABLE

    def judge(emitter: Job) -> str:
        kind = emitter.get("kind")
        if curve == "none" or kind not in (None, "heated floor", "heated wall"):
            return NOT_APPLICABLE
        if curve is None or kind is None:
            return UNDECIDED
        bears = reaches(emitter.get("highest_temperature"), curve.get("highest_flow"))
        return MET if bears else either(bears, _mixed_down(emitter.get("name"), fittings))

    return each(emitters, judge)


def floor_limiter(job: Job) -> str:
    water, controls, unit = job.get("water", {}), job.get("controls", {}), job.get("unit", {})
    emitters = water.get("emitter")
    kinds = [None] if emitters is None else [emitter.get("kind") for emitter in emitters]
    if "heated floor" not in kinds:
        return UNDECIDED if None in kinds else NOT_APPLICABLE
    if controls.get("floor_limiter"):
        return MET
    highest, source = water.get("highest_temperature"), controls.get("second_heat_source")
    if highest is None and source is not None:
        connection = None if source == "none" else source.get("connection", "in series")
        if connection not in ("in series", "in parallel"):
            highest = unit.get("highest_flow_temperature")
    bears: Truth = True
    for emitter in emitters:
        if emitter.get("kind") in (None, "heated floor"):
            one = reaches(emitter.get("highest_temperature"), highest)
            if one is False and emitter.get("kind"):
                bears = False
                break
            bears = bears if one else None
    return either(controls.get("floor_limiter"), bears)


def heater_locked_in_mild_weather(job: Job) -> str:
    heater = job.get("unit", {}).get("electricity", {}).get("backup_heater")
    if heater == "none":
        return NOT_APPLICABLE
    fitted = None if heater is None else heater.get("fitted")
    if not fitted:
        return UNDECIDED if fitted is None else NOT_APPLICABLE
    return at_most(job.get("controls", {}).get("heater_locked_above"), 278.15)


def floor_not_too_warm(job: Job) -> Verdict:
    def judge(emitter: Job) -> str:
        kind = emitter.get("kind")
        if kind != "heated floor":
            return UNDECIDED if kind is None else NOT_APPLICABLE
        output, area = emitter.get("output"), emitter.get("area")
        if output is None or not area:
            return UNDECIDED
        return at_most((output / area / 8.92) ** (1 / 1.1), 9.0)

    return each(job.get("water", {}).get("emitter"), judge)


def loops_not_too_long(job: Job) -> Verdict:
    def judge(emitter: Job) -> str:
        kind, loops = emitter.get("kind"), emitter.get("loops", {})
        if kind not in ("heated floor", "heated wall"):
            return UNDECIDED if kind is None else NOT_APPLICABLE
        wide = reaches(loops.get("pipe", {}).get("outside_diameter"), 0.020)
        longest = loops.get("longest")
        if wide is not None:
            return at_most(longest, 120.0 if wide else 100.0)
        short, long = at_most(longest, 100.0), at_most(longest, 120.0)
        return short if short == long else UNDECIDED

    return each(job.get("water", {}).get("emitter"), judge)


def _room_temperature(building: Job, name: str | None) -> float | None:
    """Return the temperature of a room, or that of the building where it is not listed."""
    rooms = building.get("rooms")
    if rooms is not None and name is not None:
        names = [room.get("name") for room in rooms]
        if None in names:
            return None
        if name in names:
            temperatures = [room.get("temperature") for room in rooms if room["name"] == name]
            return None if None in temperatures else max(temperatures)
    return building.get("indoor_temperature")


def water_warmer_than_the_room(job: Job) -> Verdict:
    water, building = job.get("water", {}), job.get("building", {})
    flow, drop = water.get("flow_temperature"), water.get("temperature_difference")

    def judge(emitter: Job) -> str:
        room = _room_temperature(building, emitter.get("room"))
        if flow is None or drop is None or room is None:
            return UNDECIDED
        highest = emitter.get("highest_temperature", flow)
        return BREACHED if reaches(room, min(highest, flow) - drop) else MET

    return each(water.get("emitter"), judge)


def loss_reckoned(job: Job) -> str:
    method = job.get("building", {}).get("heat_loss_method")
    return of(None if method is None else method in ("room by room", "whole building"))


def rooms_add_up(job: Job) -> str:
    building = job.get("building", {})
    rooms, stated = building.get("rooms"), building.get("design_heat_loss")
    if rooms is None or stated is None:
        return NOT_APPLICABLE
    losses = [room.get("heat_loss") for room in rooms]
    if None in losses:
        return UNDECIDED
    return at_most(abs(sum(losses) - stated), 0.1 * stated)


def stated_for_the_cold(job: Job) -> str:
    airs = [point.get("air") for point in job.get("unit", {}).get("rating", ())]
    lowest = min(airs) if airs and None not in airs else None
    return at_most(lowest, job.get("site", {}).get("design_air_temperature"))


def flow_within_reach(job: Job) -> str:
    highest = job.get("unit", {}).get("highest_flow_temperature")
    return at_most(job.get("water", {}).get("flow_temperature"), highest)


def comes_in_before_the_unit_stops(job: Job) -> str:
    source = job.get("controls", {}).get("second_heat_source")
    if source is None or source == "none":
        return UNDECIDED if source is None else NOT_APPLICABLE
    kind, connection = source.get("kind"), source.get("connection")
    kinds = (None, "gas boiler", "oil boiler", "electric boiler", "district heat")
    if kind not in kinds or connection not in (None, "in series", "in parallel", "separated"):
        return NOT_APPLICABLE
    if kind is None or connection is None:
        return UNDECIDED
    lowest = job.get("unit", {}).get("lowest_air_temperature")
    coldest = job.get("site", {}).get("coldest_air_temperature")
    return either(reaches(source.get("changes_over_at"), lowest), reaches(coldest, lowest))


def cylinder_gets_hot(job: Job) -> str:
    hot_water = job.get("hot_water", {})
    cylinder = hot_water.get("cylinder")
    if cylinder is None:
        return UNDECIDED
    if cylinder == "none":
        return NOT_APPLICABLE
    stored = hot_water.get("storage_temperature")
    reached = job.get("readings", {}).get("water", {}).get("hot_water_temperature")
    return at_least(reached, None if stored is None else stored - 2)


def germ_heating_was_tried(job: Job) -> str:
    hot_water = job.get("hot_water", {})
    cylinder, hygiene = hot_water.get("cylinder"), hot_water.get("hygiene")
    if cylinder == "none" or hygiene == "none":
        return NOT_APPLICABLE
    if cylinder is None or hygiene is None:
        return UNDECIDED
    reached = job.get("readings", {}).get("water", {}).get("germ_run_temperature")
    return at_least(reached, hygiene.get("temperature"))


def water_cools_as_designed(job: Job) -> str:
    readings, water = job.get("readings", {}), job.get("water", {})
    full = readings.get("at_full_power")
    if not full:
        return UNDECIDED if full is None else NOT_APPLICABLE
    read, drop = readings.get("water", {}), water.get("temperature_difference")
    flow, back = read.get("flow_temperature"), read.get("return_temperature")
    if flow is None or back is None or drop is None:
        return UNDECIDED
    return at_most(abs(flow - back - drop), 2.0)


RULES = {
    "controls/curve-reaches-the-design": curve_reaches_the_design,
    "controls/curve-bearable-for-floors": curve_bearable_for_floors,
    "controls/floor-limiter": floor_limiter,
    "controls/heater-locked-in-mild-weather": heater_locked_in_mild_weather,
    "emitters/floor-not-too-warm": floor_not_too_warm,
    "emitters/loops-not-too-long": loops_not_too_long,
    "emitters/water-warmer-than-the-room": water_warmer_than_the_room,
    "heat-output/loss-reckoned": loss_reckoned,
    "heat-output/rooms-add-up": rooms_add_up,
    "heat-output/stated-for-the-cold": stated_for_the_cold,
    "heat-output/flow-within-reach": flow_within_reach,
    "second-heat-source/comes-in-before-the-unit-stops": comes_in_before_the_unit_stops,
    "commissioning/cylinder-gets-hot": cylinder_gets_hot,
    "commissioning/germ-heating-was-tried": germ_heating_was_tried,
    "commissioning/water-cools-as-designed": water_cools_as_designed,
}
