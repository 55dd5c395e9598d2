"""The shop's own rows for a calculator by hand: what may be picked, and the fields that a picked row fills.

A calculator's input says all that it reckons with, so a row fills fields and no more: the same input gives the same
answer on every site.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from fieldapp.plan.asked import SIDES, rivet_of
from fieldapp.plan.catalogue import CATALOGUES
from fieldapp.plan.catalogue_columns import Row
from fieldapp.plan.choices import KIT_OF_WALL
from fieldapp.plan.in_force import InForce

Json = dict[str, Any]
# A disc is read as it is printed, in the hand: no catalogue's row stands in for that.
OFFERED: dict[str, tuple[str, ...]] = {
    "layout": ("profiles",), "cut": ("profiles",), "panel": ("profiles",), "rivet": ("rivets",),
    "fixings": ("profiles", "rivets"), "seal": ("seals", "profiles"), "opening": ("doors", "seals"),
    "sealant": ("sealants",), "frame": ("doors",),
}


@dataclass(frozen=True)
class Offer:
    """A catalogue to pick from: `options` (value, what it says); `edition` the number of the one in force."""

    catalogue: str
    say: str
    edition: int
    options: tuple[tuple[str, str], ...]


def offers(calculator: str, under: InForce) -> list[Offer]:
    """What may be picked for this calculator; catalogues without a row for it are left out."""
    made = (
        Offer(name, CATALOGUES[name].say, under.numbers[name], tuple(_options(calculator, name, under)))
        for name in OFFERED.get(calculator, ())
    )
    return [offer for offer in made if offer.options]


def _options(calculator: str, name: str, under: InForce) -> list[tuple[str, str]]:
    if name == "rivets":  # rows of one diameter are one rivet in several lengths
        return [(f"{size['diameter']:g}", f"{size['diameter']:g} mm, {len(size['rows'])} rows")
                for size in under.rivets["sizes"]]
    rows = under.rows[name]
    if name == "seals" and calculator == "seal":
        rows = [row for row in rows if row["kind"] == "bulb"]
    return [(row["id"], row["id"]) for row in rows]


def filled(calculator: str, data: Json, picked: Mapping[str, str], under: InForce) -> tuple[Json, list[str]]:
    """(data with the figures of the rows that are picked, {catalogue: option}; the catalogues that gave some)."""
    made, gave = data, []
    for name in OFFERED.get(calculator, ()):
        known = {value for value, _ in _options(calculator, name, under)}
        if picked.get(name) in known:
            made = _laid_over(made, _figures(calculator, name, picked[name], made, under))
            gave.append(name)
    return made, gave


def _figures(calculator: str, name: str, id_: str, data: Json, under: InForce) -> Json:
    if name == "rivets":
        return _rivet(next(each for each in under.rows[name] if f"{each['diameter']:g}" == id_)["diameter"], under)
    row = under.row(name, id_)
    assert row is not None
    if name == "profiles":
        return {"wall": row["wall"], "profile": {side: row[side] for side in SIDES}}
    if name == "doors":
        return _frame(row) if calculator == "frame" else _door(row, data)
    if name == "seals":
        return _said(_seal(row) if calculator == "seal" else _head(row))
    return _said({key: row[key] for key in ("class", "cartridge", "cure")})


def _rivet(diameter: float, under: InForce) -> Json:
    rows = [row for row in under.rows["rivets"] if row["diameter"] == diameter]
    return {"diameter": diameter, **rivet_of(rows)}


def _frame(row: Row) -> Json:
    """The calculator of the frame takes the size between its inner corners."""
    size: Json = {side: row[f"corners {side}"] for side in ("width", "height")}
    return {"frame": size | ({} if row["hand"] == "either" else {"hinge": row["hand"]})}


def _door(row: Row, data: Json) -> Json:
    """The frame over all, and the rise of the kit that the wall takes, where both are known."""
    kit = KIT_OF_WALL.get(str(data.get("wall")))
    rise = row.get(f"kit rise {kit}")
    made: Json = {"frame": {side: row[f"frame {side}"] for side in ("width", "height")}}
    return made | ({} if rise is None else {"head_kit": {"profile": kit, "rise": rise}})


def _seal(row: Row) -> Json:
    return {"free_height": row["free height"], "band": _band(row)}


def _head(row: Row) -> Json:
    """A bulb stands at the head, pressed to the middle of its band; a trim on the edges of the cut."""
    if row["kind"] == "edge trim":
        return {"edge_trim": row["thickness"]}
    band = _band(row)
    return {"head_seal": _said({"kind": "bulb", "free_height": row["free height"],
                                "compression": sum(band) / 2 if band else None})}


def _band(row: Row) -> list[float] | None:
    return None if row["band from"] is None else [row["band from"], row["band to"]]


def _said(made: Json) -> Json:
    return {key: value for key, value in made.items() if value is not None}


def _laid_over(data: Any, more: Json) -> Json:
    """`data` with `more` in it; objects are merged, anything else is replaced."""
    made = dict(data) if isinstance(data, dict) else {}
    for key, value in more.items():
        made[key] = _laid_over(made.get(key), value) if isinstance(value, dict) else value
    return made
