"""What one door needs, worked out of its choices: parts, fixings, seals, sealant, cut and primer.

Nothing is rounded or given a spare here: a job's list (picks.py) adds the doors up first. Tables:
seed_data/tables, by name. Lengths mm unless an amount says otherwise.
"""

from dataclasses import dataclass
from typing import Any

from fieldapp.plan.choices import KIT_OF_WALL, Choices
from fieldapp.plan.dimensions import WALL_WORDS, both, opening_size, seal_height
from fieldapp.trade import sealants
from fieldapp.trade.corrugation import developed
from fieldapp.trade.fixings import spaced
from fieldapp.trade.layout_widths import flats_apart
from fieldapp.trade.rivets import rivet

Json = dict[str, Any]
PLACES = ("sides", "head", "sill")


@dataclass(frozen=True)
class Need:
    """An amount of one thing: `measure` is pieces, m, mL or m2; what has the same group, what and detail adds up.

    `each`: how much one that is ordered holds or does (mL a cartridge, m a disc), 0 where it is ordered as it is.
    """

    group: str
    what: str
    detail: str
    measure: str
    amount: float
    note: str = ""
    each: float = 0.0


def needs_of(chosen: Choices, tables: Json) -> list[Need]:
    """Everything that goes into one door."""
    return [
        *_parts(chosen),
        *_fixings(chosen, tables),
        *_seals(chosen, tables),
        *_sealant(chosen, tables),
        *_cutting(chosen, tables),
    ]


def profile_of(chosen: Choices, tables: Json) -> Json | None:
    """The wall's corrugation by the table; None for a smooth wall."""
    found: Json | None = tables["profiles"].get(chosen.profile or chosen.wall)
    return found


def kit_notes(chosen: Choices) -> list[str]:
    """What is said of a head kit against its wall. A kit of the other kind is a fault of the choices themselves."""
    wall, kit = WALL_WORDS[chosen.wall], KIT_OF_WALL[chosen.wall]
    if chosen.kit == "none":
        missing = f"No head kit is planned; the {wall} takes the {kit} one. Ask whether that is meant."
        return [missing] if chosen.corrugated else []
    if kit == "none":
        return [f"The {chosen.kit} kit is planned, and the {wall} has no corrugation for it to follow. Ask the maker."]
    return [f"The {chosen.kit} kit fits the {wall}."]


def _parts(chosen: Choices) -> list[Need]:
    glass = "" if chosen.glass == "none" else f", {chosen.glass} glass"
    rated = ", fire-rated" if chosen.fire_rated else ""
    size = f"frame {both(chosen.frame_width)} by {both(chosen.frame_height)}, {chosen.drawing}"
    found = [Need("Doors", f"Door, hinges {chosen.hand}{glass}{rated}", size, "pieces", 1)]
    if chosen.kit != "none":
        found.append(
            Need(
                "Head kits",
                f"Head kit, {chosen.kit}",
                f"for the {WALL_WORDS[chosen.wall]}, rise {both(chosen.rise)}",
                "pieces",
                1,
            )
        )
    swing = f"hinges {chosen.hand}, swings out"
    found.append(Need("Hardware", "Lock, lever and strike", swing, "pieces", 1))
    found.append(Need("Hardware", {"chain": "Check chain", "stop": "Door stop"}[chosen.limit], "", "pieces", 1))
    found += [
        Need("Hardware", say, swing, "pieces", 1)
        for say, wanted in (("Closer", chosen.closer), ("Panic bar", chosen.panic_bar))
        if wanted
    ]
    return found


def flats_crossed(chosen: Choices, tables: Json) -> tuple[int, str]:
    """(inner flats that the head crosses, what is to be said): the most that a place with land both sides crosses."""
    profile = profile_of(chosen, tables)
    assert profile is not None
    width = opening_size(chosen)[0]
    pitch = profile["outer"] + profile["inner"] + 2 * profile["slope"]
    fitting = flats_apart(width, pitch, profile["outer"], chosen.needs_land)
    if len(fitting):
        return max(fitting), ""
    near = max(1, round(width / pitch))
    return near, "The width lands on no flats of the table's corrugation: measure the wall before ordering."


def holes(chosen: Choices, tables: Json) -> dict[str, int]:
    """Holes at `sides` (both jambs), `head` and `sill`: the plan's own, else by the tables' spacing."""
    width, height = opening_size(chosen)
    end, pitch = tables["fixings"]["end"], {"pitch": tables["picks"]["pitch"]}
    own = chosen.holes
    each = own.get("side") or len(spaced(height, end, pitch))
    if chosen.corrugated:
        head = flats_crossed(chosen, tables)[0] * (own.get("per_flat") or tables["fixings"]["per_flat"])
    else:
        head = own.get("head") or len(spaced(width, end, pitch))
    return {"sides": 2 * each, "head": head, "sill": own.get("sill", 0)}


