"""What the template of a rule asks of a pipe: its measures, which stand in one text."""

from __future__ import annotations

from tundish.job.model.schema import Fact
from tundish.report.forms.requirement import Requirement

_PIPE = "copper 28 x 0.9"
_MEASURES = {
    # measure: (condition on it, how that is said, another pipe)
    "outside_diameter": (">= 28 mm", "be at least 28 mm", "copper 22 x 0.9"),
    "wall": (">= 0.9 mm", "be at least 0.9 mm", "copper 28 x 0.8"),
    "name": (f"== '{_PIPE}'", f"be '{_PIPE}'", "copper 22 x 0.9"),
    "size": ("== '28 x 0.9'", "be '28 x 0.9'", "copper 22 x 0.9"),
    "material": ("== 'copper'", "be 'copper'", "steel DN25"),
}


def pipe_requirement(measure: Fact) -> Requirement:
    """Return what a template asks of one measure of a pipe size.

    Args:
        measure: The measure; its path ends with its name.
    """
    condition, must, other = _MEASURES[measure.path.rpartition(".")[2]]
    return Requirement(
        f"{{name}} {condition}",
        f"the {measure.label} must {must}",
        "it is not",
        f"Fit a pipe of which the {measure.label} is as asked.",
        _PIPE,
        other,
        "such a pipe",
        "another pipe",
        may_change=measure.kind == "quantity",
        notes=("A pipe size is written as one text; a condition names one of its measures.",),
    )
