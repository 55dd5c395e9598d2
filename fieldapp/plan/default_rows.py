"""The defaults as a catalogue: which there are, in what unit and between what limits; rows to defaults and back.

A row's id says in words what it is; ids, units and limits are fixed here, value, origin and source are the shop's.
"""

from dataclasses import dataclass
from typing import Any

from fieldapp.plan.catalogue_columns import Row, fault
from fieldapp.plan.defaults import defaults

Json = dict[str, Any]
LETTERS = {"M": "maker's sheet", "F": "published", "D": "practice or our own", "L": "local rule"}
ORIGINS = tuple(LETTERS.values())
_LETTER = {words: letter for letter, words in LETTERS.items()}
_WATCH = ": 29 CFR 1910.252(a)(2)(iii)(B) asks half an hour at least"
_TAB = ": the step of the tabs takes this"
_BAND, _COMPRESSION = "bulb seal, compression allowed", "bulb seal, compression"


@dataclass(frozen=True)
class Known:
    """One default. `name` in defaults.toml; `span`: it has two ends, value and up to; `low` to `high` in `unit`: what a
    plan can be made with; `why` follows the limits where something else sets them."""

    name: str
    id: str
    unit: str
    low: float
    high: float
    span: bool = False
    why: str = ""

    @property
    def right(self) -> str:
        return f"{self.low:g} to {self.high:g} {self.unit}{self.why}"


KNOWN = (
    Known("clearance", "clearance at each side and the head", "mm", 0, 100),
    Known("bulb_compression", _COMPRESSION, "%", 1, 95),
    Known("seal_band", _BAND, "%", 1, 95, span=True),
    Known("strip", "strip left under the sill", "mm", 0, 100),
    Known("strip_within", "strip left under the sill, within", "mm", 0.1, 10),
    Known("needs_land", "land needed each side", "mm", 0, 300),
    Known("tab", "width of a tab", "mm", 20, 60, why=_TAB),
    Known("limit", "leaf stops at", "°", 45, 180, span=True),
    Known("watch_minutes", "fire watch", "min", 30, 600, why=_WATCH),
    Known("wind_limit", "limit of wind for the lift", "m/s", 1, 30),
    Known("marks_within", "marks against the plan, within", "mm", 0.1, 20),
    Known("wall_flat", "wall flat, within", "mm", 0.1, 20),
    Known("flat_lean", "lean of a flat's edge, within", "mm", 0.1, 20),
    Known("toe", "toe of the jambs, within", "mm", 0.1, 20),
    Known("leaf_gap", "gap round the leaf, allowed", "mm", 0.1, 20, span=True),
    Known("leaf_gap_plan", "gap round the leaf, planned", "mm", 0.1, 20),
    Known("floor_above", "threshold above the floor, at most", "mm", 0, 100),
    Known("lever_height", "lever above the floor", "mm", 300, 1800, span=True),
    Known("closing_seconds", "closing time, at least", "s", 1, 60),
    Known("dew_margin", "steel above the dew point, at least", "K", 0, 20),
    Known("level_change", "change of level, at most", "mm", 0, 100),
    Known("corner_spread", "corner castings, highest to lowest", "mm", 0.1, 100),
    Known("corner_warp", "corner castings, twist", "mm", 0.1, 100),
    Known("square", "frame, square within", "mm", 0.1, 20),
    Known("plumb", "frame, plumb within", "mm", 0.1, 20),
    Known("twist", "frame, twist within", "mm", 0.1, 20),
    Known("align", "frame, width at mid height within", "mm", 0.1, 20),
    Known("lean", "frame, lean within", "mm", 0.1, 20),
    Known("rivet_diameter", "rivet's diameter", "mm", 1, 20),
    Known("rail", "rail that the tilt is read over, side and smooth wall", "mm", 200, 20_000),
    Known("end_rail", "rail that the tilt is read over, end wall", "mm", 200, 20_000),
    Known("diagonal_within", "diagonals of the cut, within", "mm", 0.1, 50),
)
_BY_ID = {one.id.casefold(): one for one in KNOWN}


def seed_rows() -> list[Row]:
    """The defaults of the file as rows, one for each of KNOWN."""
    return [_row(one) for one in KNOWN]


def _row(one: Known) -> Row:
    found = defaults()[one.name]
    low, high = found["value"] if one.span else (found["value"], None)
    said = {"unit": one.unit, "origin": LETTERS[found["origin"]], "source": found["source"]}
    return {"id": one.id, "value": low, "up to": high, **said}


def defaults_table(rows: list[Row]) -> dict[str, Json]:
    """Rows as plans take defaults: {name: {"value", "origin", "source"}}; what they lack stands as the file has it."""
    made = dict(defaults())
    for row in rows:
        one = _BY_ID.get(row["id"].casefold())
        if one is None:  # of an older program; no plan asks for it any more
            continue
        value = [row["value"], row["up to"]] if one.span else row["value"]
        made[one.name] = {"value": value, "origin": _LETTER[row["origin"]], "source": row["source"]}
    return made


def rows_stand(rows: list[tuple[int, Row]]) -> list[str]:
    """Each default once, in its unit and between its limits; two ends where it has two."""
    there = {row["id"].casefold() for _, row in rows}
    faults = [f"no row has the id {one.id!r}; right would be one: plans are made by it." for one in KNOWN
              if one.id.casefold() not in there]
    for line, row in rows:
        one = _BY_ID.get(row["id"].casefold())
        faults += _fits(line, row, one) if one else [fault(line, "id", row["id"], "one of the ids that edition 0 has")]
    return faults or _together(rows)


def _fits(line: int, row: Row, one: Known) -> list[str]:
    faults = [fault(line, "unit", row["unit"], repr(one.unit))] if row["unit"] != one.unit else []
    ends = ("value", "up to") if one.span else ("value",)
    for end in ends:
        if row[end] is None or not one.low <= row[end] <= one.high:
            faults.append(fault(line, end, row[end], one.right))
    if not one.span and row["up to"] is not None:
        faults.append(fault(line, "up to", row["up to"], "nothing: it has one value"))
    return faults


def _together(rows: list[tuple[int, Row]]) -> list[str]:
    """The planned compression lies in its band, the planned gap round the leaf within what is allowed."""
    by_id = {_BY_ID[row["id"].casefold()].name: (line, row) for line, row in rows}
    faults = []
    for plan, band in (("bulb_compression", "seal_band"), ("leaf_gap_plan", "leaf_gap")):
        line, row = by_id[plan]
        allowed = by_id[band][1]
        if not allowed["value"] <= row["value"] <= allowed["up to"]:
            right = f"{allowed['value']:g} to {allowed['up to']:g}, as {allowed['id']} has it"
            faults.append(fault(line, "value", row["value"], right))
    return faults
