"""Does the box stand true: spread, twist and tilt of its four corner castings, and what to pack.

Seen from outside, facing the wall that gets the door: near left, near right, far left, far right. Heights
above any one level, mm. warp = (near left + far right) - (near right + far left); a level bubble does not show
it. The most of each, seed_data/tables/stance.toml: common practice, no source.
"""

from math import hypot, sqrt
from typing import Any

from fieldapp.trade.estimate.band import within
from fieldapp.trade.estimate.band_values import tidy
from fieldapp.trade.estimate.chance import judged
from fieldapp.trade.lengths import Show
from fieldapp.trade.stance_say import WARP_SAYS, sentences

Json = dict[str, Any]
Known = tuple[float, float]

CORNERS = ("near_left", "near_right", "far_left", "far_right")
SIGNS = {"near_left": 1, "near_right": -1, "far_left": -1, "far_right": 1}


def sheet(name: str, table: Json, doubt: Json) -> Json:
    """The band sheet of the box's twist: four corner heights (mm) in, `warp` judged from -most to most.

    table: seed_data/tables/stance.toml, or figures (mm) in its place. doubt: seed_data/tables/doubt.toml.
    """
    inputs: list[Json] = [
        {"name": corner, "say": f"Height, {corner.replace('_', ' ')} corner", "u": doubt["corner"],
         "times": SIGNS[corner], "what": "warp", "called": "Twist of the box"} for corner in CORNERS]
    return within(name, inputs, -table["warp"], table["warp"], say=WARP_SAYS, source=table["source"])


def _known(measured: float | Json, usual: float) -> Known:
    """(value, u) of a measured length, mm."""
    if isinstance(measured, dict):
        return float(measured["value"]), float(measured.get("u", usual))
    return float(measured), usual


def _spread(at: dict[str, Known]) -> Known:
    """Highest less lowest, with the uncertainty of those two; of equal ones not the same corner twice."""
    highest = max(CORNERS, key=lambda corner: at[corner][0])
    lowest = min(reversed(CORNERS), key=lambda corner: at[corner][0])
    return tidy(at[highest][0] - at[lowest][0]), hypot(at[highest][1], at[lowest][1])


def _warp(at: dict[str, Known]) -> Known:
    """Near left and far right less near right and far left."""
    return (tidy(sum(SIGNS[corner] * at[corner][0] for corner in CORNERS)),
            sqrt(sum(at[corner][1] ** 2 for corner in CORNERS)))


def _tilt(at: dict[str, Known], near: float, depth: float) -> Json:
    """What `frame` takes: along + when the right is high, through + when the wall leans out, both over `near`."""
    height = {corner: value for corner, (value, _) in at.items()}
    back = (height["far_left"] + height["far_right"]) / 2 - (height["near_left"] + height["near_right"]) / 2
    return {"along": height["near_right"] - height["near_left"], "through": back * near / depth, "over": near,
            "u": hypot(at["near_left"][1], at["near_right"][1])}


def _pack(at: dict[str, Known], warp: float, most: float) -> list[Json]:
    """The lower corner of the low diagonal, raised by the twist; nothing while the twist is allowed."""
    if abs(warp) <= most:
        return []
    low = [corner for corner in CORNERS if SIGNS[corner] * warp < 0]
    return [{"corner": min(low, key=lambda corner: at[corner][0]), "by": abs(warp)}]


def stance(given: Json, table: Json, doubt: Json) -> Json:
    """Spread, warp and tilt of a box, what to pack, and what each corner lacks to the highest (contract: stance).

    given: corners {near_left, near_right, far_left, far_right}, near, depth, and where known most {spread,
    warp}, show; mm, a measured length is a number or {"value", "u"}.
    """
    show: Show = given.get("show", "mm")
    at = {corner: _known(given["corners"][corner], doubt["corner"]) for corner in CORNERS}
    most = {what: float(given.get("most", {}).get(what, table[what])) for what in ("spread", "warp")}
    spread, warp = _spread(at), _warp(at)
    highest = max(value for value, _ in at.values())
    made: Json = {"spread": spread[0], "warp": warp[0], "tilt": _tilt(at, given["near"], given["depth"]),
                  "pack": _pack(at, warp[0], most["warp"]),
                  "level": {corner: highest - at[corner][0] for corner in CORNERS},
                  "judged": [judged("spread", *spread, None, most["spread"]),
                             judged("warp", *warp, -most["warp"], most["warp"])]}
    return made | {"say": sentences(made, show)}
