"""A small pack of invented rules, for tests that need a rulebook but not the real one."""

from __future__ import annotations

from pathlib import Path

_FILES = {
    "sources.toml": """
[invented-standard]
title = "Invented standard 12"
basis = "standard"
edition = "2020"

[practice]
title = "Common practice of the trade"
basis = "common practice"
""",
    "placement/snow.toml": """
title    = "The unit stands above the snow"
requires = "placement.height_below >= height_needed"
severity = "danger"
stage    = "design"
because  = "Snow that reaches the coil shuts the air off."
remedy   = "Raise the unit on a frame."
adjust   = "placement.height_below"
reviewed = 2026-11-25
formerly = ["placement/old-snow"]

[[cite]]
source = "invented-standard"
at     = "clause 4"
recall = true
note   = "others ask more"

[[case]]
why     = "exactly at the limit"
given   = { "placement.height_below" = "300 mm", "site.snow_depth" = "100 mm" }
outcome = "met"

[[case]]
why     = "a millimetre short"
given   = { "placement.height_below" = "299 mm", "site.snow_depth" = "100 mm" }
outcome = "breached"

[[case]]
why     = "no snow depth"
given   = { "placement.height_below" = "300 mm" }
outcome = "undecided"
unknown = ["site.snow_depth"]
""",
    "placement/quantities.toml": """
[height_needed]
label    = "height that is needed"
about    = "Above the snow there is room for it to drift."
formula  = "site.snow_depth + 200 mm"
unit     = "mm"
cite     = [{ source = "practice" }]
reviewed = 2026-11-25

[[height_needed.case]]
why   = "no snow"
given = { "site.snow_depth" = "0 mm" }
value = "200 mm"
""",
    "pipes/quantities.toml": """
[bare]
label    = "whether it is bare"
about    = "A run is bare where it has less than 5 mm of insulation."
of       = "water.run as run"
formula  = "run.insulation.thickness < 5 mm"
gives    = "truth"
cite     = [{ source = "practice" }]
reviewed = 2026-11-25

[[bare.case]]
why   = "nothing around it"
given = { "water.run" = [{ "insulation.thickness" = "0 mm" }] }
item  = 1
value = true

[[bare.case]]
why   = "nothing known"
given = { "water.run" = [{ name = "flow" }] }
item  = 1

[bare_length]
label    = "length of bare pipe"
about    = "Bare runs added up."
formula  = "sum(each.length for each in water.run if each.bare)"
unit     = "m"
cite     = [{ source = "practice" }]
reviewed = 2026-11-25

[[bare_length.case]]
why   = "no pipe"
given = { "water.run" = [] }
value = "0 m"
""",
    "pipes/insulation.toml": """
title    = "Pipes outdoors are insulated"
each     = "water.run as run"
applies  = "run.place == 'outdoors'"
requires = "run.insulation.thickness >= 25 mm"
severity = "caution"
stage    = "survey"
regions  = ["GB", "IE"]
because  = "A bare pipe loses heat and can freeze."
remedy   = "Insulate it."
cite     = [{ source = "practice" }]
reviewed = 2026-11-25

[[case]]
why     = "thick"
given."job.region" = "GB"
given."water.run" = [{ place = "outdoors", "insulation.thickness" = "25 mm" }]
outcome = "met"

[[case]]
why     = "thin"
given."job.region" = "GB"
given."water.run" = [{ place = "outdoors", "insulation.thickness" = "24 mm" }]
outcome = "breached"

[[case]]
why     = "which runs"
given   = { "job.region" = "GB" }
outcome = "undecided"
unknown = ["water.run"]
""",
}


def write_pack(folder: Path, *changes: tuple[str, str]) -> Path:
    """Write the pack into a folder.

    Args:
        folder: The folder, made if need be.
        changes: Texts, each with what to put in its place.

    Returns:
        The folder.
    """
    for name, text in _FILES.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        for old, new in changes:
            text = text.replace(old, new)
        path.write_text(text.lstrip(), encoding="utf-8")
    return folder
