"""The words about fixings: how many where, what to order, spacing, in which order they are set, what replaces one."""

from typing import Any

from fieldapp.trade.estimate.chance import INSIDE
from fieldapp.trade.lengths import Show, fill
from fieldapp.trade.rivets_say import again_says

Json = dict[str, Any]

CAUTIONS = (
    "The drill breaks through at the other person's face: look who is behind. Eyes; swarf cuts; mandrels fly, hot.",
    "Leaf latched and strapped shut, frame clamped at four corners, until it is fixed: a leaf swung out pulls an "
    "unfixed frame over on to you.",
    "These figures permit nothing: the drawing, the maker's sheet, local code and whoever may decide about fire and "
    "loads come first.")
NUMBER = {"sill": "Sill: {count|n} holes, {apart} apart.", "sides": "Sides: {count|n} holes, {each|n} a side, {apart} "
          "apart, in the land, {edge} from the cut.",
          "head": "Head: {count|n} holes, {each|n} in each of {flats|n} inner flats crossed."}
ONE_FLAT = "Head: {count|n} hole{s|text} in the one inner flat crossed."
SMOOTH_HEAD = "Head: {count|n} holes, {apart} apart, through the frame's own holes."
NONE_CROSSED = "Head: no inner flat is crossed; ask how the head is held."
ORDER = "Order row {row|text}: {holes|n} and {spare|n} spare, {order|n} in all ({places|text})."
NO_ROW = "No row for {places|text}: {holes|n} hole{s|text}. Ask the maker for another length."
AGAIN = "Measure the stack again before you order: {places|text} too close to call."
MISS = ("Lands and opening miss the corrugation by {miss}: measure both lands again, and the pitch, before anything is "
        "drilled.")
WIDE = ("The land {side|text}, {land}, is more than an outer flat, {most}: measure it again before anything is "
        "drilled.")
SHORT = {"outside": "{what|text}: {is} is less than {least}, {why|text}. Another place, or ask.",
         "too close to call": "{what|text}: {is} is too close to {least}, {why|text}, to call. Measure it again."}
WHAT = {"edge": ("Edge distance", "two diameters"), "sill.pitch": ("Pitch at the sill", "three diameters"),
        "sides.pitch": ("Pitch at the sides", "three diameters"),
        "head.pitch": ("Pitch at the head", "three diameters"),
        "left.flat": ("Flat beyond the holes, left", "half a rivet's head"),
        "right.flat": ("Flat beyond the holes, right", "half a rivet's head"),
        "head.flat": ("Flat beside the holes at the head", "half a rivet's head")}
WIDER = ("The handbook's most, edge {edge} and pitch {pitch} for the thinnest sheet, is for seams of plates; here the "
         "frame's own holes and the drawing decide.")
FIRST = "Set one low on each side first, the head still clamped; then by pairs from the hinges; the head last."
BAD = ("One that did not bite (loose, spinning, head high, stem out): drill off its head alone with the hole's own "
       "bit, punch it out, look at the hole. Never a longer rivet for a wide hole.")
OTHER = "Another pattern, other fixings, loads and fire rating: by drawing, and by whoever may decide."
SKIN = "The skin's metal decides the rivet's: find out what both skins are of."
CLAMP, HOLE = "Close the sheets", "Hole:"


def sentences(given: Json, made: Json, known: Json, show: Show) -> list[str]:
    """known: {"faults": of the lands, "thinnest": mm, "table": the handbook's rules, "words": what rivets said}."""
    lines = [fill(MISS if "miss" in one else WIDE, one, show) for one in known["faults"]]
    lines += [one["because"] for one in made["at"]]
    lines += [_number(name, given, made, show) for name in made["numbers"]]
    lines += [_order(one, show) for one in made["order"]]
    doubtful = [one["place"] for one in made["at"] if one["measure_again"]]
    lines += [fill(AGAIN, {"places": " and ".join(doubtful)}, show)] if doubtful else []
    for one in made["judged"]:
        if one["verdict"] != INSIDE:
            what, why = WHAT[one["what"]]
            lines.append(fill(SHORT[one["verdict"]], {"what": what, "why": why, "is": one["estimate"],
                                                      "least": one["from"]}, show))
    rules, thin = known["table"], known["thinnest"]
    lines.append(fill(WIDER, {"edge": rules["edge_to_thicknesses"] * thin,
                              "pitch": rules["pitch_to_thicknesses"] * thin}, show))
    kept = [line for line in dict.fromkeys(known["words"]) if "anode" in line or line.startswith((CLAMP, HOLE))]
    if made["flats_crossed"] is None and "metals" not in given:
        kept.append(SKIN)
    return [*lines, *kept, FIRST, BAD, *again_says(made["again"], True), OTHER]


def _number(name: str, given: Json, made: Json, show: Show) -> str:
    count, apart = made["numbers"][name], made["spacing"][name]
    if name == "head" and made["flats_crossed"] is None:
        return fill(SMOOTH_HEAD, {"count": count, "apart": apart}, show)
    if name == "head":
        flats = made["flats_crossed"]
        if flats == 1:
            return fill(ONE_FLAT, {"count": count, "s": _plural(count)}, show)
        return fill(NUMBER["head"], {"count": count, "each": count / flats, "flats": flats}, show) if flats \
            else NONE_CROSSED
    edge = given["edge"]
    return fill(NUMBER[name], {"count": count, "each": count / 2, "apart": apart,
                               "edge": edge["value"] if isinstance(edge, dict) else edge}, show)


def _order(one: Json, show: Show) -> str:
    places = ", ".join(one["places"])
    if one["row"] is None:
        return fill(NO_ROW, {"places": places, "holes": one["holes"], "s": _plural(one["holes"])}, show)
    return fill(ORDER, one | {"places": places}, show)


def _plural(count: float) -> str:
    return "" if count == 1 else "s"
