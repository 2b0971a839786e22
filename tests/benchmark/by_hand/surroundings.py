"""What the place asks: water off the coil, salt in the air, consent, and the way in."""

from __future__ import annotations

from math import sqrt

from by_hand.tables import CHLORIDE_CLASSES, COAST_CORROSIVITY, PIPE_BORES
from by_hand.verdict import (
    BREACHED,
    MET,
    NOT_APPLICABLE,
    UNDECIDED,
    Job,
    Truth,
    at_least,
    at_most,
    either,
    of,
    reaches,
)

YEAR = 31_557_600.0


def _condensate_in_a_pipe(job: Job) -> Truth:
    source = job.get("unit", {}).get("heat_source")
    condensate = job.get("placement", {}).get("condensate", {})
    named = condensate.get("pipe", {}).get("name") is not None
    piped = True if named else condensate.get("piped")
    if source not in (None, "outdoor air") or piped is False:
        return False
    return None if source is None else piped


def outdoor_pipe_heated(job: Job) -> str:
    condensate = job.get("placement", {}).get("condensate", {})
    piped, length = _condensate_in_a_pipe(job), condensate.get("length_outdoors")
    coldest = job.get("site", {}).get("coldest_air_temperature")
    if piped is False or reaches(coldest, 273.15) or reaches(0.0, length):
        return NOT_APPLICABLE
    if piped is None or coldest is None or length is None:
        return UNDECIDED
    return of(condensate.get("heated"))


def condensate_pipe_wide_enough(job: Job) -> str:
    piped = _condensate_in_a_pipe(job)
    if not piped:
        return UNDECIDED if piped is None else NOT_APPLICABLE
    condensate = job.get("placement", {}).get("condensate", {})
    pipe, length = condensate.get("pipe", {}), condensate.get("length_outdoors")
    bore = PIPE_BORES.get((pipe.get("material"), pipe.get("size")))
    if bore is None:
        outside, wall = pipe.get("outside_diameter"), pipe.get("wall")
        bore = None if outside is None or wall is None else outside - 2 * wall
    return at_least(bore, None if length is None else 0.030 if length > 0 else 0.019)


def _led_into_a_soakaway(job: Job) -> Truth:
    source = job.get("unit", {}).get("heat_source")
    to = job.get("placement", {}).get("condensate", {}).get("to")
    if source not in (None, "outdoor air") or to not in (None, "soakaway"):
        return False
    return None if source is None or to is None else True


def soakaway_below_frost(job: Job) -> str:
    led = _led_into_a_soakaway(job)
    if not led:
        return UNDECIDED if led is None else NOT_APPLICABLE
    depth = job.get("placement", {}).get("condensate", {}).get("soakaway_depth")
    if reaches(depth, 0.5) is False:
        return BREACHED
    return at_least(depth, job.get("site", {}).get("frost_depth"))


def ground_takes_the_water(job: Job) -> str:
    source = job.get("unit", {}).get("heat_source")
    if source is not None and source != "outdoor air":
        return NOT_APPLICABLE
    to = job.get("placement", {}).get("condensate", {}).get("to")
    if to is not None and to not in ("soakaway", "ground"):
        return NOT_APPLICABLE
    if source is None or to is None:
        return UNDECIDED
    ground = job.get("site", {}).get("ground")
    return of(None if ground is None else ground not in ("clay", "rock", "paved"))


def poured_water_runs_off(job: Job) -> str:
    source = job.get("unit", {}).get("heat_source")
    if source is None:
        return UNDECIDED
    if source != "outdoor air":
        return NOT_APPLICABLE
    return of(job.get("readings", {}).get("condensate_runs"))


def _next_up(rows: tuple[tuple[float, str], ...], value: float | None) -> str | None:
    if value is None:
        return None
    return next((word for limit, word in rows if value <= limit * (1 + 1e-9)), None)


def _corrosion_category(site: Job) -> str | None:
    stated: str | None = site.get("corrosivity")
    if stated is not None:
        return stated
    deposition = site.get("chloride_deposition")
    if deposition is not None:
        salt = _next_up(CHLORIDE_CLASSES, deposition)
    else:
        rows = COAST_CORROSIVITY.get(site.get("exposure"), ())
        salt = _next_up(rows, site.get("distance_to_coast"))
    if salt in (None, "C4", "C5", "CX"):
        return salt
    pollution = site.get("pollution")
    if pollution is None:
        return None
    dirty = ("industry", "road salt", "stable or slurry", "swimming pool")
    return "C4" if any(one in pollution for one in dirty) else salt


def corrosion_check(job: Job) -> str:
    category = _corrosion_category(job.get("site", {}))
    if category not in ("C4", "C5", "CX"):
        return UNDECIDED if category is None else NOT_APPLICABLE
    return at_most(job.get("maintenance", {}).get("corrosion_check_interval"), YEAR)


