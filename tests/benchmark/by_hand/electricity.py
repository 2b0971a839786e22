"""Electricity: circuits, cables, devices and control wiring."""

from __future__ import annotations

from by_hand.tables import (
    DISCONNECTION_TIMES,
    FLEXIBLE_COPPER,
    HOLDS_MULTIPLES,
    VOLTAGES_TO_NEUTRAL,
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
    either,
    of,
    reaches,
)

MAIN_LOADS = ("outdoor unit", "backup heater", "booster heater", "immersion heater")


def feeder_described(job: Job) -> Verdict:
    circuits = job.get("electricity", {}).get("circuit")

    def judge(circuit: Job) -> str:
        feeder, name = circuit.get("fed_from", "origin"), circuit.get("name")
        if feeder == "origin":
            return NOT_APPLICABLE
        names = [one.get("name") for one in circuits or ()]
        if name == feeder or (feeder not in names and None not in names):
            return BREACHED
        return UNDECIDED if name is None or feeder not in names else MET

    return each(circuits, judge)


def least_cross_section(job: Job) -> Verdict:
    def judge(circuit: Job) -> str:
        serves = circuit.get("serves")
        if serves is None or not any(load in serves for load in MAIN_LOADS):
            return UNDECIDED if serves is None else NOT_APPLICABLE
        return at_least(circuit.get("cable", {}).get("conductor"), 1.5e-6)

    return each(job.get("electricity", {}).get("circuit"), judge)


def neutral_size(job: Job) -> Verdict:
    electricity = job.get("electricity", {})
    usual = 1.0 if electricity.get("phases") == 1 else None

    def judge(circuit: Job) -> str:
        cable = circuit.get("cable", {})
        neutral, phases = cable.get("neutral"), circuit.get("phases", usual)
        if neutral is None:
            return NOT_APPLICABLE
        large = reaches(neutral, 16e-6)
        if phases != 3:
            large = None if large and phases is None else False
        return either(reaches(neutral, cable.get("conductor")), large)

    return each(electricity.get("circuit"), judge)


def conductor_as_asked(job: Job) -> Verdict:
    asked = job.get("unit", {}).get("electricity", {}).get("conductor")

    def judge(circuit: Job) -> str:
        serves = circuit.get("serves")
        if serves is None:
            return UNDECIDED
        if "outdoor unit" not in serves:
            return NOT_APPLICABLE
        return at_least(circuit.get("cable", {}).get("conductor"), asked)

    return each(job.get("electricity", {}).get("circuit"), judge)


def isolator_within_reach(job: Job) -> Verdict:
    def judge(circuit: Job) -> str:
        serves, isolator = circuit.get("serves"), circuit.get("isolator")
        loads = None if serves is None else any(load in serves for load in MAIN_LOADS)
        if loads is False or isolator == "none":
            return NOT_APPLICABLE
        if loads is None or isolator is None:
            return UNDECIDED
        return of(isolator.get("reachable"))

    return each(job.get("electricity", {}).get("circuit"), judge)


def notice_of_supplies(job: Job) -> str:
    electricity = job.get("electricity", {})
    contactor = job.get("unit", {}).get("electricity", {}).get("booster_contactor")
    circuits = electricity.get("circuit")
    if circuits is None:
        return UNDECIDED
    supplies = 0
    for circuit in circuits:
        serves = circuit.get("serves")
        if serves is None:
            return UNDECIDED
        if "outdoor unit" in serves or "backup heater" in serves:
            supplies += 1
        elif "booster heater" in serves:
            if contactor is None:
                return UNDECIDED
            supplies += contactor == "in the unit"
    return of(electricity.get("supplies_notice")) if supplies >= 2 else NOT_APPLICABLE


def device_there(job: Job) -> Verdict:
    def judge(circuit: Job) -> str:
        device = circuit.get("device")
        return of(None if device is None else device != "none")

    return each(job.get("electricity", {}).get("circuit"), judge)


