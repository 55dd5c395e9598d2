"""What made an edge a misfit: a slip of the tape, a flat's edges mistaken, or a dented flat.

The slips of the tape are those of the frame's readings (frame_doubts.py). A misfit is known up to whole pitches, so
a slip counts by what is left of it there.
"""

from math import log
from typing import Any

from fieldapp.trade.estimate.linear_suspects import swaps
from fieldapp.trade.frame_doubts import suspects
from fieldapp.trade.layout_fit import PITCH, Edges, Fit

Json = dict[str, Any]

NEAR = 2.5  # standard uncertainties within which a slip explains a misfit: own figure
DENT = "this flat is dented or pushed aside"
ENDS = "a flat's start and end written in each other's place"
INNER = "an inner flat's edge"


def misfits(edges: Edges, left_out: list[int], found: Fit, inner: float, slope: float) -> list[Json]:
    """[{"edge", "off_by", "likely"}] of the edges that were left out, `likely` None where nothing explains it.

    found: the fit of the others. inner, slope: of the profile, mm.
    """
    made, flats = [], []
    for i in left_out:
        off, doubt, flat = found.off(*(float(part[i]) for part in edges))
        slips = _slips(float(edges.at[i]), bool(edges.end[i]), float(found.x[2]), inner, slope)
        made.append({"edge": i, "off_by": off, "likely": _likely(off, doubt, float(found.x[PITCH]), slips)})
        flats.append(flat)
    for flat in set(flats):
        there = [one for one, of in zip(made, flats, strict=True) if of == flat]
        if len(there) > 1 and (len({one["likely"] for one in there}) > 1 or there[0]["likely"] is None):
            for one in there:
                one["likely"] = DENT
    return made


def _slips(at: float, end: bool, outer: float, inner: float, slope: float) -> list[tuple[float, float, str]]:
    """(what it makes the edge off by, mm; log weight; words) of every slip that this edge could have."""
    made = [(float(off), log(cause["weight"]), str(cause["likely"]))
            for cause in suspects()["causes"] if cause["how"] == "amount" for off in cause["off"]]
    words = next(str(cause["likely"]) for cause in suspects()["causes"] if cause["how"] == "digits")
    digits = swaps(at)
    made += [(off, -log(len(digits)), words) for off in digits]
    return [*made, (-outer if end else outer, 0.0, ENDS),
            (slope + inner if end else outer + slope, log(0.5), INNER)]


def _likely(off: float, doubt: float, pitch: float, slips: list[tuple[float, float, str]]) -> str | None:
    """The words of the slip that explains it best; None where none does."""
    best: tuple[float, str] | None = None
    for amount, weight, words in slips:
        rest = off - amount
        away = abs(rest - pitch * round(rest / pitch)) / doubt
        score = weight - away * away / 2
        if away <= NEAR and (best is None or score > best[0]):
            best = score, words
    return best[1] if best else None
