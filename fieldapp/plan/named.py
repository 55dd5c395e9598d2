"""What choices take over from the catalogues by name: a door, a seal at the head, an edge trim.

    door = "E-4"                                    frame, corners, holes, mass, glass, kit's rise, drawing
    head_seal = { kind = "bulb", name = "…" }       free height and band
    side_edges = { kind = "edge trim", name = "…" } thickness

What the plan says itself beats the row. The names are gone afterwards: the choices hold the figures, so that a later
edition changes nothing of this plan.
"""

from typing import Any

from fieldapp.plan.catalogue_columns import Row
from fieldapp.plan.choices import KIT_OF_WALL
from fieldapp.plan.in_force import InForce

Json = dict[str, Any]
HOLES = {"holes side": "side", "holes per flat": "per_flat", "holes head": "head", "holes sill": "sill"}
LONGEST = 200  # of a drawing's name


def filled(choices: Json, under: InForce) -> tuple[Json, list[str]]:
    """(choices with the rows' figures, faults). What does not name a row is left for choices.check."""
    made, faults = dict(choices), []
    if "door" in made:
        row, said = _row(made.pop("door"), "door", "doors", under)
        faults += said
        if row:
            faults += _hand(made, row)
            made = {**_door(row, made), **made, **_under(row, made)}
    for table, kind, figures in (("head_seal", "bulb", _seal), ("side_edges", "edge trim", _edges)):
        part = made.get(table)
        if isinstance(part, dict) and "name" in part:
            row, said = _row(part["name"], f"{table}.name", "seals", under, kind)
            faults += said
            made[table] = {**(figures(row) if row else {}), **{k: v for k, v in part.items() if k != "name"}}
    return made, faults


def rows_of(under: InForce, catalogue: str, kind: str = "") -> list[Row]:
    """The catalogue's rows, those of one kind alone where a kind is given."""
    return [row for row in under.rows[catalogue] if not kind or row["kind"] == kind]


def _row(name: Any, path: str, catalogue: str, under: InForce, kind: str = "") -> tuple[Row | None, list[str]]:
    row = under.row(catalogue, name) if isinstance(name, str) else None
    rows = rows_of(under, catalogue, kind)
    if row and row in rows:
        return row, []
    known = ", ".join(repr(each["id"]) for each in rows[:20])
    empty = f"has no {kind} yet" if kind and under.rows[catalogue] else "is empty yet"
    right = f"one of the catalogue's: {known}" if known else f"nothing: the catalogue of {catalogue} {empty}"
    return None, [f"{path}: {repr(name)[:40]}; right would be {right}."]


def _hand(choices: Json, row: Row) -> list[str]:
    """A door that is made one-handed cannot be planned the other way."""
    wanted = choices.get("hand", row["hand"])
    if row["hand"] == "either" or wanted == row["hand"]:
        return []
    return [f"hand: {wanted!r}; right would be {row['hand']!r}: the door {row['id']} has its hinges {row['hand']}."]


def _door(row: Row, choices: Json) -> Json:
    """What stands where the plan says nothing of it."""
    wall = str(choices.get("wall"))
    rise = row.get(f"kit rise {KIT_OF_WALL.get(wall)}")
    return {
        "drawing": f"{row['id']}, {row['source']}"[:LONGEST],
        "glass": row["glass"],
        **({} if row["flange"] is None else {"flange": row["flange"]}),
        **({} if row["hand"] == "either" else {"hand": row["hand"]}),
        **({} if rise is None else {"head_kit": {"profile": KIT_OF_WALL[wall], "rise": rise}}),
    }


def _under(row: Row, choices: Json) -> Json:
    """Tables of which the plan may say a part."""
    smooth = choices.get("wall") == "smooth insulated"
    unfit = "holes per flat" if smooth else "holes head"
    holes = {to: int(row[name]) for name, to in HOLES.items() if row[name] is not None and name != unfit}
    mass = {what: row[f"{what} mass"] for what in ("leaf", "total") if row[f"{what} mass"] is not None}
    tables: Json = {
        name: {side: row[f"{name} {side}"] for side in ("width", "height")} for name in ("frame", "corners")
    }
    tables |= {name: found for name, found in (("holes", holes), ("mass", mass)) if found}
    return {
        name: {**found, **choices[name]} if isinstance(choices.get(name), dict) else choices.get(name, found)
        for name, found in tables.items()
    }


def _edges(row: Row) -> Json:
    return {"kind": "edge trim", **({} if row["thickness"] is None else {"thickness": row["thickness"]})}


def _seal(row: Row) -> Json:
    found: Json = {"kind": "bulb"}
    if row["free height"] is not None:
        found["free_height"] = row["free height"]
    if row["band from"] is not None:
        found["band"] = [row["band from"], row["band to"]]
    return found
