"""Edition 0 of each catalogue, made of seed_data/tables; and an edition's rows as the tables that trade takes."""

from functools import cache
from typing import Any

from fieldapp.plan.catalogue import CATALOGUES
from fieldapp.plan.catalogue_columns import Row
from fieldapp.plan.default_rows import seed_rows
from fieldapp.plan.tables import table
from fieldapp.trade.estimate.band_values import tidy
from fieldapp.trade.rivets import MM_PER_INCH

Json = dict[str, Any]
Rows = dict[str, list[Row]]
BULB = "bulb seal"


@cache
def _made() -> Rows:
    return {"doors": [], "profiles": _profiles(), "rivets": _rivets(), "seals": _seals(), "sealants": _sealants(),
            "discs": _discs(), "defaults": seed_rows()}


def seed() -> Rows:
    """The rows of edition 0 by catalogue's name. No door fits everybody: the makers' come from the shop."""
    return {name: [_whole(name, row) for row in rows] for name, rows in _made().items()}


def _whole(name: str, row: Row) -> Row:
    """The row with every column, numbers as floats of four decimals."""
    found = {column.name: row.get(column.name) for column in CATALOGUES[name].columns}
    return {key: round(float(value), 4) if isinstance(value, int | float) else value for key, value in found.items()}


def _profiles() -> list[Row]:
    return [{"id": wall, "wall": wall, **profile} for wall, profile in table("profiles").items()]


def _rivets() -> list[Row]:
    return [
        {
            "id": name,
            "diameter": size["diameter"],
            "inch": size["inch"],
            "grip from": low * MM_PER_INCH,
            "grip to": high * MM_PER_INCH,
            "hole from": size["hole"]["from"],
            "hole to": size["hole"]["to"],
            "head": size.get("head"),
            "hole source": size["hole_source"],
            "source": size["rows_source"],
        }
        for size in table("rivets")["sizes"]
        for name, low, high in size["rows"]
    ]


def _seals() -> list[Row]:
    low, high = table("seals")["band"]
    return [{"id": BULB, "kind": "bulb", "band from": low, "band to": high, "source": table("seals")["source"]}]


def _sealants() -> list[Row]:
    made = table("sealant")
    said = "ASTM C920 movement class, usmadesupply.com; cartridge 10.1 US fl oz, midwestsealantsupply.com/FAQS"
    return [
        {"id": f"class {one['class']}", "class": str(one["class"]), "opens": one["opens"], "closes": one["closes"],
         "cartridge": made["cartridge"], "source": said}
        for one in made["classes"]
    ]


def _discs() -> list[Row]:
    made = table("discs")
    return [
        {"id": f"{diameter} mm", "diameter": float(diameter), "printed speed": printed, "rim speed": made["speed"],
         "cut a disc": made["metres"], "source": made["source"]}
        for diameter, printed in made["printed"].items()
    ]


def profiles_table(rows: list[Row]) -> Json:
    """Rows as trade takes profiles: {id: {outer, slope, inner, depth, source}}, mm."""
    return {row["id"]: {name: row[name] for name in ("outer", "slope", "inner", "depth", "source")} for row in rows}


def rivets_table(rows: list[Row]) -> Json:
    """Rows as trade takes rivets: the seed's rules with the sizes of the rows; printed ranges in inches."""
    sizes: dict[float, Json] = {}
    for row in rows:
        size = sizes.setdefault(
            row["diameter"],
            {
                "diameter": row["diameter"],
                "inch": row["inch"],
                "hole": {"from": row["hole from"], "to": row["hole to"]},
                "hole_source": row["hole source"],
                **({} if row["head"] is None else {"head": row["head"]}),
                "rows": [],
                "rows_source": [],
            },
        )
        size["rows"].append([row["id"], *(tidy(row[end] / MM_PER_INCH) for end in ("grip from", "grip to"))])
        size["rows_source"].append(row["source"])
    for size in sizes.values():
        size["rows_source"] = "; ".join(dict.fromkeys(size["rows_source"]))
    return {**table("rivets"), "sizes": list(sizes.values())}