def starting_current(job: Job) -> Verdict:
    unit, circuits = job.get("unit", {}), job.get("electricity", {}).get("circuit")
    stated = unit.get("electricity", {})
    asked, current = stated.get("device_type"), stated.get("starting_current")
    if asked is not None and circuits is None:
        return NOT_APPLICABLE

    def judge(circuit: Job) -> str:
        serves, device = circuit.get("serves"), circuit.get("device")
        if asked is not None or device == "none":
            return NOT_APPLICABLE
        if serves is not None and "outdoor unit" not in serves:
            return NOT_APPLICABLE
        kind = None if device is None else device.get("type")
        if kind not in (None, "B", "C", "D"):
            return NOT_APPLICABLE
        rating = None if device is None else device.get("rating")
        if serves is None or kind is None or rating is None:
            return UNDECIDED
        return at_most(current, HOLDS_MULTIPLES[kind] * rating)

    return each(circuits, judge)


def _voltage_to_neutral(electricity: Job) -> float | None:
    phases, voltage = electricity.get("phases"), electricity.get("voltage", 230.0)
    to_neutral = VOLTAGES_TO_NEUTRAL.get(voltage)
    if phases is None:
        return voltage if voltage == to_neutral else None
    return voltage if phases == 1 else to_neutral


def _times(electricity: Job) -> tuple[float, float] | None:
    """Return how long a small and another circuit may take to go off."""
    voltage = _voltage_to_neutral(electricity)
    if voltage is None:
        return None
    rows = DISCONNECTION_TIMES.get(electricity.get("earthing"), ())
    return next((times for limit, times in rows if voltage <= limit * (1 + 1e-9)), None)


def designed_time(job: Job) -> Verdict:
    electricity = job.get("electricity", {})
    times = _times(electricity)

    def judge(circuit: Job) -> str:
        device, time = circuit.get("device"), circuit.get("disconnection_time")
        if device == "none" or time is None:
            return NOT_APPLICABLE
        if device is None or times is None:
            return UNDECIDED
        rating, sockets = device.get("rating"), circuit.get("sockets")
        small: Truth = None
        if rating is None:
            small = None
        elif reaches(32.0, rating):
            small = True
        else:
            small = sockets if reaches(63.0, rating) else False
        if small is not None:
            return at_most(time, times[0] if small else times[1])
        return at_most(time, times[0]) if times[0] == times[1] else UNDECIDED

    return each(electricity.get("circuit"), judge)


def measured_trip_current(job: Job) -> Verdict:
    current = job.get("readings", {}).get("electricity", {}).get("trip_current")

    def judge(circuit: Job) -> str:
        serves, device = circuit.get("serves"), circuit.get("residual_current")
        if device == "none" or (serves is not None and "outdoor unit" not in serves):
            return NOT_APPLICABLE
        sensitivity = None if device is None else device.get("sensitivity")
        if serves is None or sensitivity is None or current is None:
            return UNDECIDED
        if reaches(0.5 * sensitivity, current):
            return BREACHED
        return at_most(current, sensitivity)

    return each(job.get("electricity", {}).get("circuit"), judge)


def drip_loop(job: Job) -> Verdict:
    def judge(circuit: Job) -> str:
        cable = circuit.get("cable", {})
        outdoors = cable.get("outdoors")
        if not outdoors:
            return UNDECIDED if outdoors is None else NOT_APPLICABLE
        return of(cable.get("drip_loop"))

    return each(job.get("electricity", {}).get("circuit"), judge)


def not_on_the_pipe(job: Job) -> Verdict:
    def judge(circuit: Job) -> str:
        on_pipe = circuit.get("cable", {}).get("on_pipe")
        return of(None if on_pipe is None else not on_pipe)

    return each(job.get("electricity", {}).get("circuit"), judge)


def no_twin_and_earth_outdoors(job: Job) -> Verdict:
    def judge(circuit: Job) -> str:
        cable = circuit.get("cable", {})
        outdoors, buried = cable.get("outdoors"), cable.get("buried")
        if not outdoors and not buried:
            return UNDECIDED if outdoors is None or buried is None else NOT_APPLICABLE
        form, conduit = cable.get("form"), cable.get("in_conduit")
        if form not in (None, "twin and earth"):
            return MET
        if conduit and buried is False:
            return MET
        if form is None or (conduit is not False and not buried):
            return UNDECIDED
        return BREACHED

    return each(job.get("electricity", {}).get("circuit"), judge)