def far_enough_from_the_coast(job: Job) -> str:
    distance = job.get("site", {}).get("distance_to_coast")
    near = reaches(5_000.0, distance)
    if not near:
        return UNDECIDED if near is None else NOT_APPLICABLE
    least = job.get("unit", {}).get("placing", {}).get("least_distance_to_coast")
    if job.get("documents", {}).get("place_agreed", "none") != "none":
        return MET
    return at_least(distance, least)


def owners_agree(job: Job) -> str:
    kind, others = job.get("building", {}).get("kind"), job.get("site", {}).get("others_own")
    if kind != "flat" and others is not True:
        return UNDECIDED if kind is None or others is None else NOT_APPLICABLE
    consent = job.get("documents", {}).get("owner_consent")
    return of(None if consent is None else consent != "none")


def english_volume(job: Job) -> str:
    region, nation = job.get("job", {}).get("region"), job.get("site", {}).get("nation")
    if region not in (None, "GB") or nation not in (None, "England"):
        return NOT_APPLICABLE
    if region is None or nation is None:
        return UNDECIDED
    permission = job.get("documents", {}).get("planning_permission")
    size = job.get("unit", {}).get("size", {})
    width, depth, height = size.get("width"), size.get("depth"), size.get("height")
    small: Truth = None
    if width is not None and depth is not None and height is not None:
        kind, volume = job.get("building", {}).get("kind"), width * depth * height
        small = reaches(0.6 if kind == "flat" else 1.5, volume)
        if kind is None and small != reaches(0.6, volume):
            small = None
    return either(small, None if permission is None else permission != "none")


def heavy_side_told(job: Job) -> str:
    centre = job.get("unit", {}).get("placing", {}).get("centre_of_mass")
    if centre is None:
        return UNDECIDED
    if centre == "middle":
        return NOT_APPLICABLE
    return of(job.get("handling", {}).get("heavy_side_told"))


def way_wide_enough(job: Job) -> str:
    handling, size = job.get("handling", {}), job.get("unit", {}).get("size", {})
    gear, width, depth = handling.get("gear"), size.get("width"), size.get("depth")
    least = None if width is None or depth is None else min(width, depth) + 0.1
    wide = reaches(handling.get("route", {}).get("narrowest"), least)
    return either(wide, None if gear is None else "crane" in gear)


def ground_bears_gear(job: Job) -> str:
    handling = job.get("handling", {})
    gear, bears = handling.get("gear"), handling.get("ground_bears")
    if bears is None:
        return NOT_APPLICABLE if gear is not None and "crane" not in gear else UNDECIDED
    mass = handling.get("packed_mass", job.get("unit", {}).get("mass"))
    own, footprint = handling.get("gear_mass"), handling.get("gear_footprint")
    if mass is None or own is None or not footprint:
        return UNDECIDED
    return at_most((mass + own) * 9.81 / footprint, bears)


def held_on_slope(job: Job) -> str:
    handling = job.get("handling", {})
    gear, slope = handling.get("gear"), handling.get("route", {}).get("steepest")
    wheels: Truth = None
    if gear is not None:
        wheels = "crane" not in gear and (
            "trolley" in gear or "stair climber" in gear or "pallet truck" in gear
        )
    if wheels is False or reaches(0.0, slope):
        return NOT_APPLICABLE
    mass = handling.get("packed_mass", job.get("unit", {}).get("mass"))
    people = handling.get("people")
    if wheels is None or slope is None or mass is None or people is None:
        return UNDECIDED
    return at_most(mass * 9.81 * slope / sqrt(1 + slope**2), 200 * min(people, 2))


def not_by_hand_alone(job: Job) -> str:
    handling = job.get("handling", {})
    mass = handling.get("packed_mass", job.get("unit", {}).get("mass"))
    lifted = reaches(0.5 * 3 * 25.0, mass)  # what any three people lift close at the waist
    if lifted is not False:
        return UNDECIDED if lifted is None else NOT_APPLICABLE
    gear = handling.get("gear")
    carries = ("hoist", "crane", "trolley", "stair climber", "pallet truck")
    return of(None if gear is None else any(one in gear for one in carries))


RULES = {
    "coil-condensate/outdoor-pipe-heated": outdoor_pipe_heated,
    "coil-condensate/pipe-wide-enough": condensate_pipe_wide_enough,
    "coil-condensate/soakaway-below-frost": soakaway_below_frost,
    "coil-condensate/ground-takes-the-water": ground_takes_the_water,
    "coil-condensate/poured-water-runs-off": poured_water_runs_off,
    "coastal-corrosion/corrosion-check": corrosion_check,
    "coastal-corrosion/least-distance": far_enough_from_the_coast,
    "consent/owners-agree": owners_agree,
    "consent/english-volume": english_volume,
    "handling/heavy-side-told": heavy_side_told,
    "handling/way-wide-enough": way_wide_enough,
    "handling/ground-bears-gear": ground_bears_gear,
    "handling/held-on-slope": held_on_slope,
    "handling/not-by-hand-alone": not_by_hand_alone,
}
