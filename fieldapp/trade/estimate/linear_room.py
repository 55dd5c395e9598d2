"""Room around the frame: what a correction needs, takes and gives, mm.

Twin: static/phone/estimate_room.js.
"""

from math import floor
from typing import Any, NamedTuple

CLEAR = 1e-9
Room = dict[str, float]


class Cut(NamedTuple):
    """A correction cut back to its room: what is possible, what was wanted, and what lacks at which place."""

    do: str
    by: float
    wanted: float
    lacks: dict[str, float]


def at_first(sheet: dict[str, Any], given: dict[str, Any]) -> Room:
    """Room as given; places that have none unless given have none; other places are not limited."""
    return {**dict.fromkeys(sheet["rooms"]["none_unless_given"], 0.0), **(given.get("room") or {})}


def left(sheet: dict[str, Any], room: Room, place: str) -> float | None:
    """Room left at a place, or at the mean of two; None where it is not limited."""
    of = sheet["rooms"]["means"].get(place)
    if of is None:
        return room.get(place)
    if any(one not in room for one in of):
        return None
    total = 0.0
    for one in of:
        total += room[one]
    return total / len(of)


def cut(sheet: dict[str, Any], room: Room, correction: dict[str, Any], wanted: float, step: float) -> Cut:
    """The correction cut back to whole steps that its room allows."""
    by, lacks = wanted, {}
    for place in sheet["rooms"]["places"]:
        each, there = correction["needs"].get(place), left(sheet, room, place)
        if each is None or there is None:
            continue
        if each * wanted > there + CLEAR:
            lacks[place] = each * wanted - there
            by = min(by, max(0, floor(there / each / step + CLEAR)) * step)
    return Cut(correction["do"], by, wanted, lacks)


def after(sheet: dict[str, Any], room: Room, correction: dict[str, Any], by: float) -> Room:
    """Room once the correction is made."""
    changed = dict(room)
    for place in sheet["rooms"]["places"]:
        each = correction["gives"].get(place, 0.0) - correction["needs"].get(place, 0.0)
        if place in changed and each:
            changed[place] = max(0.0, changed[place] + each * by)
    return changed
