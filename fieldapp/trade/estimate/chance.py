"""Chances and verdicts: guarded both ways, JCGM 106:2012 (the formula from memory).

A chance is rounded to six decimals before a limit is applied, so that server and phone, whose error
functions agree to about 1e-13, never differ in a verdict.
"""

from math import erfc, sqrt
from typing import Any

INSIDE_FROM = 0.975
OUTSIDE_TO = 0.025

INSIDE = "inside"
OUTSIDE = "outside"
TOO_CLOSE = "too close to call"
NOT_KNOWN = "not known"


def phi(z: float) -> float:
    """Standard normal distribution function of z (dimensionless)."""
    return 0.5 * erfc(-z / sqrt(2.0))


def chance_inside(estimate: float, u: float, low: float | None, high: float | None) -> float:
    """Chance that a value lies in low … high, given its estimate and standard uncertainty u (all one unit).

    A side that is None is open. With u = 0 it is 1 or 0, the limit itself counting as inside. Never below 0.
    """
    if u == 0:
        return float((low is None or estimate >= low) and (high is None or estimate <= high))
    below_high = 1.0 if high is None else phi((high - estimate) / u)
    below_low = 0.0 if low is None else phi((low - estimate) / u)
    return max(0.0, below_high - below_low)


def verdict(chance: float) -> str:
    """`inside` from 0.975, `outside` up to 0.025, else `too close to call`."""
    rounded = round(chance, 6)
    if rounded >= INSIDE_FROM:
        return INSIDE
    return OUTSIDE if rounded <= OUTSIDE_TO else TOO_CLOSE


def judged(what: str, estimate: float, u: float, low: float | None, high: float | None) -> dict[str, Any]:
    """One entry of an answer's `judged`: a quantity against its band, all in one unit; None: that side is open."""
    chance = chance_inside(estimate, u, low, high)
    return {"what": what, "estimate": estimate, "u": u, "from": low, "to": high, "chance_inside": chance,
            "verdict": verdict(chance)}
