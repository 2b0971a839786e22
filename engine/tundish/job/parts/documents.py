"""Documents: what was notified, certified and handed over."""

from typing import ClassVar

from tundish.job.model.part import OrNone, Part, Truth, Who, fact
from tundish.job.parts.common import Record


class Documents(Part):
    """Documents; each is a record with its day, or "none"."""

    answered_by: ClassVar[Who] = "installer"
    found_in: ClassVar[str] = "From the job's folder."

    heat_loss_calculation: OrNone[Record] = fact("Is there a heat loss calculation?")
    sound_assessment: OrNone[Record] = fact("Is there a sound assessment?")
    planning_permission: OrNone[Record] = fact("Is there a planning permission?")
    permission_needless: OrNone[Record] = fact(
        "Is there a note or an answer that no planning permission is needed?",
        "A note says by which law, and what of the job was held against it.",
        label="note that no permission is needed",
    )
    building_notice: OrNone[Record] = fact("Was the building authority told?")
    network_notification: OrNone[Record] = fact("Was the distribution company told?")
    network_permission: OrNone[Record] = fact("Did the distribution company agree?")
    owner_consent: OrNone[Record] = fact("Did owner or neighbours agree where they must?")
    electrical_certificate: OrNone[Record] = fact("Is there an electrical certificate?")
    pressure_test: OrNone[Record] = fact("Is there a record of the pressure test?")
    water_record: OrNone[Record] = fact("Is there a record of the water and its treatment?")
    refrigerant_record: OrNone[Record] = fact("Is there a record of the refrigerant?")
    commissioning_record: OrNone[Record] = fact("Is there a record of the commissioning?")
    handover: OrNone[Record] = fact("Was the installation handed over?")
    guarantee: OrNone[Record] = fact("Was the guarantee registered?")
    coil_rinse_record: OrNone[Record] = fact("Is there a record of rinsing the coil?")
    place_agreed: OrNone[Record] = fact(
        "Did the maker agree in writing to this place and its air?",
        label="maker's agreement to the place",
    )
    heritage_consent: OrNone[Record] = fact(
        "Did the authority for monuments agree?", label="consent for a monument"
    )
    risk_assessment: OrNone[Record] = fact("Were the risks of the work assessed?")
    manual_left: Truth = fact(
        "Was the manual left with the customer?",
        "Ask the customer, or from the record of the handover.",
        label="manual on the spot",
    )
    frost_explained: Truth = fact(
        "Was the customer told what keeps the water outdoors from freezing, and what stops it?",
        "Ask the customer, or from the record of the handover.",
        label="telling the customer about frost",
    )
    labels_fixed: Truth = fact(
        "Are the labels and the diagram fixed on the spot?", "Seen on the spot."
    )
