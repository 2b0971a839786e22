"""The site: climate, ground, coast and the law of the place."""

from typing import ClassVar, Literal

from tundish.job.common import CompassPoint
from tundish.job.part import (
    AreaLoad,
    Choice,
    Choices,
    Density,
    DepositionRate,
    Elevation,
    Fraction,
    Length,
    Part,
    Temperature,
    Truth,
    Velocity,
    Who,
    fact,
)


class Site(Part):
    """Where the installation stands."""

    answered_by: ClassVar[Who] = "surveyor"
    found_in: ClassVar[str] = "From the national annex, map or table for the place."

    design_air_temperature: Temperature = fact(
        "For what outdoor air temperature is the heating designed?", label="design air temperature"
    )
    coldest_air_temperature: Temperature = fact(
        "What is the coldest outdoor air to be expected in the life of the installation?",
        "From the records of the nearest weather station.",
        label="coldest air temperature",
    )
    mean_air_temperature: Temperature = fact(
        "What is the mean outdoor air temperature of a year?", label="yearly mean air temperature"
    )
    humid_winters: Truth = fact(
        "Are winters here often humid near 0 to 3 degC, with fog or wet snow?",
        "From neighbours or the nearest weather station.",
    )
    damp_air_temperature: Temperature = fact(
        "How warm is the outdoor air on the dampest days near freezing?",
        "From the nearest weather station.",
        label="air temperature on damp winter days",
    )
    damp_air_humidity: Fraction = fact(
        "How humid is the outdoor air on the dampest days near freezing?",
        "From the nearest weather station.",
        label="humidity of the air on damp winter days",
    )
    muggy_air_temperature: Temperature = fact(
        "How warm is the outdoor air on the muggiest days of summer?",
        "From the nearest weather station.",
        label="air temperature on muggy days",
    )
    muggy_air_humidity: Fraction = fact(
        "How humid is the outdoor air on the muggiest days of summer?",
        "From the nearest weather station.",
        label="humidity of the air on muggy days",
    )
    altitude: Elevation = fact("How high above the sea does the site lie?", "From a map.")
    distance_to_coast: Length = fact(
        "How far is the nearest salt water?",
        "Measured on a map, to the high-water line.",
        label="distance to the coast",
    )
    exposure: Choice[
        Literal["open shore", "sheltered bay", "coastal plain", "inland", "open hill", "town"]
    ] = fact("How exposed is the place?", "By looking towards the sea and the prevailing wind.")
    corrosivity: Choice[Literal["C1", "C2", "C3", "C4", "C5", "CX"]] = fact(
        "Which category of corrosivity is stated for the air here?",
        "From a survey by ISO 9223, if one was made.",
        label="corrosivity category",
    )
    chloride_deposition: DepositionRate = fact(
        "How much chloride settles here?", "From a measurement by ISO 9225, if one was made."
    )
    pollution: Choices[
        Literal["industry", "road salt", "stable or slurry", "swimming pool", "quarry dust"]
    ] = fact("What else nearby attacks metal or blocks the coil?", "By looking around.")
    snow_depth: Length = fact(
        "What snow depth is expected at the unit?",
        "From the national snow map, or ask neighbours.",
        label="expected snow depth",
    )
    ground_snow_load: AreaLoad = fact(
        "What snow load on the ground holds for the site?",
        "From the national annex of EN 1991-1-3.",
    )
    snow_density: Density = fact(
        "How dense is the snow that lies here?", "From the national annex of EN 1991-1-3."
    )
    drifting: Truth = fact(
        "Does snow drift to the place of the unit?",
        "Ask neighbours where snow gathers.",
        label="drifting of snow",
    )
    roof_snow_slides: Truth = fact(
        "Can snow or ice slide from a roof onto the unit?",
        "By looking up from the place of the unit.",
        label="snow sliding from a roof",
    )
    prevailing_wind: Choice[CompassPoint] = fact(
        "From where does the wind mostly blow?", "From the nearest weather station."
    )
    design_wind_speed: Velocity = fact(
        "For what speed of gusts are fixings designed?",
        "From the national annex of EN 1991-1-4, or a structural engineer.",
        label="speed of gusts for the fixings",
    )
    flood_level: Elevation = fact(
        "How high above the ground can flood water stand at the unit?",
        "From the flood map of the authority; 0 m where no water ever stands.",
    )
    ground: Choice[Literal["free-draining", "clay", "rock", "paved", "made ground"]] = fact(
        "What ground is at the unit?", "By digging a small hole.", label="kind of ground"
    )
    frost_depth: Length = fact("How deep does the ground freeze?", label="depth of frost")
    protected_area: Truth = fact(
        "Does the building or its surroundings stand under protection?",
        "Ask the planning authority.",
        who="customer",
        label="protection of building or place",
    )
    listed_building: Truth = fact(
        "Is the building itself a protected monument?",
        "Ask the planning authority.",
        who="customer",
        label="protected monument",
    )
    others_own: Truth = fact(
        "Does anyone but the customer own the building, the ground or a wall that the unit needs?",
        "A landlord, other owners of the house, a neighbour beyond a shared wall or the boundary.",
        who="customer",
        label="shares of other owners",
    )
    nation: Choice[Literal["England", "Northern Ireland", "Scotland", "Wales"]] = fact(
        "In which part of the country is it, where each has a planning law of its own?",
        label="part of the country",
    )
    pool_distance: Length = fact(
        "How far is the outlet of air from a swimming pool?", label="distance of pool air"
    )
    stable_distance: Length = fact(
        "How far is the nearest stable, slurry store or sewage works?",
        label="distance of a stable",
    )
