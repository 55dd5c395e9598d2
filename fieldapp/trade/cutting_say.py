"""The words of the cut sheet: cautions, the numbered sequence, what is said of panel, tabs and disc."""

from typing import Any

from fieldapp.trade.lengths import Show, fill
from fieldapp.trade.panel_say import cautions as of_panel

Json = dict[str, Any]

FOAM, NOT_KNOWN = "foam", "not known"
BEHIND = ("nothing", "lining", FOAM, NOT_KNOWN)
BEFORE = (
    "Before the first cut: bad air ruled out, services proved dead, permission in hand, coating and what lies behind "
    "the sheet known. Not known counts as toxic and as foam.",
    "Posts, rails, sills and roof carry the box. What may be cut, the approval plate, fire and escape are for whoever "
    "may decide: local code, a licensed person.",
)
COATING = "Disc and drill heat paint, zinc and foam: keep the smoke out of lungs, and look at both faces."

RIG = ("Rig it: a restraint line or clamps through a hole drilled high in the waste, {across} from its left edge and "
       "{up} above the sill line; tied off inside and outside. Tape the drop zone, {reach} on both faces.")
FIND = "Find ribs, joints and whatever runs in the core, both faces. Ask before a rib is cut."
FIND_OUT = ("Find out what lies behind the sheet, both faces, before the first spark. Foam: no disc; ask again for a "
            "cold cut.")
HOLES = "Drill a stop hole at each of the four corners, through {through|text}: no cut runs past them."
SILL = ("Cut the sill line, {bottom} above the bottom rail, and leave {count|n} tab{s|text} of {tab}{where|text}. The "
        "rail stays whole.")
SILL_NO_TABS = ("Settle the tabs first: no outer flat inside the cut has room for those asked for. Then cut the sill "
                "line, {bottom} above the bottom rail. The rail stays whole.")
SILL_COLD = "Cut the sill line{where|text}, through both skins. The rail stays whole."
NO_STRIP = " clear of the bottom rail, no strip unless the drawing shows one"
SIDES = "Cut both sides, stop hole to stop hole. Short passes, {blade|text} square, never levered."
HEAD = "Cut the head from both corners to the middle; leave a bridge of {bridge} there, from {from} to {to}."
BRIDGE = "Two people on the panel, drop zone clear said aloud, wind looked at: then cut the bridge."
LOWER = "Lower it outwards on the line until it lies flat. Nobody within {reach} before it does."
TABS = "Cut the tabs with the panel flat, then carry it away: edges cut."
CLOSE = "Close the core's edge all round, on the weather side and the inside, before the frame goes in."
WATCH = ("Fire watch on both faces, {watch|n} minutes at the very least; permit, insurer or local rule may say longer. "
         "Feel for warm spots.")

TABS_AT = "{tabs|text} from the left edge: {list|text}, {each|text}within one outer flat."
NO_TABS = ("No place for the tabs: too few outer flats inside the cut have room for one. Fewer or narrower tabs; the "
           "rigging holds it all the same.")
TABS_OPEN = "Where the tabs go needs the corrugation: from the start of an outer flat to the cut's left edge."
UNKNOWN = ("What lies behind the sheet was not given: it counts as foam. Look from both faces before the first spark; "
           "foam is cut cold.")
FOAMED = "Foam lies behind: no disc, no torch. Should anything smoke, stop, and keep a fire watch on both faces."
NO_DISC = "Disc and tool were not given: check them before the first cut."
STOP = "Do not start with this disc. {why|text}"
AGAIN = "Read the disc again before you start. {why|text}"


def cautions(cold: bool, disc: Json | None) -> list[str]:
    """What is said always, before any figure."""
    return [*BEFORE, *of_panel(cold), *([] if cold else [COATING]), *(disc["cautions"] if disc else [])]


def _listed(pieces: list[Json], show: Show) -> str:
    return ", ".join(fill("{from} to {to}", one, show) for one in pieces)


def _sill(made: Json, tab: Json, known: Json, show: Show) -> str:
    """The sill line with its strip, and the tabs as far as it is known where they go."""
    bottom = made["panel"]["cut_at"]["bottom"]
    if known["smooth"]:
        where = fill(", {bottom} above the bottom rail", {"bottom": bottom}, show) if bottom else NO_STRIP
        return fill(SILL_COLD, {"where": where}, show)
    if known["placed"] and not made["tabs"]:
        return fill(SILL_NO_TABS, {"bottom": bottom}, show)
    one = tab["count"] == 1
    where = (f", {_listed(made['tabs'], show)} from the left edge" if made["tabs"] else
             ", within one outer flat" if one else ", each within one outer flat")
    return fill(SILL, {"bottom": bottom, "count": tab["count"], "s": "" if one else "s", "tab": tab["width"],
                       "where": where}, show)


def sequence(made: Json, tab: Json, known: Json, watch: float, show: Show) -> list[Json]:
    """[{"do", "say"}] in the order of the work: rigging first, tabs last. known: as in sentences; watch: minutes."""
    cold, smooth = made["method"] == "cold", known["smooth"]
    reach = made["panel"]["reach"]
    bridge = made["bridge"] | {"bridge": made["bridge"]["to"] - made["bridge"]["from"]}
    said = [("rig", fill(RIG, made["hole"] | {"reach": reach}, show)),
            *([("find", FIND if cold else FIND_OUT)] if cold or known["unknown"] else []),
            ("stop_holes", fill(HOLES, {"through": "both skins" if smooth else "the sheet"}, show)),
            ("sill", _sill(made, tab, known, show)),
            ("sides", fill(SIDES, {"blade": "blade" if cold else "disc"}, show)), ("head", fill(HEAD, bridge, show)),
            ("bridge", BRIDGE), ("lower", fill(LOWER, {"reach": reach}, show)),
            *([("close", CLOSE)] if smooth else [("tabs", TABS)]),
            *([] if cold else [("watch", fill(WATCH, {"watch": watch}, show))])]
    return [{"do": do, "say": say} for do, say in said]


def sentences(made: Json, of_panel_said: list[str], disc: Json | None, known: Json, show: Show) -> list[str]:
    """The panel's own sentences, which begin with what it counts as; tabs; what lies behind; the disc.

    known: {"smooth", "placed": the corrugation's place is known, "unknown": what lies behind is not}.
    """
    # the last is where the lines are cut: with no strip there is nothing to say of it
    lines = list(of_panel_said if made["panel"]["cut_at"]["bottom"] else of_panel_said[:-1])
    if known["smooth"]:
        return lines
    if made["tabs"]:
        one = len(made["tabs"]) == 1
        lines.append(fill(TABS_AT, {"tabs": "Tab" if one else "Tabs", "each": "" if one else "each ",
                                    "list": _listed(made["tabs"], show)}, show))
    else:
        lines.append(NO_TABS if known["placed"] else TABS_OPEN)
    if made["method"] == "cold":
        return [*lines, FOAMED]
    lines += [UNKNOWN] if known["unknown"] else []
    if disc is None:
        return [*lines, NO_DISC]
    if disc["verdict"] == "inside":
        return [*lines, *disc["say"]]
    why = fill(STOP if disc["verdict"] == "outside" else AGAIN, {"why": " ".join(disc["say"])}, show)
    return [*lines[:2], why, *lines[2:]]  # after what the panel counts as, and who keeps away from it
