"""Documents: what was notified, certified and handed over."""

from tundish.job.model import types as t
from tundish.job.model.part import Part, fact
from tundish.job.parts.common import Record


class Documents(Part, answered_by="installer", found_in="From the job's folder."):
    """Documents; each is a record with its day, or "none"."""

    heat_loss_calculation: t.OrNone[Record] = fact("Is there a heat loss calculation?")
    sound_assessment: t.OrNone[Record] = fact("Is there a sound assessment?")
    planning_permission: t.OrNone[Record] = fact("Is there a planning permission?")
    permission_needless: t.OrNone[Record] = fact(
        "Is there a note or an answer that no planning permission is needed?",
        "A note says by which law, and what of the job was held against it.",
        label="note that no permission is needed",
    )
    building_notice: t.OrNone[Record] = fact("Was the building authority told?")
    network_notification: t.OrNone[Record] = fact("Was the distribution company told?")
    network_permission: t.OrNone[Record] = fact("Did the distribution company agree?")
    owner_consent: t.OrNone[Record] = fact("Did owner or neighbours agree where they must?")
    electrical_certificate: t.OrNone[Record] = fact("Is there an electrical certificate?")
    pressure_test: t.OrNone[Record] = fact("Is there a record of the pressure test?")
    water_record: t.OrNone[Record] = fact("Is there a record of the water and its treatment?")
    refrigerant_record: t.OrNone[Record] = fact("Is there a record of the refrigerant?")
    commissioning_record: t.OrNone[Record] = fact("Is there a record of the commissioning?")
    handover: t.OrNone[Record] = fact("Was the installation handed over?")
    guarantee: t.OrNone[Record] = fact("Was the guarantee registered?")
    place_agreed: t.OrNone[Record] = fact(
        "Did the maker agree in writing to this place and its air?",
        label="maker's agreement to the place",
    )
    heritage_consent: t.OrNone[Record] = fact(
        "Did the authority for monuments agree?", label="consent for a monument"
    )
    risk_assessment: t.OrNone[Record] = fact("Were the risks of the work assessed?")
    manual_left: t.Truth = fact(
        "Was the manual left with the customer?",
        "Ask the customer, or from the record of the handover.",
        label="manual on the spot",
    )
    frost_explained: t.Truth = fact(
        "Was the customer told what keeps the water outdoors from freezing, and what stops it?",
        "Ask the customer, or from the record of the handover.",
        label="telling the customer about frost",
    )
    labels_fixed: t.Truth = fact(
        "Are the labels and the diagram fixed on the spot?",
        "Seen on the spot.",
        label="labels on the spot",
    )
