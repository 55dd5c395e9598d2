"""A field's own verdict: each value that stands now against what the field expects."""

from fieldapp.record.entries import Json
from fieldapp.record.view import Field, View
from fieldapp.trade.estimate.chance import INSIDE, OUTSIDE, TOO_CLOSE, chance_inside, verdict


def _full_side(entry: Json, side: float | None) -> float:
    """What a level reading taken over a part of its side is multiplied by; `side` in mm, None for other
    kinds.

    `expect` speaks of the full side, as a level kind without `over` does; the reading's doubt grows with it.
    """
    over = entry["value"].get("over")
    return side * 1_000_000 / over if side is not None and over else 1.0


def _reading(entry: Json, expect: Json, side: float | None) -> str:
    """The u is the reading's own, else the expectation's, else 0; all in nm, or in the field's unit."""
    value = entry["value"]
    times = _full_side(entry, side)
    u = value.get("u", expect.get("u") or 0)
    estimate = value["nm"] if "nm" in value else value["number"]
    return verdict(chance_inside(estimate * times, u * times, expect.get("from"), expect.get("to")))


def _choice(entry: Json, options: list[Json]) -> str:
    chosen = entry["value"].get("chosen")
    wrong = any(option["id"] == chosen and option.get("ok") is False for option in options)
    return OUTSIDE if wrong else INSIDE


def _one(entry: Json, field: Json, side: float | None) -> str:
    if entry["kind"] == "reading":
        return _reading(entry, field["expect"], side) if field.get("expect") else INSIDE
    if entry["kind"] == "tick":  # a tick that feeds a sheet is the sheet's to judge
        return INSIDE if entry["value"].get("ticked") or field.get("feeds") else OUTSIDE
    return _choice(entry, field.get("options", [])) if entry["kind"] == "choice" else INSIDE


def _side(unit: View, field: Json) -> float | None:
    """The full side of the level kind that the field feeds, mm."""
    for feed in field.get("feeds", []):
        side = unit.sheets.get(feed["sheet"], {}).get("readings", {}).get(feed["as"], {}).get("side")
        if side is not None:
            return float(side)
    return None


def own_verdict(unit: View, each: Field) -> str:
    """`outside` when a value that stands now is, else `too close to call` when one is, else `inside`."""
    words = {_one(entry, each.field, _side(unit, each.field)) for entry in each.now()}
    return next((word for word in (OUTSIDE, TOO_CLOSE) if word in words), INSIDE)
