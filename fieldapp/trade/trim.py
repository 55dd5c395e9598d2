"""Trimming a cut that is too narrow: how much each side may lose, so that the land that is needed always stays.

A side's spare = land from the cut to the slope - land needed - guard; the guard is what the land's own doubt may hide
(1.96 u, 19 times in 20, JCGM 100, G.1.3) and half of the 1/32 in to which a figure is said. Lengths mm. That a flange
needs land at all, and how much, is the maker's sheet or our default; a cut that cannot be widened without it is for the
supervisor.
"""

from math import floor
from typing import Any

from fieldapp.trade.lengths import Show, fill

Json = dict[str, Any]
COVERS = 1.96
HALF_32ND = 25.4 / 64
PLACES = ("left_sill", "right_sill", "left_head", "right_head")
STEPS: dict[str, float] = {"mm": 0.5, "in": 25.4 / 32}
SAYS = {
    "inside": "{say|text}: at most {estimate} may come off here; the rest is needed land.",
    "too close to call": "{say|text}: too little to spare to be sure. Take nothing off here, or read the land again.",
    "below": "{say|text}: nothing may come off here, all of it is needed land. Ask the supervisor.",
}


def guard(u: float) -> float:
    """What is kept back of a land whose standard uncertainty is u, mm."""
    return COVERS * u + HALF_32ND


def sheet(name: str, needs_land: float, u: float, source: str) -> Json:
    """The band sheet of what each side of the cut can spare; inputs and judged: PLACES, the lands read at the cut.

    needs_land: mm; u: of a land read by tape. What is judged is the spare itself, from 0, so its estimate is the most
    that may be trimmed.
    """
    says = {place: f"Land {place.replace('_', ' at the ')}" for place in PLACES}
    return {
        "name": name,
        "kind": "band",
        "source": source,
        "inputs": [
            {"name": place, "say": says[place], "unit": "mm", "u": u, "from": 0, "to": 300, "needed": False}
            for place in PLACES
        ],
        "values": [{"name": place, "plus": -(needs_land + guard(u)), "sum": [[place, 1]]} for place in PLACES],
        "judged": [
            {"what": place, "value": place, "from": 0, "to": None, "say": says[place], "unit": "mm", "sentences": SAYS}
            for place in PLACES
        ],
    }


def split(lack: float, left: float, right: float) -> tuple[float, float, float]:
    """(off the left, off the right, still short) for a width that lacks `lack`, mm.

    left, right: what the sides can spare, below 0 counting as none. No side loses more than it can spare, and what the
    sides keep is as even as that allows.
    """
    spare_left, spare_right = max(0.0, left), max(0.0, right)
    take = max(0.0, min(lack, spare_left + spare_right))
    off_left = min(take, max(0.0, (take + spare_left - spare_right) / 2))
    return off_left, take - off_left, max(0.0, lack - take)


def advice(where: str, lack: float, left: float | None, right: float | None, show: Show = "mm") -> str:
    """A sentence for a width at `where` (sill, head) that lacks `lack` mm; left, right: spare, None where not read.

    Amounts are said rounded down to 0.5 mm or 1/32 in, never up.
    """
    if lack <= 0:
        return ""
    blanks: Json = {"where": where, "lack": lack}
    if left is None or right is None:
        return fill("At the {where|text} {lack} is missing: read the land at the cut, left and right, before "
                    "anything comes off.", blanks, show)
    off_left, off_right, _ = split(lack, left, right)
    blanks |= {"left": _down(off_left, show), "right": _down(off_right, show)}
    short = lack - blanks["left"] - blanks["right"]
    parts = [f"{{{side}}} off the {side}" for side in ("left", "right") if blanks[side] > 0]
    if not parts:
        return fill("At the {where|text} {lack} is missing and no land can be spared: trim nothing, ask the "
                    "supervisor.", blanks, show)
    sentence = f"At the {{where|text}} {{lack}} is missing: trim at most {' and '.join(parts)}"
    if short > STEPS[show]:
        return fill(sentence + "; the rest is needed land: ask the supervisor.", blanks | {"short": short}, show)
    return fill(sentence + "; the needed land stays.", blanks, show)


def _down(mm: float, show: Show) -> float:
    step = STEPS[show]
    return floor(mm / step + 1e-9) * step
