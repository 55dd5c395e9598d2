"""The words about the panel. They say when it falls; none calls anything safe or permitted."""

from typing import Any

from fieldapp.trade.lengths import Show, fill
from fieldapp.trade.units import amount

Json = dict[str, Any]

LEAD = "Treat the panel as unsupported once the head is cut: restraint line, drop zone, two people."
REACH = "Nobody within {reach} of it, inside or outside, from the last cut until it lies flat."
PEOPLE = {
    "inside": "The panel is {mass|text}. {people|n} people, at {person|text} each, count {limit|text}.",
    "too close to call": "The panel is {mass|text}, too close to the {limit|text} that three people count, at "
                         "{person|text} each, to call. Weigh it, or plan a lifting aid.",
    "outside": "The panel is {mass|text}. Three people, at {person|text} each, count {limit|text}: plan a lifting aid.",
}
DECIDES = "A count of people informs; the employer's assessment decides."
SIDES = {"out": "Outwards", "in": "Inwards"}
PAST = "{side|text} it goes by itself once it leans {low|n}° to {high|n}° from upright."
PAST_LOW = "{side|text} it goes by itself once it leans {low|n}° from upright, or somewhat more."
AT_ONCE = "{side|text} it goes as soon as it is free."
NO_ANGLE = "{side|text} no angle can be given: by these figures the tabs outweigh the panel. Do not count on them."
PUSH = "{push|text} at the top edge, or a wind of {wind|text}, starts it {side|text}."
LIMITS = ("These are figures of when the panel falls, never of when it is safe: one clean fold line a tab, each tab "
          "within one flat, no tearing, no jammed kerf.")
SMOOTH = ("No angle, push or wind is worked out for a smooth insulated wall: how its skins and core fold is not known. "
          "The rigging holds it.")
CUT_AT = "Sill line {bottom} above the bottom rail, head line {head} above it; the strip below stays in the wall."
WIDE_TAB = "A tab {tab} wide does not lie within one outer flat of {flat}: it does not fold along one line."
MANY_TABS = "The tabs given are wider together than the cut: count them again."
STRENGTHS = "The tensile strength given is below the yield strength: read the steel's sheet again."

HOT = "Cutting: guard between you and the disc, nobody in its plane; a fire watch on both faces of the wall."
COLD = "Cut cold, by saw or nibbler: the core burns and gives off poisonous smoke. Find ribs and joints first."
CAUTIONS = (
    "Rig it before the first cut, through a drilled hole high in the waste, tied off: it can go neither in nor out. "
    "The rigging holds it, not hands and not tabs.",
    "Eyes and face, ears, lungs; gloves for the edges; a footing that cannot be kicked away; nobody beside, under or "
    "in front of the panel.",
    "Wind rising, or it cannot be rigged: do not cut it free.",
    "These figures permit nothing: the employer's assessment, the lifting rules and the rules of the site decide.",
)


def cautions(smooth: bool) -> list[str]:
    """What is said always."""
    return [CAUTIONS[0], COLD if smooth else HOT, *CAUTIONS[1:]]


def _lean(side: str, past: Json) -> str:
    low, high = past["low"], past["high"]
    if low is None:
        return fill(NO_ANGLE, {"side": SIDES[side]}, "mm")
    if low <= 0:
        return fill(AT_ONCE, {"side": SIDES[side]}, "mm")
    if high is None:
        return fill(PAST_LOW, {"side": SIDES[side], "low": low}, "mm")
    return fill(PAST, {"side": SIDES[side], "low": low, "high": high}, "mm")


def _falls(made: Json, show: Show) -> list[str]:
    lines = [_lean(side, made[f"falls_{side}_past"]) for side in ("out", "in")]
    lines += [fill(PUSH, {"push": amount(made[f"push_{side}"], "N", show),
                          "wind": amount(made[f"wind_{side}"], "m/s", show), "side": SIDES[side].lower()}, show)
              for side in ("out", "in") if made[f"push_{side}"] > 0]
    return [*lines, LIMITS]


def _doubts(known: Json, profile: Json, show: Show) -> list[str]:
    """What in the figures given does not fit the reckoning."""
    tab, flat = known["tabs"]["width"], profile["outer"]
    found = [fill(WIDE_TAB, {"tab": tab, "flat": flat}, show)] if tab > flat else []
    found += [MANY_TABS] if known["tabs"]["count"] * tab > known["cut"]["width"] else []
    return found + ([STRENGTHS] if known["tensile"] < known["yield"] else [])


def sentences(made: Json, known: Json, profile: Json | None, person: float, show: Show) -> list[str]:
    """What is said of the answer `made`; known: what panel.panel is given, with defaults; person: kg of one."""
    weighed = made["judged"][0]
    people = fill(PEOPLE[weighed["verdict"]], {
        "mass": amount(made["mass"], "kg", show), "people": made["people"] or 0,
        "person": amount(person, "kg", show), "limit": amount(weighed["to"], "kg", show)}, show)
    falls = [SMOOTH] if profile is None else [*_falls(made, show), *_doubts(known, profile, show)]
    return [LEAD, fill(REACH, {"reach": made["reach"]}, show), *falls, people, DECIDES,
            fill(CUT_AT, made["cut_at"], show)]
