"""Care for the refrigerant: what the job does about a leak, beyond the unit's own figures."""

from typing import Literal

from tundish.job.model import types as t
from tundish.job.model.part import Part, fact


class RefrigerantCare(Part, answered_by="installer", found_in="From the plan of the work."):
    """What is done about refrigerant that leaks, and by whom work on it is done."""

    charge_added: t.Mass = fact(
        "How much refrigerant is added on the spot?",
        label="refrigerant added on the spot",
        example="0 kg",
    )
    room_area: t.Area = fact(
        "What floor area has that room?",
        "From the drawing, or measured on the spot.",
        label="floor area of the room with refrigerant in it",
        example="8 m2",
    )
    release_height: t.Length = fact(
        "How high above its floor could the refrigerant come out?",
        "The lowest joint or casing opening indoors.",
        label="height of a release above the floor",
        example="1.2 m",
    )
    ventilated: t.Truth = fact(
        "Is that room ventilated as the product data ask?",
        "Seen on the spot, held against the product data.",
        label="ventilation of the room",
    )
    gas_let_out: t.Choice[Literal["outdoors", "indoors", "nowhere"]] = fact(
        "Where would refrigerant that got into the water come out first?",
        "Where the relief valve, the gas separator or the first automatic vent on the flow lets "
        "out.",
        label="outlet for refrigerant in the water",
        example="outdoors",
    )
    competent_person: t.Truth = fact(
        "Does someone certified for this class of refrigerant do the work on it?",
        "From the certificate.",
        label="certificate for work on the refrigerant",
    )
    tools_suit: t.Truth = fact(
        "Are leak detector, recovery gear and tools approved for flammable refrigerant?",
        "From their plates or data sheets.",
        label="tools for flammable refrigerant",
    )
    sign_fixed: t.Truth = fact(
        "Does a sign on the spot warn of the flammable refrigerant?",
        "Seen on the spot.",
        label="warning sign",
    )
    zone_explained: t.Truth = fact(
        "Was the customer told what must not be put or changed inside the protective zone?",
        "Ask the customer, or from the record of the handover.",
        label="telling of the customer about the zone",
    )
    fire_extinguisher: t.Truth = fact(
        "Is a fire extinguisher at hand during the work?",
        "Seen on the spot.",
        label="fire extinguisher at hand",
    )
