"""When a cut panel falls that only its tabs still hold at the foot.

The tabs fold along one line each, in the outer flats, with the full plastic moment M = count * strength * width *
thickness^2 / 4. The panel's weight acts h = height/2 above that line and e inside it; r = sqrt(h^2 + e^2), beta =
atan(e/h). Leaning past asin(M/(m*g*r)) + beta outwards, or - beta inwards, it goes by itself. One clean fold line a
tab, each tab within one flat, no tearing, no jammed kerf: a figure of when it falls, never of when it is safe.
Lengths mm, strengths N/mm2, masses kg, moments N*mm, forces N, speeds m/s.
"""

from math import asin, atan2, degrees, hypot, sqrt
from typing import Any

from fieldapp.trade.measured import parted

Json = dict[str, Any]

G = 9.80665  # m/s2, standard acceleration of free fall (CGPM 1901)


def plastic_moment(count: float, width: float, thickness: float, strength: float) -> float:
    """Full plastic moment in N*mm of `count` tabs, each width x thickness (mm), at a strength in N/mm2."""
    return count * strength * width * thickness**2 / 4


def inside_by(profile: Json) -> float:
    """How far a corrugated sheet's centre lies inside the middle of its outer flats, mm."""
    web = hypot(profile["slope"], profile["depth"])
    return float(profile["depth"] * (profile["inner"] + web) / (profile["outer"] + profile["inner"] + 2 * web))


def leans(moment: float, weight: float, height: float, inside: float) -> tuple[float | None, float | None]:
    """(outwards, inwards) degrees from upright past which it goes; None where the tabs outweigh it.

    moment N*mm, weight N, height of the panel and how far its centre lies inside, mm. Below 0 inwards: it goes
    as soon as it is free.
    """
    arm = hypot(height / 2, inside)
    if moment >= weight * arm:
        return None, None
    held, own = asin(moment / (weight * arm)), atan2(inside, height / 2)
    return degrees(held + own), degrees(held - own)


def wind(push: float, area: float, table: Json) -> float:
    """m/s across the free panel of area m2 with the moment of a push (N) at its top edge; 0 below 0.

    The wind acts at half the height, so its force is twice the push: v = sqrt(4*push/(density*coefficient*area)).
    """
    return sqrt(4 * max(0.0, push) / (table["density"] * table["force"] * area))


def fall(known: Json, profile: Json, mass: float) -> Json:
    """The fall figures of a corrugated panel of that mass (kg); known: what panel.panel is given, with defaults."""
    cut, tabs = known["cut"], known["tabs"]
    thickness, _ = parted(known["thickness"], 0)
    weight, inside = mass * G, inside_by(profile)
    by_yield, by_tensile = (plastic_moment(tabs["count"], tabs["width"], thickness, known[name])
                            for name in ("yield", "tensile"))
    low, high = (leans(moment, weight, cut["height"], inside) for moment in (by_yield, by_tensile))
    push_out, push_in = ((by_yield + side * weight * inside) / cut["height"] for side in (1, -1))
    area = cut["width"] * cut["height"] / 1e6
    return {"falls_out_past": {"low": low[0], "high": high[0]}, "falls_in_past": {"low": low[1], "high": high[1]},
            "push_out": push_out, "push_in": push_in, "wind_out": wind(push_out, area, known["wind"]),
            "wind_in": wind(push_in, area, known["wind"])}
