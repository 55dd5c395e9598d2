"""Choices turned into planned figures, the conditions that steps ask for, and the words that fill texts."""

from dataclasses import dataclass
from math import hypot
from typing import Any

from fieldapp.plan.choices import Choices
from fieldapp.plan.in_force import InForce, seeded
from fieldapp.trade import lengths

WALL_WORDS = {"corrugated side": "side wall", "corrugated end": "end wall", "smooth insulated": "smooth wall"}
KIT_WORDS = {"angled": "angled kit", "straight": "straight kit", "none": "no head kit"}
SEAL_WORDS = {"bulb": "bulb seal", "bead": "sealant at the head"}
OTHER = {"left": "right", "right": "left"}


@dataclass(frozen=True)
class Plan:
    """What steps, sheets and drawings are made from.

    `dims`: planned figures by name (mm, or the unit its name says); `flags`: what a `when` asks;
    `texts`: what `{name}` says in a text; `under`: the catalogues' editions it is made under.
    """

    choices: Choices
    dims: dict[str, float]
    flags: dict[str, Any]
    texts: dict[str, str]
    under: InForce

    def origin(self, name: str, path: str | None = None) -> dict[str, str]:
        """Where a figure is from: the maker's sheet when it gave it under `path`, else the default's."""
        if path is None or path in self.choices.makers:
            return {"origin": "M", "source": self.choices.drawing}
        return self.under.origin(name)


def seal_height(chosen: Choices) -> float:
    """What the head seal adds to the opening: the bulb's working height, or the bead's thickness (mm)."""
    if chosen.seal == "bulb":
        return chosen.free_height * (1 - chosen.compression / 100)
    return chosen.bead


def opening_size(chosen: Choices) -> tuple[float, float]:
    """Width and height of the cut (mm): the sums of contract.md's `opening`."""
    room = chosen.clearance
    return (
        chosen.frame_width + room["left"] + room["right"] + 2 * chosen.edge_trim,
        chosen.frame_height + room["head"] + room["sill"] + chosen.rise + seal_height(chosen),
    )


def plan_of(chosen: Choices, under: InForce | None = None) -> Plan:
    """Everything that steps, sheets and drawings need to know of a unit's choices; under edition 0 when None."""
    under = under or seeded()
    dims = _dims(chosen, under)
    return Plan(chosen, dims, _flags(chosen), _texts(chosen, dims), under)


def _dims(chosen: Choices, under: InForce) -> dict[str, float]:
    width, height = opening_size(chosen)
    low, high = chosen.seal_band
    return {
        "opening_width": width,
        "opening_height": height,
        "opening_diagonal": hypot(width, height),
        "frame_width": chosen.frame_width,
        "frame_height": chosen.frame_height,
        "corners_width": chosen.corners_width,
        "corners_height": chosen.corners_height,
        "corners_diagonal": hypot(chosen.corners_width, chosen.corners_height),
        "needs_land": chosen.needs_land,
        "strip": chosen.strip,
        "rail": chosen.rail,
        "free_height": chosen.free_height,
        "seal_gap_from": chosen.free_height * (1 - high / 100),
        "seal_gap_to": chosen.free_height * (1 - low / 100),
        "seal_height": seal_height(chosen),
        "limit_from": chosen.limit_from,
        "limit_to": chosen.limit_to,
        "watch_minutes": chosen.watch_minutes,
        "wind_limit": chosen.wind_limit,
        "gap_from": under.default("leaf_gap")[0],
        "gap_to": under.default("leaf_gap")[1],
        "lever_from": under.default("lever_height")[0],
        "lever_to": under.default("lever_height")[1],
        **{
            name: under.default(name)
            for name in (
                "tab",
                "floor_above",
                "wall_flat",
                "flat_lean",
                "closing_seconds",
                "dew_margin",
                "level_change",
                "corner_spread",
                "corner_warp",
            )
        },
    }


