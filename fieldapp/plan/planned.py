"""The planned figures of a unit, one by one with names, so that two plans can be told apart in words."""

from typing import Any

from fieldapp.plan.choices import Choices
from fieldapp.plan.dimensions import Plan
from fieldapp.trade.lengths import NM_PER_MM

Json = dict[str, Any]
# The opening first: it is what a changed plan is asked about first.
LENGTHS = {
    "opening_width": "Opening's width",
    "opening_height": "Opening's height",
    "frame_width": "Frame's width",
    "frame_height": "Frame's height",
    "corners_width": "Width between the corners",
    "corners_height": "Height between the corners",
    "needs_land": "Land needed",
    "strip": "Strip under the sill",
    "rail": "Rail that the tilt is read over",
}
HOLES = {"side": "each jamb", "per_flat": "each inner flat at the head", "head": "the head", "sill": "the sill"}
TOLERANCES = ("square", "plumb", "twist", "align", "lean")


def planned(plan: Plan) -> list[Json]:
    """[{"id", "say", "nm"}] for a length, [{"id", "say", "text"}] for the rest; always all of them, in one order."""
    chosen = plan.choices
    lengths = [(name, say, plan.dims[name]) for name, say in LENGTHS.items()]
    lengths += [(f"clearance_{side}", f"Clearance, {side}", chosen.clearance[side]) for side in chosen.clearance]
    lengths += [
        ("head_kit", "Rise of the head kit", chosen.rise),
        ("free_height", "Bulb seal's free height", chosen.free_height),
        ("bead", "Sealant bead at the head", chosen.bead),
        ("edge_trim", "Edge trim's thickness", chosen.edge_trim),
        ("rivet", "Rivet's diameter", chosen.rivet),
    ]
    lengths += [(f"tolerance_{name}", f"Maker's limit, {name}", chosen.tolerance.get(name, 0.0)) for name in TOLERANCES]
    made: list[Json] = [{"id": name, "say": say, "nm": round(mm * NM_PER_MM)} for name, say, mm in lengths]
    made += [
        {"id": name, "say": say, **_given(mm)}
        for name, say, mm in (
            ("drawing_width", "Opening's width on the drawing", chosen.drawing_width),
            ("drawing_height", "Opening's height on the drawing", chosen.drawing_height),
            ("flange", "Flange's thickness", chosen.flange),
        )
    ]
    return made + [{"id": name, "say": say, "text": text} for name, say, text in _texts(chosen)]


def _given(mm: float | None) -> Json:
    return {"text": "not given"} if mm is None else {"nm": round(mm * NM_PER_MM)}


def _texts(chosen: Choices) -> list[tuple[str, str, str]]:
    def mass(kg: float | None) -> str:
        return "not known" if kg is None else f"{kg:g} kg"

    low, high = chosen.seal_band
    holes = ", ".join(f"{chosen.holes[name]:g} in {where}" for name, where in HOLES.items() if name in chosen.holes)
    bulb = chosen.seal == "bulb"
    return [
        ("compression", "Compression of the seal", f"{chosen.compression:g} %" if bulb else "none"),
        ("seal_band", "Compression allowed", f"{low:g} to {high:g} %" if bulb else "none"),
        ("side_edges", "Side edges", chosen.side_edges),
        ("leaf_mass", "Mass of the leaf", mass(chosen.leaf_mass)),
        ("total_mass", "Mass of door with frame", mass(chosen.total_mass)),
        ("panel_mass", "Mass of what is cut out", mass(chosen.panel_mass)),
        ("limit", "Limit of swing", f"{chosen.limit}, {chosen.limit_from:g} to {chosen.limit_to:g}°"),
        ("panic_bar", "Panic bar", _yes(chosen.panic_bar)),
        ("closer", "Closer", _yes(chosen.closer)),
        ("glass", "Glass", chosen.glass),
        ("fire_rated", "Fire-rated", _yes(chosen.fire_rated)),
        ("reversible", "May be turned end for end", _yes(chosen.reversible)),
        ("watch", "Fire watch", f"{chosen.watch_minutes:g} min"),
        ("wind", "Limit of wind", f"{chosen.wind_limit:g} m/s"),
        ("holes", "Holes in the frame", holes or "not in the plan"),
        ("drawing", "Drawing", chosen.drawing),
        # rows of catalogues that only the pick list goes by: without them a plan that names another would be the same
        ("profile", "Wall profile", chosen.profile or "the usual one"),
        ("sealant", "Sealant", chosen.sealant or "the usual one"),
        ("disc", "Cutting disc", chosen.disc or "the usual one"),
    ]


def _yes(flag: bool) -> str:
    return "yes" if flag else "no"
