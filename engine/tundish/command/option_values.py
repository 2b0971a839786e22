"""Words that options take.

They stand here again, as `--help` would have to load half the program to read them where they are
made; a test holds them equal to `tundish.findings.finding` and `tundish.report`.
"""

from __future__ import annotations

STAGES = ("enquiry", "survey", "design", "order", "installation", "commissioning")
SEVERITIES = ("danger", "fault", "caution", "note")
FAIL_ON = (*SEVERITIES, "never")
SHOW = ("breached", "open", "all")
SECTIONS = ("siting", "margins")
FORMS = ("plain", "markdown", "html", "json", "sarif", "junit")
SCHEMAS = ("findings", "job", "unit", "rule", "constraints")