def _flags(chosen: Choices) -> dict[str, Any]:
    return {
        "wall": chosen.wall,
        "hand": chosen.hand,
        "kit": chosen.kit,
        "limit": chosen.limit,
        "glass": chosen.glass,
        "corrugated": chosen.corrugated,
        "insulated": not chosen.corrugated,
        "has_kit": chosen.kit != "none",
        "bulb": chosen.seal == "bulb",
        "bead": chosen.seal == "bead",
        "edge_trim": chosen.side_edges == "edge trim",
        "standing_strip": chosen.strip > 0,
        "disc": chosen.corrugated,
        "glazed": chosen.glass != "none",
        "panic_bar": chosen.panic_bar,
        "closer": chosen.closer,
        "fire_rated": chosen.fire_rated,
        "reversible": chosen.reversible,
        "mass_known": chosen.leaf_mass is not None and chosen.total_mass is not None,
        "panel_known": chosen.panel_mass is not None,
    }


def both(mm: float) -> str:
    """A length in both units, for texts that nobody can switch: `926 mm (36 15/32 in)`."""
    return f"{lengths.say(mm, 'mm')} ({lengths.say(mm, 'in')})"


def _texts(chosen: Choices, dims: dict[str, float]) -> dict[str, str]:
    said = {name: both(value) for name, value in dims.items()}
    plain = {
        name: f"{dims[name]:g}"
        for name in ("limit_from", "limit_to", "watch_minutes", "wind_limit", "closing_seconds", "dew_margin")
    }
    words = {
        "limit": {"chain": "check chain", "stop": "door stop"}[chosen.limit],
        "hand": chosen.hand,
        "hinge": chosen.hand,
        "latch": OTHER[chosen.hand],
        "wall": WALL_WORDS[chosen.wall],
        "kit": KIT_WORDS[chosen.kit],
        "seal": SEAL_WORDS[chosen.seal],
        "drawing": chosen.drawing,
        "leaf_mass": f"{chosen.leaf_mass or 0:g} kg",
        "total_mass": f"{chosen.total_mass or 0:g} kg",
        "panel_mass": f"{chosen.panel_mass or 0:g} kg",
        "band_from": f"{chosen.seal_band[0]:g}",
        "band_to": f"{chosen.seal_band[1]:g}",
        "width_sum": width_sum(chosen),
        "height_sum": height_sum(chosen),
        "iso_closing": closing_direction(chosen.hand),
        "us_hand": f"{chosen.hand}-hand reverse",
    }
    return {**said, **plain, **words}


def closing_direction(hand: str) -> str:
    """ISO closing direction of a leaf that swings out, seen from above as it shuts.

    From outside a left-hand leaf opens towards the viewer about an axis on the left: from above (viewer at
    the bottom of the plan) it opens clockwise, so it closes anti-clockwise. Geometry.
    """
    return "anti-clockwise" if hand == "left" else "clockwise"


def width_sum(chosen: Choices) -> str:
    """The width of the cut as a sum, in mm: every term named."""
    room = chosen.clearance
    terms = [
        ("frame", chosen.frame_width),
        ("left clearance", room["left"]),
        ("right clearance", room["right"]),
    ]
    if chosen.edge_trim:
        terms.append(("edge trim, twice", 2 * chosen.edge_trim))
    return _sum(terms)


def height_sum(chosen: Choices) -> str:
    """The height of the cut as a sum, in mm: every term named."""
    room = chosen.clearance
    terms = [
        ("frame", chosen.frame_height),
        ("head clearance", room["head"]),
        ("sill packing", room["sill"]),
        ("head kit's rise", chosen.rise),
        (SEAL_WORDS[chosen.seal], seal_height(chosen)),
    ]
    return _sum([terms[0], *(term for term in terms[1:] if term[1])])


def _sum(terms: list[tuple[str, float]]) -> str:
    return " + ".join(f"{name} {value:.1f}".removesuffix(".0") for name, value in terms)
