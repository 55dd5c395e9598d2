"""The catalogues that a shop keeps: doors, wall profiles, rivets, seals, sealants, discs, defaults: their columns.

An edition is {"catalogue": name, "rows": [row, …]}: every row has every column, None where it says nothing; numbers are
floats in the column's unit with at most four decimals, texts are one line. Its hash is that of `document`. Nobody
changes an edition; a shop adds the next.
"""

import re
from typing import Any

from fieldapp.plan.catalogue_columns import Column, Kind, Row, fault
from fieldapp.plan.default_rows import ORIGINS, rows_stand
from fieldapp.plan.documents import document
from fieldapp.trade.rivets import MM_PER_INCH

Json = dict[str, Any]


def _mm(name: str, low: float, high: float, needed: bool = True) -> Column:
    return Column(name, "number", "mm", low, high, needed)


def _count(name: str) -> Column:
    return Column(name, "count", "", 1, 200, needed=False)


_INCH = re.compile(r"(?:(\d{1,2})(?: |$))?(?:(\d{1,2})/([1-9]\d?))?", re.ASCII)
INCH_WITHIN = 0.2  # mm that a rounded diameter may be off its inches
WALLS = ("corrugated side", "corrugated end")
ID, SOURCE = Column("id"), Column("source")


def _walls_stay(rows: list[tuple[int, Row]]) -> list[str]:
    """Plans name the two walls, so a catalogue of profiles keeps a row of each by that id."""
    there = {row["id"]: (line, row["wall"]) for line, row in rows}
    missing = [f"no row has the id {wall!r}; right would be one: plans name it." for wall in WALLS if wall not in there]
    wrong = [(wall, *there[wall]) for wall in WALLS if wall in there and there[wall][1] != wall]
    return missing + [fault(line, "wall", given, repr(wall)) for wall, line, given in wrong]


def _inches_read(rows: list[tuple[int, Row]]) -> list[str]:
    """The inch size is the diameter: spreadsheets make dates of 3/16."""
    faults = []
    for line, row in rows:
        said = _INCH.fullmatch(row["inch"] or "")
        inches = int(said[1] or 0) + int(said[2] or 0) / int(said[3] or 1) if said else 0.0
        if row["inch"] is not None and abs(inches * MM_PER_INCH - row["diameter"]) > INCH_WITHIN:
            right = f"{row['diameter']:g} mm in inches, as 3/16 is 4.8 mm, or nothing"
            faults.append(fault(line, "inch", row["inch"], right))
    return faults


def _rows_rise(rows: list[tuple[int, Row]]) -> list[str]:
    """Rows of one diameter rise, do not overlap, and share hole and head: they are one size."""
    faults = [] if rows else ["no rivet stands in the file; right would be one row at least: plans need a size."]
    last: dict[float, Row] = {}
    for line, row in rows:
        before = last.get(row["diameter"])
        if before and row["grip from"] < before["grip to"]:
            right = f"{before['grip to']:g} or more, after row {before['id']}"
            faults.append(fault(line, "grip from (mm)", row["grip from"], right))
        for name in ("inch", "hole from", "hole to", "head", "hole source") if before else ():
            assert before
            if row[name] != before[name]:
                head = f"{name} (mm)" if name in ("hole from", "hole to", "head") else name
                faults.append(fault(line, head, row[name], f"{before[name]!r}, as row {before['id']} has it"))
        last[row["diameter"]] = row
    return faults


def _kind_says(rows: list[tuple[int, Row]]) -> list[str]:
    """An edge trim has a thickness; a band stands whole or not at all."""
    faults = []
    for line, row in rows:
        if row["kind"] == "edge trim" and row["free height"] is not None:
            faults.append(fault(line, "free height (mm)", row["free height"], "nothing: an edge trim has none"))
        if (row["band from"] is None) != (row["band to"] is None):
            name = "band from" if row["band from"] is None else "band to"
            faults.append(fault(line, f"{name} (%)", None, "both ends of the band, or neither"))
    return faults


