"""Where the unit stands: air around it, its base, snow, wind and salt."""

from __future__ import annotations

from by_hand.verdict import (
    BREACHED,
    MET,
    NOT_APPLICABLE,
    UNDECIDED,
    Job,
    Verdict,
    at_least,
    at_most,
    each,
    either,
    of,
    reaches,
)


def not_in_a_pit(job: Job) -> str:
    enclosed = job.get("placement", {}).get("enclosed")
    return of(None if enclosed is None else enclosed != "pit")


def air_into_the_housing(job: Job) -> str:
    placement = job.get("placement", {})
    enclosed = placement.get("enclosed")
    if enclosed != "louvred housing":
        return UNDECIDED if enclosed is None else NOT_APPLICABLE
    flow, area = job.get("unit", {}).get("air_flow"), placement.get("free_area")
    return at_most(None if flow is None or not area else flow / area, 2.0)


def space_beside_a_unit(job: Job) -> Verdict:
    wanted = job.get("unit", {}).get("clearance", {}).get("beside_unit")

    def judge(other: Job) -> str:
        side = other.get("side")
        if side not in ("left", "right"):
            return UNDECIDED if side is None else NOT_APPLICABLE
        return at_least(other.get("distance"), wanted)

    return each(job.get("placement", {}).get("other_units"), judge)


def usual_space_to_blow_at_a_unit(job: Job) -> Verdict:
    others = job.get("placement", {}).get("other_units")
    stated = job.get("unit", {}).get("clearance", {}).get("facing_unit") is not None
    if stated and others is None:
        return NOT_APPLICABLE

    def judge(other: Job) -> str:
        side, blows = other.get("side"), other.get("blows")
        if stated or side not in (None, "front") or blows not in (None, "the same way", "away"):
            return NOT_APPLICABLE
        if side is None or blows is None:
            return UNDECIDED
        return at_least(other.get("distance"), 3.0)

    return each(others, judge)


def clear_on_each_side(job: Job) -> Verdict:
    placement = job.get("placement", {})
    here, asked = placement.get("clearance", {}), job.get("unit", {}).get("clearance", {})

    def judge(side: Job) -> str:
        name = side.get("name")
        return UNDECIDED if name is None else at_least(here.get(name), asked.get(name))

    return each(placement.get("side"), judge)


def clear_above(job: Job) -> str:
    clearance = job.get("placement", {}).get("clearance", {})
    top = clearance.get("top")
    if top is None:
        return MET if clearance.get("open_above") else UNDECIDED
    return at_least(top, job.get("unit", {}).get("clearance", {}).get("top"))


def clear_below(job: Job) -> str:
    height = job.get("placement", {}).get("height_below")
    if height is None:
        return UNDECIDED
    if at_least(height, 0.15) == BREACHED:
        return BREACHED
    return at_least(height, job.get("unit", {}).get("clearance", {}).get("below"))


def above_snow(job: Job) -> str:
    site = job.get("site", {})
    depth = site.get("snow_depth")
    if depth is None:
        load, density = site.get("ground_snow_load"), site.get("snow_density", 200.0)
        if load is None or not density:
            return UNDECIDED
        depth = load / (density * 9.81)
    return at_least(job.get("placement", {}).get("height_below"), depth + 0.1)


def firm_base(job: Job) -> str:
    kind = job.get("placement", {}).get("base", {}).get("kind")
    return of(None if kind is None else kind != "soil")


def base_bears(job: Job) -> str:
    base = job.get("placement", {}).get("base", {})
    bears = base.get("bears")
    if bears is not None:
        return at_least(bears, job.get("unit", {}).get("mass"))
    kind = base.get("kind")
    if kind in (None, "wall bracket", "roof frame", "timber deck", "screw foundation"):
        return UNDECIDED
    return NOT_APPLICABLE


