"""The site: climate, ground, coast and the law of the place."""

from typing import Literal

from tundish.job.model import types as t
from tundish.job.model.part import Part, fact
from tundish.job.parts.common import CompassPoint


class Site(
    Part, answered_by="surveyor", found_in="From the national annex, map or table for the place."
):
    """Where the installation stands."""

    design_air_temperature: t.Temperature = fact(
        "For what outdoor air temperature is the heating designed?", example="-3 degC"
    )
    coldest_air_temperature: t.Temperature = fact(
        "What is the coldest outdoor air to be expected in the life of the installation?",
        "From the records of the nearest weather station.",
        example="-12 degC",
    )
    mean_air_temperature: t.Temperature = fact(
        "What is the mean outdoor air temperature of a year?",
        label="yearly mean air temperature",
        example="10 degC",
    )
    humid_winters: t.Truth = fact(
        "Are winters here often humid near 0 to 3 degC, with fog or wet snow?",
        "From neighbours or the nearest weather station.",
    )
    damp_air_temperature: t.Temperature = fact(
        "How warm is the outdoor air on the dampest days near freezing?",
        "From the nearest weather station.",
        label="air temperature on damp winter days",
        example="1 degC",
    )
    damp_air_humidity: t.Fraction = fact(
        "How humid is the outdoor air on the dampest days near freezing?",
        "From the nearest weather station.",
        label="humidity of the air on damp winter days",
        example="95 %",
    )
    muggy_air_temperature: t.Temperature = fact(
        "How warm is the outdoor air on the muggiest days of summer?",
        "From the nearest weather station.",
        label="air temperature on muggy days",
        example="24 degC",
    )
    muggy_air_humidity: t.Fraction = fact(
        "How humid is the outdoor air on the muggiest days of summer?",
        "From the nearest weather station.",
        label="humidity of the air on muggy days",
        example="80 %",
    )
    altitude: t.Elevation = fact(
        "How high above the sea does the site lie?", "From a map.", example="85 m"
    )
    distance_to_coast: t.Length = fact(
        "How far is the nearest salt water?",
        "Measured on a map, to the high-water line.",
        label="distance to the coast",
        example="12 km",
    )
    exposure: t.Choice[
        Literal["open shore", "sheltered bay", "coastal plain", "inland", "open hill", "town"]
    ] = fact(
        "How exposed is the place?",
        "By looking towards the sea and the prevailing wind.",
        example="inland",
    )
    corrosivity: t.Choice[Literal["C1", "C2", "C3", "C4", "C5", "CX"]] = fact(
        "Which category of corrosivity is stated for the air here?",
        "From a survey by ISO 9223, if one was made.",
        label="corrosivity category",
        example="C3",
    )
    chloride_deposition: t.DepositionRate = fact(
        "How much chloride settles here?",
        "From a measurement by ISO 9225, if one was made.",
        example="20 mg/(m2.day)",
    )
    pollution: t.Choices[
        Literal["industry", "road salt", "stable or slurry", "swimming pool", "quarry dust"]
    ] = fact(
        "What else nearby attacks metal or blocks the coil?",
        "By looking around.",
        example='["road salt"]',
    )
    snow_depth: t.Length = fact(
        "What snow depth is expected at the unit?",
        "From the national snow map, or ask neighbours.",
        label="expected snow depth",
        example="250 mm",
    )
    ground_snow_load: t.AreaLoad = fact(
        "What snow load on the ground holds for the site?",
        "From the national annex of EN 1991-1-3.",
        example="0.6 kN/m2",
    )
    snow_density: t.Density = fact(
        "How dense is the snow that lies here?",
        "From the national annex of EN 1991-1-3.",
        example="250 kg/m3",
    )
    drifting: t.Truth = fact(
        "Does snow drift to the place of the unit?",
        "Ask neighbours where snow gathers.",
        label="drifting of snow",
        example="false",
    )
    roof_snow_slides: t.Truth = fact(
        "Can snow or ice slide from a roof onto the unit?",
        "By looking up from the place of the unit.",
        label="snow sliding from a roof",
        example="false",
    )
    prevailing_wind: t.Choice[CompassPoint] = fact(
        "From where does the wind mostly blow?",
        "From the nearest weather station.",
        example="south-west",
    )
    design_wind_speed: t.Velocity = fact(
        "For what speed of gusts are fixings designed?",
        "From the national annex of EN 1991-1-4, or a structural engineer.",
        label="speed of gusts for the fixings",
        example="40 m/s",
    )
    flood_level: t.Elevation = fact(
        "How high above the ground can flood water stand at the unit?",
        "From the flood map of the authority; 0 m where no water ever stands.",
        example="0 m",
    )
    ground: t.Choice[Literal["free-draining", "clay", "rock", "paved", "made ground"]] = fact(
        "What ground is at the unit?",
        "By digging a small hole.",
        label="kind of ground",
        example="free-draining",
    )
    frost_depth: t.Length = fact(
        "How deep does the ground freeze?", label="depth of frost", example="450 mm"
    )
    protected_area: t.Truth = fact(
        "Does the building or its surroundings stand under protection?",
        "Ask the planning authority.",
        who="customer",
        label="protection of building or place",
        example="false",
    )
    listed_building: t.Truth = fact(
        "Is the building itself a protected monument?",
        "Ask the planning authority.",
        who="customer",
        label="protected monument",
        example="false",
    )
    others_own: t.Truth = fact(
        "Does anyone but the customer own the building, the ground or a wall that the unit needs?",
        "A landlord, other owners of the house, a neighbour beyond a shared wall or the boundary.",
        who="customer",
        label="shares of other owners",
        example="false",
    )
    nation: t.Choice[Literal["England", "Northern Ireland", "Scotland", "Wales"]] = fact(
        "In which part of the country is it, where each has a planning law of its own?",
        "From the address.",
        label="part of the country",
        example="England",
    )
    pool_distance: t.Length = fact(
        "How far is the nearest vent that lets out air from a swimming pool?",
        "Measured on a map or on the spot.",
        label="distance of pool air",
        example="150 m",
    )
    stable_distance: t.Length = fact(
        "How far is the nearest stable, slurry store or sewage works?",
        "Measured on a map or on the spot.",
        label="distance of a stable",
        example="300 m",
    )