def _frame_holds(rows: list[tuple[int, Row]]) -> list[str]:
    """The inner corners lie inside the frame's outside; the leaf weighs less than all of it."""
    faults = []
    for line, row in rows:
        for side in ("width", "height"):
            if row[f"corners {side}"] >= row[f"frame {side}"]:
                right = f"less than the frame's {row[f'frame {side}']:g}"
                faults.append(fault(line, f"corners {side} (mm)", row[f"corners {side}"], right))
        leaf, total = row["leaf mass"], row["total mass"]
        if leaf is not None and total is not None and leaf > total:
            faults.append(fault(line, "leaf mass (kg)", leaf, f"at most the total, {total:g}"))
    return faults


DOORS = Kind("doors", "Doors", (
    ID, _mm("frame width", 300, 3000), _mm("frame height", 300, 4000), _mm("corners width", 300, 3000),
    _mm("corners height", 300, 4000), _mm("flange", 0.2, 12, needed=False),
    Column("hand", "choice", choices=("left", "right", "either")), _count("holes side"), _count("holes per flat"),
    _count("holes head"), _count("holes sill"), Column("leaf mass", "number", "kg", 1, 1000, needed=False),
    Column("total mass", "number", "kg", 1, 1000, needed=False), _mm("kit rise angled", 0, 1000, needed=False),
    _mm("kit rise straight", 0, 1000, needed=False), Column("glass", "choice", choices=("none", "half", "full")),
    SOURCE,
), checks=(_frame_holds,))
PROFILES = Kind("profiles", "Wall profiles", (
    ID, Column("wall", "choice", choices=WALLS), _mm("outer", 1, 1000), _mm("slope", 0, 1000), _mm("inner", 1, 1000),
    _mm("depth", 0, 500), SOURCE), checks=(_walls_stay,))
RIVETS = Kind("rivets", "Rivets", (
    ID, _mm("diameter", 1, 20), Column("inch", needed=False), _mm("grip from", 0, 100), _mm("grip to", 0.1, 100),
    _mm("hole from", 1, 25), _mm("hole to", 1, 25), _mm("head", 1, 50, needed=False), Column("hole source"), SOURCE,
), (("grip from", "grip to"), ("hole from", "hole to")), (_inches_read, _rows_rise))
SEALS = Kind("seals", "Seals", (
    ID, Column("kind", "choice", choices=("bulb", "edge trim")), _mm("free height", 1, 200, needed=False),
    _mm("thickness", 0.01, 100, needed=False), Column("band from", "number", "%", 0, 95, needed=False),
    Column("band to", "number", "%", 0, 95, needed=False), SOURCE), (("band from", "band to"),), (_kind_says,))
SEALANTS = Kind("sealants", "Sealants", (
    ID, Column("class", "choice", choices=("12.5", "25", "35", "50", "100/50"), needed=False),
    Column("opens", "number", "%", 0, 200, needed=False), Column("closes", "number", "%", 0, 200, needed=False),
    Column("cure", "choice", choices=("neutral", "acid"), needed=False), Column("cartridge", "number", "mL", 10, 5000),
    SOURCE))
DISCS = Kind("discs", "Discs", (
    ID, _mm("diameter", 20, 500), _mm("thickness", 0.2, 20, needed=False),
    Column("printed speed", "number", "1/min", 100, 100_000),
    Column("rim speed", "number", "m/s", 10, 200, needed=False), Column("cut a disc", "number", "m", 0.1, 1000),
    SOURCE))
DEFAULTS = Kind("defaults", "Defaults", (
    ID, Column("value", "number", "", 0, 20_000), Column("up to", "number", "", 0, 20_000, needed=False),
    Column("unit"), Column("origin", "choice", choices=ORIGINS), SOURCE), (("value", "up to"),), (rows_stand,),
    "Every row is needed: id and unit stay as they are, value, origin and source are yours.")
CATALOGUES = {kind.name: kind for kind in (DOORS, PROFILES, RIVETS, SEALS, SEALANTS, DISCS, DEFAULTS)}


def edition(name: str, rows: list[Row]) -> tuple[str, bytes]:
    """(hash, bytes) of an edition."""
    return document({"catalogue": name, "rows": rows})
