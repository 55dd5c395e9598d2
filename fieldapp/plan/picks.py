"""The pick list of a job: what its doors need together, with spares and waste, and a card for each door.

    picks([{"number", "choices"}, …]) -> {"lines", "doors", "kits"}

A door whose choices do not fit together is named with what is wrong and counts for nothing.
"""

from math import ceil
from typing import Any

from fieldapp.plan import choices as unit_choices
from fieldapp.plan.choices import Choices
from fieldapp.plan.dimensions import WALL_WORDS, closing_direction
from fieldapp.plan.hand_picture import hand_picture
from fieldapp.plan.in_force import InForce, seeded
from fieldapp.plan.needs import Need, kit_notes, needs_of
from fieldapp.plan.tables import table
from fieldapp.trade.sealants import cartridges

Json = dict[str, Any]
TABLES = ("picks", "fixings", "sealant", "doubt")
GROUPS = ("Doors", "Head kits", "Hardware", "Fixings", "Seals", "Sealant", "Cutting", "Primer")
KITS = ("angled", "straight")
DUST = 1e-9  # so that what is whole but for the last digit is not rounded up


def tables_of(under: InForce) -> Json:
    """The reference tables a list is made with, by name; rows of sealants and discs by their id."""
    named = {name: {row["id"]: row for row in under.rows[name]} for name in ("sealants", "discs")}
    return {name: table(name) for name in TABLES} | {"profiles": under.profiles, "rivets": under.rivets} | named


def picks(units: list[Json], under: InForce | None = None) -> Json:
    """The list.

    units: {"number", "choices"} each, and where a plan has its own "under"; under: the catalogues' editions for the
    others, edition 0 when None. Answers {"lines":
    [{"group", "what", "detail", "need", "measure", "more", "order", "order_in", "doors", "note"}], "doors": [{"number",
    "faults", "notes", "hand", "closing", "us_hand", "wall", "kit", "picture"}], "kits": {"angled", "straight"} pieces}.
    `more` is the spare or the waste, in `measure`; `order_in` what is handed over the counter.
    """
    usual = under or seeded()
    tables: dict[int, Json] = {}
    doors: list[Json] = []
    found: list[tuple[Need, str]] = []
    for unit in units:
        own: InForce = unit.get("under") or usual
        faults = unit_choices.check(unit["choices"], own)
        door: Json = {"number": unit["number"], "faults": faults}
        if not faults:
            chosen = unit_choices.read(unit["choices"], own)
            if id(own) not in tables:
                tables[id(own)] = tables_of(own)
            door |= _card(chosen)
            found += [(need, unit["number"]) for need in needs_of(chosen, tables[id(own)])]
        doors.append(door)
    lines = _lines(found, tables_of(usual))
    kits = {kit: sum(line["need"] for line in lines if line["what"] == f"Head kit, {kit}") for kit in KITS}
    return {"lines": lines, "doors": doors, "kits": kits}


def _card(chosen: Choices) -> Json:
    """What is said of one door beside the picture of its hand."""
    turned = ["May be turned end for end: the kit goes on the end that is up."] if chosen.reversible else []
    return {
        "notes": kit_notes(chosen) + turned,
        "hand": chosen.hand,
        "closing": closing_direction(chosen.hand),
        "us_hand": f"{chosen.hand}-hand reverse",
        "wall": WALL_WORDS[chosen.wall],
        "kit": chosen.kit,
        "picture": hand_picture(chosen.hand),
    }


def _lines(found: list[tuple[Need, str]], tables: Json) -> list[Json]:
    """The needs added up by group, thing and detail, in the order of the work."""
    together: dict[tuple[str, str, str], list[tuple[Need, str]]] = {}
    for need, number in found:
        together.setdefault((need.group, need.what, need.detail), []).append((need, number))
    ordered = sorted(together, key=lambda key: (GROUPS.index(key[0]), key[1:]))
    return [_line(together[key], tables) for key in ordered]


def _line(each: list[tuple[Need, str]], tables: Json) -> Json:
    first, amount = each[0][0], sum(need.amount for need, _ in each)
    more, order, order_in = _order(first, amount, tables)
    notes = [] if first.group == "Sealant" else [need.note for need, _ in each if need.note]
    return {
        "group": first.group,
        "what": first.what,
        "detail": first.detail,
        "need": amount,
        "measure": first.measure,
        "more": more,
        "order": order,
        "order_in": order_in,
        "doors": list(dict.fromkeys(number for _, number in each)),
        "note": " ".join(dict.fromkeys(notes)),
    }


def _order(need: Need, amount: float, tables: Json) -> tuple[float, float, str]:
    """(spare or waste, what to order, in what)."""
    table = tables["picks"]
    if need.group == "Fixings":
        spare = ceil(amount / tables["fixings"]["spare"])
        return spare, amount + spare, "pieces"
    if need.group == "Seals":
        waste = amount * table["seal_waste"] / 100
        return waste, ceil((amount + waste) * 10 - DUST) / 10, "m"
    if need.group == "Sealant":
        waste = amount * table["sealant_waste"] / 100
        return waste, cartridges(amount + waste, need.each), "cartridges"
    if need.group == "Primer":
        waste = amount * table["primer"]["waste"] / 100
        return waste, ceil((amount + waste) / table["primer"]["covers"] * 10 - DUST) / 10, "L"
    if need.each:
        return 0, ceil(amount / need.each - DUST), "discs"
    return 0, amount, need.measure
