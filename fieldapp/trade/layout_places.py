"""Every place on a wall where the door may go, and those where only land would let it. Lengths mm."""

from math import floor
from typing import Any

from fieldapp.trade.estimate.band_values import tidy
from fieldapp.trade.estimate.chance import INSIDE, OUTSIDE, TOO_CLOSE, chance_inside, verdict
from fieldapp.trade.layout_fit import OUTER, PHASE, PITCH, Fit
from fieldapp.trade.layout_rules import DUST, Range, Rules
from fieldapp.trade.layout_widths import flats_apart

Json = dict[str, Any]

NO_LAND = ("land_left", "land_right", "u_left", "u_right", "balance", "shift_for_balance", "verdict")


def on_smooth(given: Json, keep: Rules, wish: float) -> list[Json]:
    """The places of a smooth wall: whole ranges between what must stay clear, nearest to the wish first."""
    width = given["opening"]["width"]
    made = [_kept(_place(width, _nearest(one, wish), one) | dict.fromkeys(NO_LAND), [])
            for one in keep.free(given["wall_from"], given["wall_to"])]
    return sorted(made, key=lambda place: (abs(place["centre"] - wish), place["centre"]))


def on_corrugated(given: Json, fit: Fit, keep: Rules, wish: float) -> list[Json]:
    """The places of a corrugated wall, in the contract's order: possible, greater land, nearer to the wish, left."""
    width, needs = given["opening"]["width"], given["flange"]["needs_land"]
    phase, pitch, outer = (float(fit.x[at]) for at in (PHASE, PITCH, OUTER))
    first, last = floor((given["wall_from"] - outer - phase) / pitch), floor((given["wall_to"] - phase) / pitch)
    made = []
    for left in range(first, last + 1):
        for apart in flats_apart(width, pitch, outer, needs):
            made += _of_pair(given, fit, keep, left, left + apart)
    return sorted(made, key=lambda place: (
        not place["possible"], -round(tidy(min(place["land_left"], place["land_right"])), 1),
        abs(place["centre"] - wish), place["centre"]))


def _of_pair(given: Json, fit: Fit, keep: Rules, left: int, right: int) -> list[Json]:
    """The places with the left cut on one flat and the right cut on another (or the same)."""
    width, needs = given["opening"]["width"], given["flange"]["needs_land"]
    start, u_left = fit.edge(left, 0.0)
    end, u_right = fit.edge(right, 1.0)
    outer = float(fit.x[OUTER])
    low = max(start + needs, end - outer - width) + width / 2
    high = min(start + outer, end - needs - width) + width / 2
    low, high = min(low, high), max(low, high)  # where one point is left, binary sums may turn them round
    equal = (start + end) / 2

    def landed(centre: float, between: Range, because: list[str]) -> Json:
        made = _place(width, centre, between)
        lands = [_at_least(made["cut_left"] - start, needs), _at_least(end - made["cut_right"], needs)]
        balance = lands[0] - lands[1]
        balance = 0.0 if abs(balance) < DUST else balance
        return _kept(made | {"land_left": lands[0], "land_right": lands[1], "u_left": u_left, "u_right": u_right,
                             "balance": balance, "shift_for_balance": -balance / 2,
                             "verdict": _verdict(lands, (u_left, u_right), needs)}, because)

    free = keep.free(low, high)
    if free:
        return [landed(_nearest(one, equal), one, []) for one in free]
    if not given["wall_from"] - DUST <= equal - width / 2 <= equal + width / 2 <= given["wall_to"] + DUST:
        return []
    return [landed(equal, (low, high), keep.broken(equal))]


def _place(width: float, centre: float, between: Range) -> Json:
    return {"centre": tidy(centre), "from": tidy(between[0]), "to": tidy(between[1]),
            "cut_left": tidy(centre - width / 2), "cut_right": tidy(centre + width / 2)}


def _kept(place: Json, because: list[str]) -> Json:
    return place | {"possible": not because, "because": because}


def _nearest(between: Range, point: float) -> float:
    return min(max(point, between[0]), between[1])


def _at_least(land: float, needs: float) -> float:
    """The land, without the dust by which binary sums miss what is needed."""
    return float(needs) if abs(land - needs) < DUST else land


def _verdict(lands: list[float], doubts: tuple[float, float], needs: float) -> str:
    """*inside* when both lands are, *outside* when one is."""
    each = [verdict(chance_inside(land, u, needs, None)) for land, u in zip(lands, doubts, strict=True)]
    if OUTSIDE in each:
        return OUTSIDE
    return INSIDE if each == [INSIDE, INSIDE] else TOO_CLOSE
