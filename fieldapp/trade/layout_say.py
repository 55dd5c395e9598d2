"""The sentences about where a door may go: the best place first, else what would serve, then what to read again."""

from typing import Any

from fieldapp.trade.estimate.chance import INSIDE, OUTSIDE, TOO_CLOSE
from fieldapp.trade.lengths import Show, fill

Json = dict[str, Any]

CUT = "Cut from {cut_left} to {cut_right}."
LAND = " Land {land_left} left, {land_right} right."
RANGE = "The centre may stand anywhere from {from} to {to}; this place puts it at {centre}."
DOUBT = ("Whether both lands are {needs} or more is too close to call. Read the edges of the two flats beside the cut, "
         "then ask again.")
MORE = "Further places, by centre: {list|text}."
MOST_MORE = 5
NUMBERS = ("centre", "from", "to", "cut_left", "cut_right", "land_left", "land_right")
BREAKS = "No place keeps every rule. The nearest, centre {centre}: {list|text}."
RULES = {"wall": "opening or flange reaches beyond the wall", "between": "the opening leaves its limits",
         "keep_clear": "opening or flange overlaps what must stay clear", "swing": "the leaf has no room to swing"}
WIDE = "No place: the opening is {short} too wide for this corrugation."
NONE = "No place: no two flats inside this wall take the opening."
NONE_SMOOTH = "No place: nothing is left between what must stay clear."
WIDTHS = "Widths with land on both sides: {list|text}."
ASK = "Another wall, another width, or ask; never bend or crush a corrugation to make land."
MISFIT = "The edge at {at} is {size} off the others and was left out{why|text}. Read it again."
LEANS = {
    OUTSIDE: "The corrugation leans {size} over {over}, more than {high}: a dent or a leaning wall. Choose another "
             "place, or ask.",
    TOO_CLOSE: "The corrugation leans {size} over {over}, too close to {high} to call. Read more edges at sill and "
               "head.",
    INSIDE: "The corrugation leans {size} over {over}, within {high}.",
}
FOLLOW = "Positions are those at the sill; the cut follows the corrugation up."


def sentences(given: Json, made: Json, show: Show) -> list[str]:
    """What to say of an answer, in mm or inches as `show` asks."""
    possible = [place for place in made["places"] if place["possible"]]
    lines = _best(given, possible, show) if possible else _none(made, show)
    lines += [fill(MISFIT, {"at": given["edges"][one["edge"]]["at"], "size": abs(one["off_by"]),
                            "why": f": {one['likely']}" if one["likely"] else ""}, show) for one in made["misfits"]]
    for one in made["judged"]:
        lines.append(fill(LEANS[one["verdict"]], {"size": abs(one["estimate"]), "high": one["to"],
                                                  "over": made["fit"]["plumb"]["over"]}, show))
    return [*lines, *([FOLLOW] if possible and made["fit"] else [])]


def _best(given: Json, possible: list[Json], show: Show) -> list[str]:
    best = possible[0]
    numbers = {name: best[name] for name in NUMBERS if best[name] is not None}
    lines = [fill(CUT + ("" if best["land_left"] is None else LAND), numbers, show)]
    if best["verdict"] not in (None, INSIDE):
        lines.append(fill(DOUBT, {"needs": given["flange"]["needs_land"]}, show))
    if best["verdict"] is None:
        lines.append(fill(RANGE, numbers, show))
    further = possible[1:1 + MOST_MORE]
    if further:
        rest = len(possible) - 1 - len(further)
        words = ", ".join(fill("{centre}", {"centre": place["centre"]}, show) for place in further)
        lines.append(fill(MORE, {"list": words + (f" and {rest} more" if rest else "")}, show))
    return lines


def _none(made: Json, show: Show) -> list[str]:
    if made["fit"] is None:
        return [NONE_SMOOTH]
    lines = []
    if made["places"]:
        nearest = made["places"][0]
        broken = "; ".join(RULES[rule] for rule in nearest["because"])
        lines.append(fill(BREAKS, {"centre": nearest["centre"], "list": broken}, show))
    elif made["short_by"] > 0:
        lines.append(fill(WIDE, {"short": made["short_by"]}, show))
    else:
        lines.append(NONE)
    if made["short_by"] > 0 and made["fits"]:
        ends = [(fill("{from}", one, show), fill("{to}", one, show)) for one in made["fits"]]
        ranges = [low if low == high else f"{low} to {high}" for low, high in ends]
        lines.append(fill(WIDTHS, {"list": ", ".join(ranges)}, show))
    return [*lines, ASK]
