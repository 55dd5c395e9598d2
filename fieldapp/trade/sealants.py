"""Sealant: how much goes into the joints, and whether they move further than it takes.

Volume = section * length. Movement in per cent of the width as installed, against the class of ASTM C920; least
width = 100 * movement / class + building tolerance (ASTM C1472, from memory; the movement is never added twice).
Lengths mm, volumes mL, temperatures as differences in K.
"""

from math import ceil, pi
from typing import Any

from fieldapp.trade.estimate.band_values import tidy
from fieldapp.trade.estimate.chance import judged
from fieldapp.trade.lengths import Show
from fieldapp.trade.measured import parted
from fieldapp.trade.sealants_say import sentences

Json = dict[str, Any]
Limits = tuple[float, float]  # what a class takes of opening and closing, per cent of the width

MM3_PER_ML = 1000
NEAR = 1e-9


def section(shape: str, width: float, depth: float) -> float:
    """Area in mm2 of a rectangle, a fillet by its legs, or a round bead (width mm across, no depth)."""
    if shape == "bead":
        return pi * width**2 / 4
    return width * depth / (2 if shape == "fillet" else 1)


def limits_of(grade: float | str | None, classes: list[Json]) -> Limits:
    """What a class takes of opening and closing, %; (0, 0) without one."""
    return next(((one["opens"], one["closes"]) for one in classes if one["class"] == grade), (0.0, 0.0))


def growth(thermal: Json, alpha: float) -> float:
    """mm that a length (mm) grows by a change (K), with the given alpha or else the usual one (1e-6/K)."""
    return float(thermal["length"] * thermal["change"] * thermal.get("alpha", alpha) * 1e-6)


def cartridges(volume: float, cartridge: float) -> int:
    """Cartridges for a volume (both mL), rounded up; within 1e-9 of a whole number it is that number."""
    count = volume / cartridge
    return round(count) if abs(count - round(count)) <= NEAR else ceil(count)


def _moves(joint: Json, alpha: float) -> dict[str, float]:
    """mm by which it opens and closes."""
    heat = growth(joint["thermal"], alpha) if "thermal" in joint else 0.0
    return {way: tidy(joint.get(way, 0.0) + heat) for way in ("opens", "closes")}


def _joint(joint: Json, limits: Limits, build: float, table: Json) -> tuple[Json, list[Json]]:
    """(a joint's answer, what is judged of it)."""
    width, u = parted(joint["width"], 0.0)
    depth, u_depth = parted(joint.get("depth", 0.0), 0.0)
    moves, rectangle = _moves(joint, table["alpha"]), joint["shape"] == "rectangle"
    movement = {way: tidy(100 * by / width) for way, by in moves.items()} if any(moves.values()) else None
    lines = [judged(way, movement[way], movement[way] * u / width, None, limit)
             for way, limit in zip(moves, limits, strict=True)] if movement else []
    lines += [judged("width", width, u, table["width_least"], None)] if movement or rectangle else []
    lines += [judged("depth", depth, u_depth, table["depth_least"], table["depth_most"])] if rectangle else []
    needed = max(100 * by / limit for by, limit in zip(moves.values(), limits, strict=True)) if movement else 0.0
    wanted = min(max(width * table["depth_of_width"], table["depth_least"]), table["depth_most"])
    return {"where": joint["where"], "volume": section(joint["shape"], width, depth) * joint["length"] / MM3_PER_ML,
            "movement": movement, "width_needed": tidy(needed + build) if movement else None,
            "depth_wanted": wanted if rectangle else None}, [
        line | {"what": f"{joint['where']}.{line['what']}"} for line in lines]


def sealant(given: Json, table: Json) -> Json:
    """Volume, cartridges, movement, width and depth of every joint (contract: sealant).

    given: joints [{"where", "shape", "length", "width", "depth", "opens", "closes", "thermal" {length, change
    (K), alpha (1e-6/K)}}], and where known class (ASTM C920; needed where anything moves), build (mm), cartridge
    (mL), waste (%), cure, show. Lengths mm; a measured one is a number or {"value", "u"}. table:
    seed_data/tables/sealant.toml.
    """
    show: Show = given.get("show", "mm")
    limits, build = limits_of(given.get("class"), table["classes"]), given.get("build", 0.0)
    cartridge = table["cartridge"] if "cartridge" not in given else given["cartridge"]
    pairs = [_joint(joint, limits, build, table) for joint in given["joints"]]
    volume = sum(made["volume"] for made, _ in pairs)
    with_waste = volume * (1 + given.get("waste", 0.0) / 100)
    answer = {"joints": [made for made, _ in pairs], "volume": volume, "with_waste": with_waste,
              "cartridges": cartridges(with_waste, cartridge), "judged": [line for _, lines in pairs for line in lines]}
    widths = [parted(joint["width"], 0.0)[0] for joint in given["joints"]]
    return answer | {"say": sentences(pairs, widths, answer, cartridge, given.get("cure"), show)}
