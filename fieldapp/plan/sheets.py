"""The sheets that a unit's plan needs, made by the trade modules with the tables and the plan's figures."""

from collections.abc import Callable
from typing import Any

from fieldapp.plan.dimensions import Plan
from fieldapp.plan.planned import TOLERANCES
from fieldapp.plan.tables import table
from fieldapp.trade import containers, frame, opening, rivets, seals, trim, wheels
from fieldapp.trade.estimate.band import within

Json = dict[str, Any]
OPENING = (
    "measured.frame_width",
    "measured.frame_height",
    "cut.width_head",
    "cut.width_mid",
    "cut.width_sill",
    "cut.height_left",
    "cut.height_right",
)
FRAMES = ("frame", "frame_built", "frame_recheck")


def sheets(plan: Plan) -> list[Json]:
    """The plan's sheets, each with its own name; only those that its steps can feed."""
    made = [_frame(plan, name) for name in FRAMES]
    makers: list[tuple[Callable[[Plan], Json], bool]] = [
        (_toe, True),
        (_sides, True),
        (_head, True),
        (_seal, plan.flags["bulb"]),
        (_opening, True),
        (_stance, True),
        (_flats, plan.flags["corrugated"]),
        (_cut_land, plan.flags["corrugated"]),
        (_wheel, plan.flags["disc"]),
        (_container, True),
    ]
    return made + [make(plan) for make, wanted in makers if wanted]


def rows(made: list[Json]) -> dict[str, list[str]]:
    """{name of a rivet sheet: names of its rows}, the options of the `row` field beside it."""
    return {
        sheet["name"]: [row["name"] for row in sheet["rows"]["rows"]] for sheet in made if "rows" in sheet
    }


def _frame(plan: Plan, name: str) -> Json:
    """The frame's sheet; limits from the maker's sheet where it sets them, else the defaults."""
    chosen = plan.choices
    limits = {name: plan.under.default(name) for name in TOLERANCES} | chosen.tolerance
    sources = "; ".join(dict.fromkeys(plan.under.origin(name)["source"] for name in TOLERANCES))
    made = frame.sheet(chosen.corners_width, chosen.corners_height, chosen.hand, limits, name=name)
    makers = f"; {', '.join(sorted(chosen.tolerance))} by {chosen.drawing}" if chosen.tolerance else ""
    return made | {"source": sources + makers}


def _toe(plan: Plan) -> Json:
    """Width behind less width in front, at sill, mid-height and head."""
    inputs = []
    for what, called in (
        ("sill", "Toe at the sill"),
        ("mid", "Toe at mid-height"),
        ("head", "Toe at the head"),
    ):
        inputs += [
            {
                "name": f"back.{what}",
                "say": f"Width behind, {what}",
                "u": 0.5,
                "what": what,
                "called": called,
            },
            {"name": f"front.{what}", "say": f"Width in front, {what}", "u": 0.5, "times": -1, "what": what},
        ]
    limit = plan.under.default("toe")
    return within("toe", inputs, -limit, limit, source=plan.under.origin("toe")["source"])


def _rivet(plan: Plan, name: str, stack: list[str], place: str, stand_off: str | None) -> Json:
    return rivets.sheet(
        name,
        plan.choices.rivet,
        stack,
        place,
        plan.under.rivets,
        table("doubt"),
        stand_off=stand_off,
        metals={"rivet": "steel", "sheet": "steel"},
    )


def _sides(plan: Plan) -> Json:
    return _rivet(plan, "rivet_sides", ["Flange", "Wall sheet"], "the sides", None)


def _head(plan: Plan) -> Json:
    return _rivet(
        plan,
        "rivet_head",
        ["Fold at the head", "Wall sheet"],
        "the head",
        "measured" if plan.flags["bulb"] else None,
    )


def _seal(plan: Plan) -> Json:
    return seals.sheet(
        "seal",
        ["left end", "middle", "right end"],
        table("seals"),
        table("doubt"),
        limits=list(plan.choices.seal_band),
    )


def _opening(plan: Plan) -> Json:
    chosen = plan.choices
    seal: Json = (
        {"kind": "bulb", "free_height": chosen.free_height, "compression": chosen.compression}
        if chosen.seal == "bulb"
        else {"kind": "bead", "thickness": chosen.bead}
    )
    given: Json = {
        "wall": chosen.wall,
        "frame": {"width": chosen.frame_width, "height": chosen.frame_height},
        "clearance": chosen.clearance,
        "head_seal": seal,
        "edge_trim": chosen.edge_trim,
        "head_kit": "none" if chosen.kit == "none" else {"profile": chosen.kit, "rise": chosen.rise},
    }
    return opening.sheet("opening", given, table("opening"), table("doubt"), OPENING)


def _stance(plan: Plan) -> Json:
    """The two diagonal pairs of corner heights: a box is twisted by what they differ."""
    corners = (("near_left", 1), ("far_right", 1), ("near_right", -1), ("far_left", -1))
    inputs = [
        {
            "name": name,
            "say": f"Height, {name.replace('_', ' ')} corner",
            "u": 1.0,
            "times": times,
            "what": "warp",
            "called": "Twist of the box",
        }
        for name, times in corners
    ]
    limit = plan.under.default("corner_warp")
    return within(
        "stance",
        inputs,
        -limit,
        limit,
        source=plan.under.origin("corner_warp")["source"],
        say={
            "outside": "Twist of the box: {size}. Add the heights crosswise, near left to far right and near right "
            "to far left: of the pair that makes less, pack the lower corner, under its casting, not mid-rail. "
            "Then measure again."
        },
    )


def _flats(plan: Plan) -> Json:
    """How far the edge of each flat leans between sill and head."""
    inputs = []
    for side in ("left", "right"):
        inputs += [
            {
                "name": f"{side}.head",
                "say": f"{side} flat's edge at the head",
                "u": table("doubt")["tape"],
                "what": f"{side}_lean",
                "called": f"Lean of the {side} flat's edge",
            },
            {
                "name": f"{side}.sill",
                "say": f"{side} flat's edge at the sill",
                "u": table("doubt")["tape"],
                "times": -1,
                "what": f"{side}_lean",
            },
        ]
    limit = plan.under.default("flat_lean")
    return within("flats", inputs, -limit, limit, source=plan.under.origin("flat_lean")["source"])


def _cut_land(plan: Plan) -> Json:
    """What may still be trimmed off each side of the cut: the land read there less what is needed."""
    whence = plan.origin("needs_land", "needs_land")["source"]
    return trim.sheet("cut_land", plan.choices.needs_land, table("doubt")["tape"], f"land needed: {whence}")


def _wheel(plan: Plan) -> Json:
    del plan
    return wheels.sheet("wheel")


def _container(plan: Plan) -> Json:
    del plan
    return containers.sheet("container")
