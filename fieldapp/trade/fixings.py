"""The frame's fixings: grip and row at sill, sides and head, where the holes go, how many of each to order.

Jamb fixings sit in the land, head fixings in each inner flat crossed; another pattern only by drawing. Positions run
from the cut's left edge and from the sill line, seen from outside; mm.
"""

from itertools import pairwise
from math import ceil, hypot
from typing import Any

from fieldapp.trade.corrugation import pitch as pitch_of
from fieldapp.trade.estimate.band_values import tidy
from fieldapp.trade.estimate.chance import judged
from fieldapp.trade.fixings_say import CAUTIONS, sentences
from fieldapp.trade.lengths import Show
from fieldapp.trade.measured import parted
from fieldapp.trade.rivets import rivet, size_of

Json = dict[str, Any]
PLACES = ("sill", "sides", "head")
OF_RIVET = ("diameter", "rows", "hole", "metals")


def spaced(long: float, end: float, place: Json) -> list[float]:
    """Where holes stand along a length, the first and last `end` from its ends: `count` of them, or at most the
    `pitch` apart. mm.
    """
    free = long - 2 * end
    pitch = parted(place["pitch"], 0)[0] if "pitch" in place else None
    count = int(place["count"]) if pitch is None else max(2, ceil(free / pitch - 1e-9) + 1)
    return [tidy(end + free * i / (count - 1)) for i in range(count)]


def crossed(profile: Json, land_left: float, land_right: float, width: float) -> tuple[int, float]:
    """(inner flats that the head crosses, what the lands miss the corrugation by, mm).

    Both cuts stand in outer flats, k pitches apart: land left + width + land right = k * pitch + outer.
    """
    over = land_left + width + land_right - profile["outer"]
    flats = max(0, round(over / pitch_of(profile)))
    return flats, over - flats * pitch_of(profile)


def inner_flats(profile: Json, land_left: float, flats: int) -> list[tuple[float, float]]:
    """(from, to) of each inner flat crossed, from the cut's left edge, where the land left is known."""
    first = profile["outer"] + profile["slope"] - land_left
    return [(first + n * pitch_of(profile), first + n * pitch_of(profile) + profile["inner"]) for n in range(flats)]


def fixings(given: Json, table: Json, rivets: Json, profiles: Json, doubt: Json, sure: Json) -> Json:
    """Rows, holes and numbers of a frame's fixings.

    given: wall, opening {width, height}, diameter, stack, edge, sides, head, and where known land {left, right},
    sill, profile, rows, hole, metals, replaces, show; sides, head, sill: {stack, stand_off, count or pitch, end,
    per_flat}. table, rivets, profiles, doubt: seed_data/tables; sure: layout.toml's doubt of a profile.
    """
    show: Show = given.get("show", "mm")
    profile: Json | None = given.get("profile") or profiles.get(given["wall"])
    places = {name: given[name] for name in PLACES if name in given}
    base = {name: given[name] for name in OF_RIVET if name in given}
    each = {name: rivet(base | {"stack": place.get("stack", given["stack"]), "show": show, "at": [
        {"place": name, **({"stand_off": place["stand_off"]} if "stand_off" in place else {})}]}, rivets, doubt)
        for name, place in places.items()}
    holes, flats = _holes(given, places, profile, table)
    at = [one["at"][0] for one in each.values()]
    again = rivet(base | {name: given[name] for name in ("edge", "replaces", "stack") if name in given} | {
        "at": [{"place": "sides"}]}, rivets, doubt)["again"]
    made: Json = {"at": at, "holes": holes, "flats_crossed": flats,
                  "numbers": {name: sum(hole["place"] == name for hole in holes) for name in places},
                  "spacing": {name: _nearest(holes, name) for name in places},
                  "hole": next(iter(each.values()))["hole"], "again": again}
    made["order"] = _order(at, made["numbers"], table["spare"])
    made["judged"] = _judged(given, made, profile, table, rivets, doubt)
    known = {"faults": _land_faults(given, profile, flats, table["fit"], doubt, sure), "table": rivets["handbook"],
             "thinnest": _thinnest(given, places), "words": [line for one in each.values() for line in one["say"]]}
    return made | {"cautions": list(CAUTIONS), "say": sentences(given, made, known, show)}