def feet_count(job: Job) -> str:
    placement = job.get("placement", {})
    asked, on = job.get("unit", {}).get("placing", {}).get("feet"), placement.get("on")
    if asked == "none" or on == "wall":
        return NOT_APPLICABLE
    feet = placement.get("feet")
    if asked is None or on is None or feet is None:
        return UNDECIDED
    return BREACHED if feet == "none" else at_least(feet.get("count"), asked.get("count"))


def guarded_from_vehicles(job: Job) -> str:
    placement = job.get("placement", {})
    near = placement.get("vehicles_near")
    if not near:
        return UNDECIDED if near is None else NOT_APPLICABLE
    guarded = placement.get("guarded_against")
    return of(None if guarded is None else "vehicles" in guarded)


def leaves_kept_out(job: Job) -> str:
    placement = job.get("placement", {})
    around = placement.get("around", {})
    sides = around.get("back"), around.get("left"), around.get("right")
    if "hedge" not in sides:
        return UNDECIDED if None in sides else NOT_APPLICABLE
    guarded = placement.get("guarded_against")
    cleared = job.get("maintenance", {}).get("leaf_clearing")
    return either(cleared, None if guarded is None else "leaves" in guarded)


def no_window_above(job: Job) -> Verdict:
    def judge(opening: Job) -> str:
        kind = opening.get("kind")
        if kind not in ("window", "vent"):
            return UNDECIDED if kind is None else NOT_APPLICABLE
        above = opening.get("above_unit")
        return either(None if above is None else not above, opening.get("sealed"))

    return each(job.get("placement", {}).get("openings"), judge)


def not_into_corner(job: Job) -> str:
    towards = job.get("placement", {}).get("discharge", {}).get("towards")
    return of(None if towards is None else towards != "corner")


def off_paths(job: Job) -> str:
    discharge = job.get("placement", {}).get("discharge", {})
    distance = discharge.get("distance_to_path")
    if distance is None:
        return UNDECIDED if discharge.get("towards") in (None, "path") else MET
    return at_least(distance, 3.0)


def wind_does_not_overturn(job: Job) -> str:
    placement, unit = job.get("placement", {}), job.get("unit", {})
    on = placement.get("on")
    if on != "ground":
        return UNDECIDED if on is None else NOT_APPLICABLE
    anchored, feet = placement.get("anchored"), placement.get("feet")
    if anchored:
        return MET
    raised = None if feet is None else 0.0 if feet == "none" else feet.get("height")
    size, speed = unit.get("size", {}), job.get("site", {}).get("design_wind_speed")
    width, depth, height = size.get("width"), size.get("depth"), size.get("height")
    mass = unit.get("mass")
    if None in (raised, speed, width, depth, height, mass):
        return UNDECIDED
    force = 1.5 * (1.25 / 2 * speed**2) * width * height
    righting = 0.9 * mass * 9.81 * depth / 2
    return either(anchored, reaches(righting, 1.5 * force * (height / 2 + raised)))


RULES = {
    "air-recirculation/not-in-a-pit": not_in_a_pit,
    "air-recirculation/air-into-the-housing": air_into_the_housing,
    "air-recirculation/space-beside-a-unit": space_beside_a_unit,
    "air-recirculation/usual-space-to-blow-at-a-unit": usual_space_to_blow_at_a_unit,
    "clearances/sides": clear_on_each_side,
    "clearances/top": clear_above,
    "clearances/below": clear_below,
    "clearances/above-snow": above_snow,
    "clearances/firm-base": firm_base,
    "clearances/base-bears": base_bears,
    "clearances/feet-count": feet_count,
    "clearances/guarded-from-vehicles": guarded_from_vehicles,
    "clearances/leaves-kept-out": leaves_kept_out,
    "clearances/no-window-above": no_window_above,
    "clearances/not-into-corner": not_into_corner,
    "clearances/off-paths": off_paths,
    "roofs-and-walls/wind-does-not-overturn": wind_does_not_overturn,
}
