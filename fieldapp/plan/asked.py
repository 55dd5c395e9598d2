"""What a plan already knows of each calculator's input: the rest is measured, and typed beside it."""

from typing import Any

from fieldapp.plan.choices import Choices
from fieldapp.plan.dimensions import opening_size, seal_height

Json = dict[str, Any]


def asked(chosen: Choices) -> dict[str, Json]:
    """{calculator: the part of its input that the choices fix}, in the order of the work; lengths mm."""
    width, height = opening_size(chosen)
    cut = {"width": width, "height": height}
    found = {"opening": _opening(chosen), "layout": _layout(chosen, cut),
             "cut": {"wall": chosen.wall, "cut": cut} | ({"strip": chosen.strip} if chosen.corrugated else {}),
             "fixings": _fixings(chosen, cut)}
    if chosen.seal == "bulb":
        found["seal"] = {"free_height": chosen.free_height, "band": list(chosen.seal_band), "wall": chosen.wall,
                         "width": width}
    return found


def _opening(chosen: Choices) -> Json:
    seal = {"kind": "bulb", "free_height": chosen.free_height, "compression": chosen.compression} if (
        chosen.seal == "bulb") else {"kind": "bead", "thickness": chosen.bead}
    drawn = {side: value for side, value in (("width", chosen.drawing_width), ("height", chosen.drawing_height))
             if value is not None}
    return {"wall": chosen.wall, "frame": {"width": chosen.frame_width, "height": chosen.frame_height},
            "clearance": dict(chosen.clearance), "edge_trim": chosen.edge_trim, "head_seal": seal,
            "head_kit": "none" if chosen.kit == "none" else {"profile": chosen.kit, "rise": chosen.rise}} | (
        {"drawing": drawn} if drawn else {})


def _layout(chosen: Choices, cut: Json) -> Json:
    """The leaf is taken as wide as the frame between its corners; how far the flange covers is measured."""
    return {"wall": chosen.wall, "opening": cut,
            "flange": {"needs_land": chosen.needs_land if chosen.corrugated else 0.0},
            "swing": {"hand": chosen.hand, "leaf": chosen.corners_width, "opens_to": chosen.limit_to}}


def _fixings(chosen: Choices, cut: Json) -> Json:
    own, head = chosen.holes, "per_flat" if chosen.corrugated else "head"
    made: Json = {"wall": chosen.wall, "opening": cut, "diameter": chosen.rivet,
                  "sides": {"count": own["side"]} if "side" in own else {},
                  "head": {"per_flat" if chosen.corrugated else "count": own[head]} if head in own else {}}
    if chosen.seal == "bulb":
        made["head"]["stand_off"] = seal_height(chosen)
    return made | ({"sill": {"count": own["sill"]}} if own.get("sill") else {})
