"""Thirty rules of the rulebook as somebody would write them in plain Python, over nested dicts.

Numbers are SI; what is not known is not in the dict; a group that is absent is written "none". They
are written for speed as a careful author would: no helper where an expression does.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

Job = dict[str, Any]
Verdict = str | list[str]

MET, BREACHED, UNDECIDED, NOT_APPLICABLE = "met", "breached", "undecided", "not applicable"


def _of(holds: bool | None) -> str:
    return UNDECIDED if holds is None else MET if holds else BREACHED


def _at_least(value: float | None, limit: float | None) -> str:
    if value is None or limit is None:
        return UNDECIDED
    # As close as nine digits is as much: what the rulebook counts as equal.
    return MET if value >= limit or abs(value - limit) <= 1e-9 * abs(limit) else BREACHED


def not_in_a_pit(job: Job) -> str:
    enclosed = job.get("placement", {}).get("enclosed")
    return _of(None if enclosed is None else enclosed != "pit")


def clear_to_the_left(job: Job) -> str:
    left = job.get("placement", {}).get("clearance", {}).get("left")
    return _at_least(left, job.get("unit", {}).get("clearance", {}).get("left"))


def firm_base(job: Job) -> str:
    kind = job.get("placement", {}).get("base", {}).get("kind")
    return _of(None if kind is None else kind != "soil")


def not_into_corner(job: Job) -> str:
    towards = job.get("placement", {}).get("discharge", {}).get("towards")
    return _of(None if towards is None else towards != "corner")


def clear_below(job: Job) -> str:
    height = job.get("placement", {}).get("height_below")
    if height is None:
        return UNDECIDED
    if _at_least(height, 0.15) == BREACHED:
        return BREACHED
    return _at_least(height, job.get("unit", {}).get("clearance", {}).get("below"))


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
    return _of(None if ground is None else ground not in ("clay", "rock", "paved"))


def poured_water_runs_off(job: Job) -> str:
    source = job.get("unit", {}).get("heat_source")
    if source is None:
        return UNDECIDED
    if source != "outdoor air":
        return NOT_APPLICABLE
    return _of(job.get("readings", {}).get("condensate_runs"))


def cylinder_gets_hot(job: Job) -> str:
    hot_water = job.get("hot_water", {})
    cylinder = hot_water.get("cylinder")
    if cylinder is None:
        return UNDECIDED
    if cylinder == "none":
        return NOT_APPLICABLE
    stored = hot_water.get("storage_temperature")
    reached = job.get("readings", {}).get("water", {}).get("hot_water_temperature")
    return _at_least(reached, None if stored is None else stored - 2)


def germ_heating_was_tried(job: Job) -> str:
    hot_water = job.get("hot_water", {})
    cylinder, hygiene = hot_water.get("cylinder"), hot_water.get("hygiene")
    if cylinder == "none" or hygiene == "none":
        return NOT_APPLICABLE
    if cylinder is None or hygiene is None:
        return UNDECIDED
    reached = job.get("readings", {}).get("water", {}).get("germ_run_temperature")
    return _at_least(reached, hygiene.get("temperature"))


def owners_agree(job: Job) -> str:
    kind, others = job.get("building", {}).get("kind"), job.get("site", {}).get("others_own")
    if kind != "flat" and others is not True:
        return UNDECIDED if kind is None or others is None else NOT_APPLICABLE
    consent = job.get("documents", {}).get("owner_consent")
    return _of(None if consent is None else consent != "none")


def contact_drives_no_heater(job: Job) -> str:
    contact = job.get("electricity", {}).get("control_wiring", {}).get("contact")
    if contact is None:
        return UNDECIDED
    if contact == "none":
        return NOT_APPLICABLE
    switches = contact.get("switches")
    return _of(None if switches is None else switches != "heater")


def control_conductor(job: Job) -> str:
    wiring = job.get("electricity", {}).get("control_wiring", {})
    asked = job.get("unit", {}).get("electricity", {}).get("control_cable", {})
    return _at_least(wiring.get("conductor"), asked.get("conductor"))


def screen_as_asked(job: Job) -> str:
    asked = job.get("unit", {}).get("electricity", {}).get("control_cable", {}).get("screened")
    if not asked:
        return UNDECIDED if asked is None else NOT_APPLICABLE
    return _of(job.get("electricity", {}).get("control_wiring", {}).get("screened"))


def curve_reaches_the_design(job: Job) -> str:
    curve = job.get("controls", {}).get("weather_compensation")
    if curve is None:
        return UNDECIDED
    if curve == "none":
        return NOT_APPLICABLE
    return _at_least(curve.get("highest_flow"), job.get("water", {}).get("flow_temperature"))


def filter_isolable(job: Job) -> str:
    strainer = job.get("water", {}).get("filter")
    if strainer is None:
        return UNDECIDED
    return NOT_APPLICABLE if strainer == "none" else _of(strainer.get("isolable"))


def priority_valve_run_by_unit(job: Job) -> str:
    valve = job.get("hot_water", {}).get("priority_valve")
    if valve is None:
        return UNDECIDED
    return NOT_APPLICABLE if valve == "none" else _of(valve.get("run_by_unit"))


def cooling_flow(job: Job) -> str:
    water = job.get("water", {})
    cools = water.get("cools")
    if not cools:
        return UNDECIDED if cools is None else NOT_APPLICABLE
    wanted = job.get("unit", {}).get("water", {}).get("minimum_flow")
    return _at_least(water.get("flow", {}).get("cooling"), wanted)


def heavy_side_told(job: Job) -> str:
    centre = job.get("unit", {}).get("placing", {}).get("centre_of_mass")
    if centre is None:
        return UNDECIDED
    if centre == "middle":
        return NOT_APPLICABLE
    return _of(job.get("handling", {}).get("heavy_side_told"))


def commissioning_on_file(job: Job) -> str:
    record = job.get("documents", {}).get("commissioning_record")
    return _of(None if record is None else record != "none")


def loss_reckoned(job: Job) -> str:
    method = job.get("building", {}).get("heat_loss_method")
    return _of(None if method is None else method in ("room by room", "whole building"))


def filling_suits_unit(job: Job) -> str:
    pressure = job.get("water", {}).get("filling", {}).get("pressure")
    return _at_least(pressure, job.get("unit", {}).get("water", {}).get("lowest_pressure"))


def board_condition(job: Job) -> str:
    condition = job.get("electricity", {}).get("board_condition")
    return _of(None if condition is None else condition == "sound")


def insulation_resistance(job: Job) -> str:
    read = job.get("readings", {}).get("electricity", {}).get("insulation_resistance")
    return _at_least(read, 1e6)


def flushed(job: Job) -> str:
    return _of(job.get("water", {}).get("filling", {}).get("flushed"))


def _runs(job: Job, judge: Callable[[Job], str]) -> Verdict:
    runs = job.get("water", {}).get("run")
    if runs is None:
        return UNDECIDED
    return [judge(run) for run in runs] or NOT_APPLICABLE


def pipes_held(job: Job) -> Verdict:
    def judge(run: Job) -> str:
        place = run.get("place")
        if place is None:
            return UNDECIDED
        return _of(run.get("supported")) if place == "outdoors" else NOT_APPLICABLE

    return _runs(job, judge)


def wall_sealed(job: Job) -> Verdict:
    def judge(run: Job) -> str:
        place = run.get("place")
        if place is None:
            return UNDECIDED
        if place not in ("outdoors", "underground"):
            return NOT_APPLICABLE
        return _of(run.get("sleeved"))

    return _runs(job, judge)


def _circuits(job: Job, judge: Callable[[Job], str]) -> Verdict:
    circuits = job.get("electricity", {}).get("circuit")
    if circuits is None:
        return UNDECIDED
    return [judge(circuit) for circuit in circuits] or NOT_APPLICABLE


def device_there(job: Job) -> Verdict:
    def judge(circuit: Job) -> str:
        device = circuit.get("device")
        return _of(None if device is None else device != "none")

    return _circuits(job, judge)


def drip_loop(job: Job) -> Verdict:
    def judge(circuit: Job) -> str:
        cable = circuit.get("cable", {})
        outdoors = cable.get("outdoors")
        if not outdoors:
            return UNDECIDED if outdoors is None else NOT_APPLICABLE
        return _of(cable.get("drip_loop"))

    return _circuits(job, judge)


def not_on_the_pipe(job: Job) -> Verdict:
    def judge(circuit: Job) -> str:
        on_pipe = circuit.get("cable", {}).get("on_pipe")
        return _of(None if on_pipe is None else not on_pipe)

    return _circuits(job, judge)


def conductor_as_asked(job: Job) -> Verdict:
    asked = job.get("unit", {}).get("electricity", {}).get("conductor")

    def judge(circuit: Job) -> str:
        serves = circuit.get("serves")
        if serves is None:
            return UNDECIDED
        if "outdoor unit" not in serves:
            return NOT_APPLICABLE
        return _at_least(circuit.get("cable", {}).get("conductor"), asked)

    return _circuits(job, judge)


BY_HAND: dict[str, Callable[[Job], Verdict]] = {
    "air-recirculation/not-in-a-pit": not_in_a_pit,
    "clearances/left": clear_to_the_left,
    "clearances/firm-base": firm_base,
    "clearances/not-into-corner": not_into_corner,
    "clearances/below": clear_below,
    "coil-condensate/ground-takes-the-water": ground_takes_the_water,
    "coil-condensate/poured-water-runs-off": poured_water_runs_off,
    "commissioning/cylinder-gets-hot": cylinder_gets_hot,
    "commissioning/germ-heating-was-tried": germ_heating_was_tried,
    "consent/owners-agree": owners_agree,
    "control-wiring/contact-drives-no-heater": contact_drives_no_heater,
    "control-wiring/control-conductor": control_conductor,
    "control-wiring/screen-as-asked": screen_as_asked,
    "controls/curve-reaches-the-design": curve_reaches_the_design,
    "filters-and-valves/filter-isolable": filter_isolable,
    "filters-and-valves/priority-valve-run-by-unit": priority_valve_run_by_unit,
    "flow-and-head/cooling-flow": cooling_flow,
    "handling/heavy-side-told": heavy_side_told,
    "handover/commissioning-on-file": commissioning_on_file,
    "heat-output/loss-reckoned": loss_reckoned,
    "pressure-and-expansion/filling-suits-unit": filling_suits_unit,
    "supply-capacity/board-condition": board_condition,
    "test-schedule/insulation-resistance": insulation_resistance,
    "water-quality/flushed": flushed,
    "outdoor-pipework/held": pipes_held,
    "outdoor-pipework/wall-sealed": wall_sealed,
    "protection/device-there": device_there,
    "outdoor-cables/drip-loop": drip_loop,
    "outdoor-cables/not-on-the-pipe": not_on_the_pipe,
    "cable-sizing/conductor-as-asked": conductor_as_asked,
}
