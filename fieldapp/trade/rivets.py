"""Blind rivets: which length bites, from the measured stack and the printed grip ranges.

Source of edge and pitch rules, rows and holes: seed_data/tables/rivets.toml, passed in as `table`. All
lengths mm. Printed ranges only, never a length less a constant: catalogues differ in what "length" counts.
"""

from typing import Any

from fieldapp.trade.estimate import band
from fieldapp.trade.estimate.band_rows import breaks
from fieldapp.trade.estimate.band_values import tidy
from fieldapp.trade.lengths import Show, fill
from fieldapp.trade.rivets_say import BOTH_RULES, CLAMP, ROW_SAYS, again_says, metal_says

Json = dict[str, Any]
MM_PER_INCH = 25.4


def size_of(table: Json, diameter: float) -> Json | None:
    """The table's size of this diameter (mm): {"diameter", "rows", "hole", …}; None where it has none."""
    return next((size for size in table["sizes"] if abs(size["diameter"] - diameter) < 1e-9), None)


def rows_of(size: Json) -> list[Json]:
    """A size's rows, printed in exact inches, as [{"name", "grip_from", "grip_to"}] in mm."""
    return [{"name": name, "grip_from": tidy(low * MM_PER_INCH), "grip_to": tidy(high * MM_PER_INCH)}
            for name, low, high in size["rows"]]


def sheet(name: str, diameter: float, stack: list[str], place: str, table: Json, doubt: Json, *,
          rows: list[Json] | None = None, hole: Json | None = None,
          stand_off: float | Json | str | None = None, metals: Json | None = None) -> Json:
    """The band sheet of one place's rivets.

    diameter: mm. stack: what each measured sheet is called; its inputs are stack.0.thickness,
    stack.1.thickness … place: what the place is called. stand_off: "measured" for an input at.0.stand_off
    that is needed, a figure in mm (or {"value", "u"}) that stands until one is measured, None for none.
    rows, hole: the maker's, else the table's for this diameter. edge and pitch are inputs that may be left
    out. doubt: seed_data/tables/doubt.toml. Judged: grip (by its row), edge, pitch.
    """
    size = size_of(table, diameter) or {}
    rows = rows or rows_of(size)
    hole = hole or size["hole"]
    paths = [f"stack.{i}.thickness" for i in range(len(stack))]
    inputs = [{"name": path, "say": what, "unit": "mm", "u": doubt["thickness"], "from": 0.2, "to": 12}
              for path, what in zip(paths, stack, strict=True)]
    if stand_off is not None:
        off: Json = {"name": "at.0.stand_off", "say": "Stand-off", "unit": "mm", "u": doubt["gauge"],
                     "from": 0, "to": 100, "exact_zero": True}
        inputs.append(off if stand_off == "measured" else off | {"value": stand_off})
        paths.append(off["name"])
    printed = [{"name": row["name"], "from": row["grip_from"], "to": row["grip_to"]} for row in rows]
    return {"name": name, "kind": "band", "texts": {"place": place[:1].upper() + place[1:]},
            "inputs": inputs + _spacing_inputs(doubt),
            "values": [{"name": "grip", "plus": 0, "sum": [[path, 1] for path in paths]},
                       *({"name": what, "plus": 0, "sum": [[what, 1]]} for what in ("edge", "pitch"))],
            "rows": {"rows": breaks(printed, table["break_gap"]), "say": ROW_SAYS},
            "judged": [{"what": "grip", "value": "grip", "rows": True, "say": "Grip", "unit": "mm"},
                       *_spacing(diameter, paths[:len(stack)], table["handbook"])],
            "hole": hole, "source": size.get("rows_source", "the rows given"),
            "notes": [*metal_says(metals or {}), CLAMP]}


def _spacing_inputs(doubt: Json) -> list[Json]:
    return [{"name": what, "say": say, "unit": "mm", "u": doubt["tape"], "needed": False}
            for what, say in (("edge", "Edge to the middle of the rivet"), ("pitch", "Rivet to rivet"))]


def _spacing(diameter: float, sheets: list[str], rules: Json) -> list[Json]:
    """Edge distance and pitch against the handbook's multiples of diameter and of the thinnest sheet."""
    return [{"what": what, "value": what, "say": say, "unit": "mm", "sentences": {"both": BOTH_RULES},
             "from": tidy(rules[f"{what}_from_diameters"] * diameter),
             "to": {"least": sheets, "times": rules[f"{what}_to_thicknesses"]}}
            for what, say in (("edge", "Edge distance"), ("pitch", "Pitch"))]


def _again(given: Json, hole: Json, table: Json) -> str | None:
    """What replaces a rivet that was drilled out: by the hole that is left, never by a longer rivet."""
    if "replaces" not in given:
        return None
    left = given["replaces"]["hole"]
    left = left["value"] if isinstance(left, dict) else left
    if hole["from"] <= left <= hole["to"]:
        return "same"
    edge = given.get("edge")
    edge = edge["value"] if isinstance(edge, dict) else edge
    larger = sorted(one["diameter"] for one in table["sizes"] if one["diameter"] > given["diameter"] + 1e-9)
    room = tidy(table["handbook"]["edge_from_diameters"] * larger[0]) if larger else None
    return "next_diameter" if edge is not None and room is not None and edge >= room else "new_hole"


def rivet(given: Json, table: Json, doubt: Json) -> Json:
    """The row that bites at each place; edge, pitch and hole (contract: rivet).

    given: diameter, stack [{"thickness"}], at [{"place", "stand_off"}], and where known rows, hole, edge,
    pitch, metals, replaces, show; a measured length is a number (mm) or {"value", "u"}.
    """
    show: Show = given.get("show", "mm")
    stack = [item.get("what", "sheet") for item in given["stack"]]
    inputs = {f"stack.{i}.thickness": item["thickness"] for i, item in enumerate(given["stack"])}
    inputs |= {what: given[what] for what in ("edge", "pitch") if what in given}
    places, spacing = [], []
    for at in given["at"]:
        made = sheet("rivet", given["diameter"], stack, at["place"], table, doubt, rows=given.get("rows"),
                     hole=given.get("hole"), stand_off=at.get("stand_off", 0), metals=given.get("metals"))
        found = band.answer(made | {"notes": []}, {"inputs": inputs, "show": show})
        places.append(_place(at["place"], found))
        spacing = found["say"][1:]
    hole, again = made["hole"], _again(given, made["hole"], table)
    drill = fill("Hole: {low|fine} to {high|fine}.", {"low": hole["from"], "high": hole["to"]}, show)
    return {"at": places, "hole": hole, "judged": found["judged"], "again": again,
            "say": [*(place["because"] for place in places), *again_says(again, "edge" in given), *spacing,
                    *made["notes"], drill]}


def _place(name: str, answer: Json) -> Json:
    chosen = answer["pick"]
    kept = ("row", "margin_below", "margin_above", "chance_inside", "verdict", "measure_again", "other_row")
    return {"place": name, "grip": chosen["value"], "u": chosen["u"], **{key: chosen[key] for key in kept},
            "because": answer["say"][0]}
