"""The opening: what to cut, and why a figure differs from it.

cut width = frame + clearance left + clearance right + edge trim (twice its thickness); cut height = frame +
clearance at head and sill + rise of the head kit + working height of the head seal. Lengths mm. That a
corrugated wall's opening with kit and bulb seal is 2 in taller than a smooth wall's: common practice, no
source.
"""

from typing import Any

from fieldapp.trade.estimate import band
from fieldapp.trade.estimate.band_values import tidy
from fieldapp.trade.lengths import Show
from fieldapp.trade.opening_say import LEAD, NAMES, TERM_SAYS, TERMS, room_says, sentences

Json = dict[str, Any]

KITS = {"corrugated side": "angled", "corrugated end": "straight", "smooth insulated": None}
WIDTHS = ("width_head", "width_mid", "width_sill")
HEIGHTS = ("height_left", "height_right")
ASKED = ("drawing.width", "drawing.height", "measured.frame_width", "measured.frame_height",
         *(f"cut.{name}" for name in (*WIDTHS, *HEIGHTS)))


def kit_fits(wall: str, head_kit: Json | str) -> str | None:
    """None where the kit suits the wall, else what would: `none`, `angled` or `straight`."""
    proper = KITS[wall]
    if head_kit == "none" or (isinstance(head_kit, dict) and head_kit.get("profile") == proper):
        return None
    return proper or "none"


def _seal_height(head_seal: Json | str) -> float:
    """What the head seal takes of the height, mm: a bulb less its compression, a bead's thickness."""
    if isinstance(head_seal, str):
        return 0.0
    if head_seal["kind"] == "bead":
        return float(head_seal["thickness"])
    return tidy(head_seal["free_height"] * (1 - head_seal["compression"] / 100))


def width_terms(given: Json) -> list[Json]:
    """[{"term", "mm"}] of the width, in the order of the sum, zeros included."""
    clear = given["clearance"]
    return _terms(frame=given["frame"]["width"], clearance_left=clear["left"], clearance_right=clear["right"],
                  edge_trim=2 * given.get("edge_trim", 0))


def height_terms(given: Json) -> list[Json]:
    """[{"term", "mm"}] of the height, in the order of the sum, zeros included."""
    clear, kit = given["clearance"], given["head_kit"]
    return _terms(frame=given["frame"]["height"], clearance_head=clear["head"], clearance_sill=clear["sill"],
                  head_kit=0.0 if isinstance(kit, str) else kit["rise"],
                  head_seal=_seal_height(given["head_seal"]))


def _terms(**terms: float) -> list[Json]:
    return [{"term": term, "mm": mm + 0.0} for term, mm in terms.items()]


def planned(given: Json) -> Json:
    """{"width", "height"} to cut, mm."""
    return {"width": tidy(sum(term["mm"] for term in width_terms(given))),
            "height": tidy(sum(term["mm"] for term in height_terms(given)))}


def sheet(name: str, given: Json, table: Json, doubt: Json, of: tuple[str, ...] = ASKED[4:]) -> Json:
    """The band sheet of figures against the opening's plan.

    given: the plan as the calculator takes it (frame, clearance, head_kit, head_seal, edge_trim, tolerance;
    mm). of: which figures it judges, inputs and judged quantities alike, out of ASKED; by default the real
    opening's cut.width_head … cut.height_right. table: seed_data/tables/opening.toml. Each difference is
    what was read less what is planned, judged from -tolerance to tolerance, and explained by terms where it
    is beyond.
    """
    cut = planned(given)
    most: float = given["tolerance"] if "tolerance" in given else table["tolerance"]
    terms = {"width": width_terms(given), "height": height_terms(given)}
    judged = []
    for what in of:
        side = "width" if "width" in what else "height"
        own: Json = {} if what.startswith("measured.") else {"terms": side}
        own |= {"trim": True} if what.startswith("cut.") else {}
        judged.append({"what": what, "value": what, "from": -most, "to": most, "say": NAMES[what],
                       "unit": "mm", "sentences": sentences(what), **own})
    doubts = {what: doubt["drawing" if what.startswith("drawing.") else "tape"] for what in of}
    inputs = [{"name": what, "say": NAMES[what], "unit": "mm", "from": 0.01, "u": doubts[what],
               "needed": False} for what in of]
    values = [{"name": what, "plus": -_plan_of(what, cut, given["frame"]), "sum": [[what, 1]]}
              for what in of]
    return {"name": name, "kind": "band", "source": "the plan: its terms and its tolerance",
            "inputs": inputs, "values": values, "judged": judged,
            "lead": [LEAD], "texts": {"cut_width": cut["width"], "cut_height": cut["height"]},
            "terms": {"within": table["explain_within"], "say": TERM_SAYS,
                      "of": {side: [{**term, "say": TERMS[term["term"]]} for term in terms[side][1:]]
                             for side in terms}}}


def _plan_of(what: str, cut: Json, frame: Json) -> float:
    side = "width" if "width" in what else "height"
    return float(frame[side] if what.startswith("measured.") else cut[side])


def _given_at(given: Json, what: str) -> Any:
    group, name = what.split(".")
    return given.get(group, {}).get(name)


def _plain(measured: float | Json) -> float:
    return float(measured["value"]) if isinstance(measured, dict) else measured


def _rack(cut: Json) -> float | None:
    """How far the head is pushed right of square, mm: (bl_tr^2 - tl_br^2) / (4 * mean width)."""
    widths = [_plain(cut[name]) for name in WIDTHS if name in cut]
    if not widths or "diagonal_bl_tr" not in cut or "diagonal_tl_br" not in cut:
        return None
    rising, falling = _plain(cut["diagonal_bl_tr"]), _plain(cut["diagonal_tl_br"])
    return (rising - falling) * (rising + falling) / (4 * sum(widths) / len(widths)) + 0.0


def _square_room(given: Json, rack: float | None) -> Json:
    """Room around a frame that is set square, mm; None where a figure is missing."""
    cut, measured, frame = given.get("cut", {}), given.get("measured", {}), given["frame"]
    widths = [_plain(cut[name]) for name in WIDTHS if name in cut]
    heights = [_plain(cut[name]) for name in HEIGHTS if name in cut]
    width, height = (_plain(measured.get(f"frame_{side}", frame[side])) for side in ("width", "height"))
    return {"width": min(widths) - abs(rack) - width if widths and rack is not None else None,
            "height": tidy(min(heights) - height) if heights else None}


def opening(given: Json, table: Json, doubt: Json) -> Json:
    """What to cut, term by term, and what each given figure is off by (contract: opening).

    given: wall, frame, clearance, head_kit, head_seal, and where known edge_trim, drawing, measured, cut,
    tolerance, show. Lengths mm; a measured one is a number or {"value", "u"}.
    """
    show: Show = given.get("show", "mm")
    made = sheet("opening", given, table, doubt, ASKED)
    inputs = {what: _given_at(given, what) for what in ASKED}
    found = band.answer(made, {"inputs": inputs, "show": show})
    rack = _rack(given.get("cut", {}))
    room = _square_room(given, rack)
    trim = {what.removeprefix("cut."): by for what, by in found.get("trim", {}).items()}
    return {"cut": planned(given), "width_terms": width_terms(given), "height_terms": height_terms(given),
            "differences": found.get("differences", []), "trim": trim, "rack": rack, "square_room": room,
            "judged": found["judged"], "say": [*found["say"], *room_says(rack, room, show)]}