def contact_drives_no_heater(job: Job) -> str:
    contact = job.get("electricity", {}).get("control_wiring", {}).get("contact")
    if contact is None:
        return UNDECIDED
    if contact == "none":
        return NOT_APPLICABLE
    switches = contact.get("switches")
    return of(None if switches is None else switches != "heater")


def control_conductor(job: Job) -> str:
    wiring = job.get("electricity", {}).get("control_wiring", {})
    asked = job.get("unit", {}).get("electricity", {}).get("control_cable", {})
    return at_least(wiring.get("conductor"), asked.get("conductor"))


def control_voltage(job: Job) -> str:
    wiring = job.get("electricity", {}).get("control_wiring", {})
    voltage, current, section = (wiring.get(one) for one in ("voltage", "current", "conductor"))
    if voltage is None or not current or section is None:
        return UNDECIDED
    resistance = FLEXIBLE_COPPER.get(round(section * 1e6, 6))
    if resistance is None:
        return UNDECIDED
    return at_most(wiring.get("length"), 0.05 * voltage / (2 * resistance * current))


def room_controller_height(job: Job) -> str:
    controller = job.get("controls", {}).get("room_controller")
    if controller is None or controller == "none":
        return UNDECIDED if controller is None else NOT_APPLICABLE
    height = controller.get("height")
    return BREACHED if reaches(height, 1.2) is False else at_most(height, 1.6)


def screen_as_asked(job: Job) -> str:
    asked = job.get("unit", {}).get("electricity", {}).get("control_cable", {}).get("screened")
    if not asked:
        return UNDECIDED if asked is None else NOT_APPLICABLE
    return of(job.get("electricity", {}).get("control_wiring", {}).get("screened"))


def screen_earthed_once(job: Job) -> str:
    wiring = job.get("electricity", {}).get("control_wiring", {})
    asked = job.get("unit", {}).get("electricity", {}).get("control_cable", {})
    screened, earthed = wiring.get("screened"), wiring.get("screen_earthed")
    if not screened:
        return UNDECIDED if screened is None else NOT_APPLICABLE
    return of(None if earthed is None else earthed == asked.get("screen_earthed", "one end"))


def board_condition(job: Job) -> str:
    condition = job.get("electricity", {}).get("board_condition")
    return of(None if condition is None else condition == "sound")


def insulation_resistance(job: Job) -> str:
    read = job.get("readings", {}).get("electricity", {}).get("insulation_resistance")
    return at_least(read, 1e6)


RULES = {
    "cable-sizing/feeder-described": feeder_described,
    "cable-sizing/least-cross-section": least_cross_section,
    "cable-sizing/neutral-size": neutral_size,
    "cable-sizing/conductor-as-asked": conductor_as_asked,
    "isolation/isolator-within-reach": isolator_within_reach,
    "isolation/notice-of-supplies": notice_of_supplies,
    "protection/device-there": device_there,
    "protection/starting-current": starting_current,
    "protection/designed-time": designed_time,
    "residual-current/measured-trip-current": measured_trip_current,
    "outdoor-cables/drip-loop": drip_loop,
    "outdoor-cables/not-on-the-pipe": not_on_the_pipe,
    "outdoor-cables/no-twin-and-earth-outdoors": no_twin_and_earth_outdoors,
    "control-wiring/contact-drives-no-heater": contact_drives_no_heater,
    "control-wiring/control-conductor": control_conductor,
    "control-wiring/control-voltage": control_voltage,
    "control-wiring/room-controller-height": room_controller_height,
    "control-wiring/screen-as-asked": screen_as_asked,
    "control-wiring/screen-earthed-once": screen_earthed_once,
    "supply-capacity/board-condition": board_condition,
    "test-schedule/insulation-resistance": insulation_resistance,
}
