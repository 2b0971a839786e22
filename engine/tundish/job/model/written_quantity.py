"""Reading a quantity that a fact states, and the sentence for one that cannot be read."""

from __future__ import annotations

from tundish.units.quantity import MalformedQuantityError, MeasureError, Quantity, parse_quantity


def written_quantity(text: str, noun: str, example: str) -> Quantity:
    """Read the quantity that a fact is.

    Args:
        text: What was written.
        noun: What is measured, with its article, as in "a length".
        example: What would usually be written.

    Returns:
        The quantity, of whatever dimension.

    Raises:
        ValueError: If it is none; the text says what would be right.
    """
    try:
        return parse_quantity(text)
    except MeasureError as error:
        # Imported here, as only a refused quantity needs it.
        from tundish.job.model.rough_figure import fall_as_share, is_rough

        share = fall_as_share(text.strip()) if noun == "a share" else ""
        if share:
            raise ValueError(f"'{text}' is a fall; write it as a share: '{share}'.") from None
        if is_rough(text.strip()):
            raise ValueError(
                f"'{text}' is not one figure. Write one; [[tolerance]] says how far off it may be."
            ) from None
        if not isinstance(error, MalformedQuantityError):
            raise
        raise ValueError(f"{error.fault}; write {noun} such as '{example}'.") from None


def no_unit(number: str, example: str) -> str:
    """Return the sentence for a number without a unit.

    Args:
        number: The number, as it is shown.
        example: What would usually be written.
    """
    return f"{number} has no unit; write a unit, such as '{example}'."
