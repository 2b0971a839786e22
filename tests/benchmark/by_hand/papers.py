"""Papers and service: what is on file, handed over and agreed."""

from __future__ import annotations

from by_hand.surroundings import YEAR
from by_hand.verdict import NOT_APPLICABLE, UNDECIDED, Job, at_least, either, of, reaches


def commissioning_on_file(job: Job) -> str:
    record = job.get("documents", {}).get("commissioning_record")
    return of(None if record is None else record != "none")


def handed_over_after_commissioning(job: Job) -> str:
    documents = job.get("documents", {})
    handover, record = documents.get("handover"), documents.get("commissioning_record")
    if handover == "none" or record == "none":
        return NOT_APPLICABLE
    if handover is None or record is None:
        return UNDECIDED
    return at_least(handover.get("date"), record.get("date"))


def service_arranged(job: Job) -> str:
    maintenance = job.get("maintenance", {})
    often = reaches(YEAR, maintenance.get("service_interval"))
    return either(maintenance.get("contract"), often)


def stays_upright(job: Job) -> str:
    tilt = job.get("unit", {}).get("placing", {}).get("tilt_allowed")
    return either(job.get("handling", {}).get("upright"), tilt)


RULES = {
    "handover/commissioning-on-file": commissioning_on_file,
    "handover/handed-over-after-commissioning": handed_over_after_commissioning,
    "handover/service-arranged": service_arranged,
    "handling/stays-upright": stays_upright,
}
