"""The sentences about an opening against its plan."""

from typing import Any

from fieldapp.trade.lengths import Show, fill

LEAD = "Cut {cut_width} wide and {cut_height} high."
NAMES = {
    "drawing.width": "Width on the drawing", "drawing.height": "Height on the drawing",
    "measured.frame_width": "Width of the frame", "measured.frame_height": "Height of the frame",
    "cut.width_head": "Opening's width at the head", "cut.width_mid": "Opening's width at mid-height",
    "cut.width_sill": "Opening's width at the sill", "cut.height_left": "Opening's height at the left",
    "cut.height_right": "Opening's height at the right",
}
TERMS = {
    "clearance_left": "the clearance at the left", "clearance_right": "the clearance at the right",
    "edge_trim": "the edge trim", "clearance_head": "the clearance at the head",
    "clearance_sill": "the clearance at the sill", "head_kit": "the rise of the head kit",
    "head_seal": "the head seal",
}
TERM_SAYS = {
    "left out": "{say|text}: {size} off the plan, as if it left out {terms|text}.",
    "counted twice": "{say|text}: {size} off the plan, as if it counted {terms|text} twice.",
}
CLOSE = "{say|text}: {size} off the plan, too close to {high} to call. Measure it again."
INSIDE = "{say|text}: within {high} of the plan."
SMALL = {"drawing": "{say|text}: {size} less than the plan. Ask which one is right before anything is cut.",
         "measured": "{say|text}: {size} smaller than the drawing says. Check that it is the right door.",
         "cut": "{say|text}: {size} too small. Trim {trim^} only where land and edge distance stay; else "
                "ask."}
LARGE = {"drawing": "{say|text}: {size} more than the plan. Ask which one is right before anything is cut.",
         "measured": "{say|text}: {size} larger than the drawing says. Check that it is the right door.",
         "cut": "{say|text}: {size} too large. Ask the supervisor: a wider flange or a plate, never a fat "
                "bead."}


def sentences(what: str) -> dict[str, str]:
    """The sentences of one figure by verdict and side."""
    group = what.split(".")[0]
    return {"inside": INSIDE, "too close to call": CLOSE, "below": SMALL[group], "above": LARGE[group]}


def room_says(rack: float | None, room: dict[str, Any], show: Show) -> list[str]:
    """What is left around a frame that is set square, and which way the opening leans."""
    lines = []
    if room["width"] is not None:
        sentence = ("Set square, the frame has {room} of room across." if room["width"] >= 0 else
                    "Set square, the frame does not go in: it lacks {room} across.")
        lines.append(fill(sentence, {"room": abs(room["width"])}, show))
    if room["height"] is not None:
        sentence = ("The frame has {room} of room in height." if room["height"] >= 0 else
                    "The frame does not go in: it lacks {room} of height.")
        lines.append(fill(sentence, {"room": abs(room["height"])}, show))
    if rack is not None and abs(rack) >= 0.05:
        sentence = "The opening's head stands {rack} to the {side|text} of square."
        lines.append(fill(sentence, {"rack": abs(rack), "side": "right" if rack > 0 else "left"}, show))
    return lines
