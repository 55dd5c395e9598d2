"""The sentences about how a box stands: packing first, for a twisted box has no single tilt."""

from typing import Any

from fieldapp.trade.estimate.chance import INSIDE, OUTSIDE, TOO_CLOSE
from fieldapp.trade.lengths import Show, fill

Json = dict[str, Any]

PACK = ("Pack {by} under the {corner|text} corner casting, not mid-rail. Take every reading afterwards: those taken "
        "before no longer count.")
TWISTED = "The box is twisted by {size}, more than {high}."
WARP_SAYS = {
    OUTSIDE: f"{TWISTED} Pack the low corner under its casting, not mid-rail, then take every reading again.",
    TOO_CLOSE: "The box is twisted by {size}, too close to {high} to call. Read the four corners again.",
    INSIDE: "The box is twisted by {size}, within {high}.",
}
SPREAD_SAYS = {
    OUTSIDE: "The corners differ by {size}, more than {high}: the box stands out of level.",
    TOO_CLOSE: "The corners differ by {size}, too close to {high} to call. Read the highest and the lowest again.",
    INSIDE: "The corners differ by {size}, within {high}.",
}
ALONG = "The wall's foot rises {size} to the {side|text} over {over}."
THROUGH = "The wall leans {side|text} {size} over {over}."
LEAF = ("In a tilted box a leaf swings by itself towards the low side. Tell the owner; do not cure it by the hinges, "
        "and set the frame to the corrugation, not to the bubble.")
LEVEL = "To level the box, raise {list|text}."
LEAST = 0.05  # mm: less is said as nothing


def sentences(made: Json, show: Show) -> list[str]:
    """What to say of an answer, in mm or inches as `show` asks."""
    packing = [fill(PACK, {"by": one["by"], "corner": one["corner"].replace("_", " ")}, show)
               for one in made["pack"]]
    spread, warp = made["judged"]
    return [*packing, _judged(warp, {**WARP_SAYS, OUTSIDE: TWISTED}, show), _judged(spread, SPREAD_SAYS, show),
            *([] if made["pack"] else _tilts(made["tilt"], show)), *_out_of_level(made, show)]


def _judged(one: Json, says: dict[str, str], show: Show) -> str:
    return fill(says[one["verdict"]], {"size": abs(one["estimate"]), "high": one["to"]}, show)


def _tilts(tilt: Json, show: Show) -> list[str]:
    lines = []
    for sentence, by, sides in ((ALONG, tilt["along"], ("right", "left")), (THROUGH, tilt["through"], ("out", "in"))):
        if abs(by) >= LEAST:
            side = sides[0] if by > 0 else sides[1]
            lines.append(fill(sentence, {"size": abs(by), "side": side, "over": tilt["over"]}, show))
    return lines


def _out_of_level(made: Json, show: Show) -> list[str]:
    if made["judged"][0]["verdict"] == INSIDE:
        return []
    lacking = [f"{corner.replace('_', ' ')} {fill('{by}', {'by': by}, show)}"
               for corner, by in made["level"].items() if by >= LEAST]
    return [LEAF, *([fill(LEVEL, {"list": ", ".join(lacking)}, show)] if lacking else [])]