def _holes(given: Json, places: Json, profile: Json | None, table: Json) -> tuple[list[Json], int | None]:
    """(every hole, inner flats that the head crosses)."""
    width, height, edge = given["opening"]["width"], given["opening"]["height"], parted(given["edge"], 0)[0]
    ends = {name: place.get("end", table["end"]) for name, place in places.items()}
    found: list[Json] = []
    if "sill" in places:
        found += [{"place": "sill", "across": x, "up": -edge} for x in spaced(width, ends["sill"], places["sill"])]
    for x in (-edge, tidy(width + edge)):
        found += [{"place": "sides", "across": x, "up": up} for up in spaced(height, ends["sides"], places["sides"])]
    top = tidy(height + edge)
    if profile is None:
        row = spaced(width, ends["head"], places["head"])
        return found + [{"place": "head", "across": x, "up": top} for x in row], None
    left, right = (parted(given["land"][side], 0)[0] for side in ("left", "right"))
    flats, _ = crossed(profile, left, right, width)
    count = int(places["head"].get("per_flat", table["per_flat"]))
    return found + [{"place": "head", "across": tidy(low + (high - low) * (i + 0.5) / count), "up": top}
                    for low, high in inner_flats(profile, left, flats) for i in range(count)], flats


def _land_faults(given: Json, profile: Json | None, flats: int | None, far: float, doubt: Json,
                 sure: Json) -> list[Json]:
    """What the lands contradict: [{"side", "land", "most"}] where one is more than a flat, else [{"miss"}] where both
    and the opening miss the corrugation. far: in standard uncertainties.
    """
    if profile is None or flats is None:
        return []
    lands = {side: parted(given["land"][side], doubt["corrugation"]) for side in ("left", "right")}
    wide = [{"side": side, "land": land, "most": profile["outer"]} for side, (land, u) in lands.items()
            if land - profile["outer"] > far * hypot(u, sure["outer"])]
    _, miss = crossed(profile, lands["left"][0], lands["right"][0], given["opening"]["width"])
    u_all = hypot(*(u for _, u in lands.values()), sure["outer"], flats * sure["pitch"])
    return wide or ([{"miss": abs(miss)}] if abs(miss) > far * u_all else [])


def _nearest(holes: list[Json], name: str) -> float | None:
    """The least distance between two neighbouring holes of a place, mm; None where there is only one."""
    along = sorted({(hole["across"], hole["up"]) for hole in holes if hole["place"] == name})
    apart = [tidy(hypot(b[0] - a[0], b[1] - a[1])) for a, b in pairwise(along)
             if name != "sides" or a[0] == b[0]]
    return min(apart, default=None)


def _order(at: list[Json], numbers: dict[str, int], spare: int) -> list[Json]:
    """[{"row", "holes", "spare", "order", "places"}] by row; row None: not known yet."""
    found: dict[str | None, list[str]] = {}
    for one in at:
        found.setdefault(one["row"], []).append(one["place"])
    made = []
    for row, places in found.items():
        count = sum(numbers[place] for place in places)
        more = ceil(count / spare)
        made.append({"row": row, "holes": count, "spare": more, "order": count + more, "places": places})
    return made


def _thinnest(given: Json, places: Json) -> float:
    stacks = [given["stack"], *(place["stack"] for place in places.values() if "stack" in place)]
    return min(parted(item["thickness"], 0)[0] for stack in stacks for item in stack)


def _judged(given: Json, made: Json, profile: Json | None, table: Json, rivets: Json, doubt: Json) -> list[Json]:
    """Edge, pitches, and the flat that a head needs between hole and slope; against the least, all mm."""
    diameter, rules = given["diameter"], rivets["handbook"]
    edge, u_edge = parted(given["edge"], doubt["tape"])
    found = [judged("edge", edge, u_edge, tidy(rules["edge_from_diameters"] * diameter), None)]
    found += [judged(f"{name}.pitch", apart, doubt["tape"], tidy(rules["pitch_from_diameters"] * diameter), None)
              for name, apart in made["spacing"].items() if apart is not None]
    if profile is None:
        return found
    bears = (size_of(rivets, diameter) or {}).get("head", table["head"] * diameter) / 2
    for side in ("left", "right"):
        land, u = parted(given["land"][side], doubt["corrugation"])
        found.append(judged(f"{side}.flat", land - edge, hypot(u, u_edge), bears, None))
    count = int(given["head"].get("per_flat", table["per_flat"]))
    return [*found, judged("head.flat", profile["inner"] / (2 * count), doubt["corrugation"], bears, None)]
