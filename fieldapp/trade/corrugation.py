"""A corrugated sheet's length along its middle line, against its width.

A profile is {"outer", "slope", "inner", "depth"} in mm, the slope by its horizontal projection
(seed_data/tables/profiles.toml). Formula: web = sqrt(slope^2 + depth^2).
"""

from math import floor, hypot
from typing import Any

Json = dict[str, Any]


def pitch(profile: Json) -> float:
    """From one outer flat to the next, along the wall, mm."""
    return float(profile["outer"] + profile["inner"] + 2 * profile["slope"])


def _pieces(profile: Json) -> list[tuple[float, float]]:
    """(width, length along the sheet) of outer flat, slope, inner flat, slope; mm."""
    web = hypot(profile["slope"], profile["depth"])
    return [(profile["outer"], profile["outer"]), (profile["slope"], web),
            (profile["inner"], profile["inner"]), (profile["slope"], web)]


def _along(profile: Json, width: float) -> float:
    """Length of sheet from the start of an outer flat over a width, mm."""
    pieces = _pieces(profile)
    whole = floor(width / pitch(profile))
    rest, length = width - whole * pitch(profile), whole * sum(long for _, long in pieces)
    for wide, long in pieces:
        part = min(rest, wide)
        length += part / wide * long
        rest -= part
    return length


def developed(profile: Json, width: float, starts: float | None) -> float:
    """Length along the sheet's middle line over `width`, mm.

    starts: from the start of an outer flat to the left end of the width, mm; None takes the mean over a
    pitch.
    """
    if starts is None:
        return width * sum(long for _, long in _pieces(profile)) / pitch(profile)
    return _along(profile, starts + width) - _along(profile, starts)
