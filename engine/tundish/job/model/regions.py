"""The regions that a job can be in and a rule can hold in: countries, by their codes.

The codes are those of ISO 3166-1 (two letters) as published in the data of Debian's package
iso-codes, version 4.15.0; all 249 of them. The package pycountry 26.2.16 has the same.

The codes that ISO 3166-1 leaves to its users (AA, QM to QZ, XA to XZ, ZZ; these from memory) are
taken too: for rules and jobs of one's own, and for what has no code of its own yet. No built-in
rule holds in them.
"""

from tundish.text.quoted import quoted

_ASSIGNED = """
AD AE AF AG AI AL AM AO AQ AR AS AT AU AW AX AZ
BA BB BD BE BF BG BH BI BJ BL BM BN BO BQ BR BS BT BV BW BY BZ
CA CC CD CF CG CH CI CK CL CM CN CO CR CU CV CW CX CY CZ DE DJ DK DM DO DZ
EC EE EG EH ER ES ET FI FJ FK FM FO FR
GA GB GD GE GF GG GH GI GL GM GN GP GQ GR GS GT GU GW GY HK HM HN HR HT HU
ID IE IL IM IN IO IQ IR IS IT JE JM JO JP KE KG KH KI KM KN KP KR KW KY KZ
LA LB LC LI LK LR LS LT LU LV LY
MA MC MD ME MF MG MH MK ML MM MN MO MP MQ MR MS MT MU MV MW MX MY MZ
NA NC NE NF NG NI NL NO NP NR NU NZ OM PA PE PF PG PH PK PL PM PN PR PS PT PW PY QA
RE RO RS RU RW SA SB SC SD SE SG SH SI SJ SK SL SM SN SO SR SS ST SV SX SY SZ
TC TD TF TG TH TJ TK TL TM TN TO TR TT TV TW TZ UA UG UM US UY UZ VA VC VE VG VI VN VU WF WS
YE YT ZA ZM ZW
"""
ASSIGNED = frozenset(_ASSIGNED.split())
"""The codes that are assigned to countries."""

OF_USERS = frozenset(
    ["AA", "ZZ"]
    + [f"Q{letter}" for letter in "MNOPQRSTUVWXYZ"]
    + [f"X{letter}" for letter in "ABCDEFGHIJKLMNOPQRSTUVWXYZ"]
)
"""The codes that are left to users."""

REGIONS = ASSIGNED | OF_USERS
"""All codes that are taken."""

_MISTAKEN = {"UK": "GB", "EL": "GR"}
"""Codes that are in use elsewhere for a country, and the one it has here."""


def read_region(text: str) -> str:
    """Return the code of a region.

    Args:
        text: What was written.

    Raises:
        ValueError: If it is no such code; the text says what would be right.

    Example:
        >>> read_region("GB")
        'GB'
    """
    if text in REGIONS:
        return text
    capitals = text.strip().upper()
    if capitals in REGIONS:
        raise ValueError(f"{quoted(text)} is not how a country is written; write '{capitals}'.")
    wrong = f"{quoted(text)} is no country of ISO 3166-1"
    if capitals in _MISTAKEN:
        raise ValueError(f"{wrong}. Did you mean '{_MISTAKEN[capitals]}'?")
    raise ValueError(f"{wrong}; write its two letters such as GB.")
