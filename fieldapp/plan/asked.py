"""What a plan already knows of each calculator's input: the rest is measured, and typed beside it."""

from typing import Any

from fieldapp.plan.catalogue_columns import Row
from fieldapp.plan.choices import Choices
from fieldapp.plan.dimensions import opening_size, seal_height
from fieldapp.plan.in_force import InForce, seeded
from fieldapp.plan.tables import table

Json = dict[str, Any]
SIDES = ("outer", "slope", "inner", "depth")


def asked(chosen: Choices, under: InForce | None = None) -> dict[str, Json]:
    """{calculator: the part of its input that the choices fix}, in the order of the work; lengths mm.

    under: the editions that the plan was made under, edition 0 when None. Figures of theirs that are not the
    calculators' own usual ones are filled in, so that the answer is the plan's.
    """
    under = under or seeded()
    width, height = opening_size(chosen)
    cut = {"width": width, "height": height}
    found = {"opening": _opening(chosen), "layout": _layout(chosen, cut),
             "cut": {"wall": chosen.wall, "cut": cut} | (_steel(chosen, under) if chosen.corrugated else {}),
             "fixings": _fixings(chosen, cut)}
    if chosen.seal == "bulb":
        found["seal"] = {"free_height": chosen.free_height, "band": list(chosen.seal_band), "wall": chosen.wall,
                         "width": width}
    own = _profile(chosen, under)
    for name in ("layout", "cut", "fixings", "seal"):
        if name in found:
            found[name] |= own
    found["fixings"] |= _rows(chosen.rivet, under)
    return found


def goes_by(calculator: str, chosen: Choices) -> tuple[str, ...]:
    """The catalogues whose figures `asked` may have filled in for a calculator."""
    wall = ("profiles",) if chosen.corrugated else ()
    every = {"opening": ("defaults",), "fixings": (*wall, "rivets")}
    return every.get(calculator, (*wall, "defaults"))


def _profile(chosen: Choices, under: InForce) -> Json:
    """The wall's corrugation by the plan's edition, unless it is the usual one."""
    made = under.profiles.get(chosen.profile or chosen.wall)
    if made is None:
        return {}
    usual = table("profiles")[chosen.wall]
    return {} if all(made[side] == usual[side] for side in SIDES) else {"profile": {side: made[side] for side in SIDES}}


def _rows(diameter: float, under: InForce) -> Json:
    """Rows and hole of the rivet by the plan's edition, unless they are the usual ones."""
    rows, usual = ([row for row in each.rows["rivets"] if row["diameter"] == diameter] for each in (under, seeded()))
    return {} if rows == usual else rivet_of(rows)


def rivet_of(rows: list[Row]) -> Json:
    """A rivet's rows, all of one diameter, as the calculators take them: their grips, and the hole."""
    grips = [{"name": row["id"], "grip_from": row["grip from"], "grip_to": row["grip to"]} for row in rows]
    return {"rows": grips, "hole": {"from": rows[0]["hole from"], "to": rows[0]["hole to"]}}


def _steel(chosen: Choices, under: InForce) -> Json:
    """The strip, and the tabs where theirs are not of the usual width."""
    width = under.default("tab")
    usual = table("panel")["tabs"]["width"]
    return {"strip": chosen.strip} | ({} if width == usual else {"tabs": {"width": width}})


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
