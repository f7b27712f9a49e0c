"""Whether a height fits an age: a slip of a digit in either changes the dose that a child may have."""

from __future__ import annotations

from decimal import Decimal

from scheduler.protocol import ClinicProtocol


def height_doubt(age_years: int, height_cm: int | None, protocol: ClinicProtocol, far: bool = False) -> str | None:
    """What does not fit, as a sentence; None when height and age go together or no height is given.

    far: only a height beyond the protocol's bounds by more than `bounds.height_far`, which no real pair reaches.
    """
    if height_cm is None:
        return None
    age_from, lowest, highest = max(row for row in protocol.items("bounds.height_for_age") if row[0] <= age_years)
    margin = protocol.number("bounds.height_far") / 100 if far else Decimal(0)
    if lowest * (1 - margin) <= height_cm <= highest * (1 + margin):
        return None
    at = f"from {age_from} years on" if age_from >= protocol.number("bounds.adult_from") else f"at {age_years} years"
    return f"{height_cm} cm {at}? Nearly everybody is between {lowest} and {highest} cm."