def _fixings(chosen: Choices, tables: Json) -> list[Need]:
    notes = flats_crossed(chosen, tables)[1] if chosen.corrugated else ""
    found = []
    for place, count in holes(chosen, tables).items():
        if count:
            row, doubt = _row(chosen, place, tables)
            note = f"{doubt} {notes}".strip()
            found.append(Need("Fixings", f"Blind rivet {chosen.rivet:g} mm, {row}", "", "pieces", count, note))
    return found


def _row(chosen: Choices, place: str, tables: Json) -> tuple[str, str]:
    """(row or rows by the sheets as they are usual, what is to be said): the measured stack decides."""
    sheet = tables["picks"]["sheet"].get(chosen.wall)
    if sheet is None:
        return "row by the measured stack", "The skins are not known before they are measured."
    usual, own = tables["picks"]["flange"], chosen.flange
    flange = usual if own is None else {"value": own, "u": tables["doubt"]["thickness"]}
    at: Json = {"place": place}
    if place == "head" and chosen.seal == "bulb":
        at["stand_off"] = {"value": seal_height(chosen), "u": tables["picks"]["seal_u"]}
    given = {
        "diameter": chosen.rivet,
        "stack": [{"thickness": flange}, {"thickness": sheet}],
        "at": [at],
    }
    found = rivet(given, tables["rivets"], tables["doubt"])["at"][0]
    rows = [row for row in (found["row"], found["other_row"]) if row]
    if not rows:
        return "row by the measured stack", "No row of the table takes this grip."
    doubt = "Take this many of both; the measured stack says which." if len(rows) > 1 else ""
    return "row " + " or ".join(sorted(rows, key=lambda row: (len(row), row))), doubt


def _along_head(chosen: Choices, tables: Json) -> float:
    """The opening's width along the sheet, mm: the mean over a pitch, since the place is not known here."""
    width, profile = opening_size(chosen)[0], profile_of(chosen, tables)
    return width if profile is None else developed(profile, width, None)


def _seals(chosen: Choices, tables: Json) -> list[Need]:
    found = []
    if chosen.seal == "bulb":
        along = _along_head(chosen, tables) / 1000
        found.append(Need("Seals", "Bulb seal, head", f"free height {both(chosen.free_height)}", "m", along))
    if chosen.edge_trim:
        sides = 2 * opening_size(chosen)[1] / 1000
        found.append(Need("Seals", "Edge trim, sides", f"thickness {both(chosen.edge_trim)}", "m", sides))
    return found


def _sealant(chosen: Choices, tables: Json) -> list[Need]:
    """Volume of each joint, mL, all of one sealant."""
    width, height = opening_size(chosen)
    joints = tables["picks"]["joints"]
    wanted = [("sides, outside", joints["fillet"], 2 * chosen.frame_height), ("sill", joints["sill"], width)]
    if not chosen.edge_trim:
        wanted.append(("sides, on the cut", joints["edge"], 2 * height))
    if chosen.seal == "bead":
        wanted.append(("head", joints["head"] | {"depth": chosen.bead}, _along_head(chosen, tables)))
    dabs = sum(holes(chosen, tables).values()) * joints["dab"]["length"]
    wanted.append(("fixings", joints["dab"], dabs))
    row = tables["sealants"].get(chosen.sealant, {})
    cure, cartridge = row.get("cure") or "neutral", row.get("cartridge") or tables["sealant"]["cartridge"]
    said = f"{chosen.sealant}, {cure} cure" if chosen.sealant else "neutral cure"
    return [
        Need("Sealant", f"Sealant, {said}", f"cartridges of {cartridge:g} mL", "mL", volume, where, cartridge)
        for where, joint, long in wanted
        if (volume := sealants.section(joint["shape"], joint["width"], joint["depth"]) * long / sealants.MM3_PER_ML)
    ]


def cut_length(chosen: Choices, tables: Json) -> float:
    """Metres of steel edge round the opening, along the sheet; one skin."""
    return 2 * (opening_size(chosen)[1] + _along_head(chosen, tables)) / 1000


def _cutting(chosen: Choices, tables: Json) -> list[Need]:
    table, cut = tables["picks"], cut_length(chosen, tables)
    if chosen.corrugated:
        metres = tables["discs"].get(chosen.disc, {}).get("cut a disc") or table["metres_a_disc"]
        size = f"Cutting disc, {chosen.disc}" if chosen.disc else "Cutting disc"
        first = Need("Cutting", size, "for steel; printed speed at least the tool's", "m", cut, each=metres)
        skins = 1
    else:
        first = Need("Cutting", "Blade, cold cutting", "saw or nibbler", "pieces", table["blades"])
        skins = 2
    primed = skins * cut * 2 * table["primer"]["width"] / 1000
    return [first, Need("Primer", "Primer for cut edges", "both faces; before the sealant", "m2", primed)]
