"""The fixings about the opening, to scale: rings are holes, the two that are set first are filled.

SVG, px; lengths of input and answer mm.
"""

from typing import Any

from fieldapp.plan import scaled
from fieldapp.plan.pictures import dot, line, picture, ring, text
from fieldapp.plan.scaled import View, part
from fieldapp.trade.corrugation import pitch as pitch_of
from fieldapp.trade.lengths import Show
from fieldapp.trade.measured import parted

Json = dict[str, Any]

WIDE, LEFT, RIGHT, TALL = 704.0, 140.0, 140.0, 560.0
KEY = ("Seen from outside. Rings: holes; filled: set first, one low on each side. Dashed: the cut. Bands: land. "
       "Dotted: edges of the corrugation.")


def fixings_drawing(given: Json, answer: Json, profile: Json | None) -> tuple[str, str]:
    """(what it shows, the SVG) of an answer of fixings.fixings; profile: None on a smooth wall."""
    show: Show = given.get("show", "mm")
    width, height = given["opening"]["width"], given["opening"]["height"]
    edge = parted(given["edge"], 0)[0]
    beside = max(60.0, 2 * edge, *(parted(land, 0)[0] + 30 for land in given.get("land", {}).values()))
    scale = min((WIDE - LEFT - RIGHT) / (width + 2 * beside), TALL / (height + 2 * beside))
    foot = 40 + (height + 2 * beside) * scale
    left = (WIDE - (width + 2 * beside) * scale) / 2
    view = View(scale, left, foot, -beside, -beside)
    parts = [*_wall(view, given, profile, beside), *_holes(view, answer),
             *_figures(view, given, answer, (beside, edge), show), scaled.scale_bar(view, left, foot + 92, show)]
    words = ", ".join(f"{name} {count}" for name, count in answer["numbers"].items())
    told = f"Holes: {words}. {KEY}"
    return told, picture(WIDE, foot + 104, "The fixings", told, parts)


def _wall(view: View, given: Json, profile: Json | None, beside: float) -> list[str]:
    """Land as bands, the corrugation's edges, the cut."""
    width, height = given["opening"]["width"], given["opening"]["height"]
    parts: list[str] = []
    if profile is not None:
        left, right = (parted(given["land"][side], 0)[0] for side in ("left", "right"))
        parts += [part("land", [scaled.band(view.at(-left, 0), view.at(0, height)),
                                scaled.band(view.at(width, 0), view.at(width + right, height))])]
        at, folds = -left, []
        while scaled.countable(left + width + beside, pitch_of(profile)) and at < width + beside:
            folds += [at, at + profile["outer"], at + profile["outer"] + profile["slope"],
                      at + pitch_of(profile) - profile["slope"]]
            at += pitch_of(profile)
        parts.append(part("edges", [line("hair", [view.at(x, -beside), view.at(x, height + beside)], 1.5, scaled.DOTS)
                                    for x in folds if -beside < x < width + beside]))
    box = [view.at(*corner) for corner in ((0, 0), (0, height), (width, height), (width, 0))]
    return [*parts, part("cut", [line("ink", box, 3, scaled.CUT_DASH, close=True)])]


def _holes(view: View, answer: Json) -> list[str]:
    """Every hole; the lowest of each side is set first."""
    lowest = min((hole["up"] for hole in answer["holes"] if hole["place"] == "sides"), default=None)
    drawn: dict[str, list[str]] = {}
    for hole in answer["holes"]:
        at = view.at(hole["across"], hole["up"])
        first = hole["place"] == "sides" and hole["up"] == lowest
        drawn.setdefault(hole["place"], []).append(dot("solid", *at, 6) if first else ring("ink", *at, 5, 2.5))
    return [part(f"holes-{name}", parts) for name, parts in drawn.items()]


def _figures(view: View, given: Json, answer: Json, known: tuple[float, float], show: Show) -> list[str]:
    """Rows and numbers, pitch at the sides, edge, width and height."""
    width, height, (beside, edge) = given["opening"]["width"], given["opening"]["height"], known
    rows = {one["place"]: one["row"] or "none" for one in answer["at"]}
    sides = sorted(hole["up"] for hole in answer["holes"] if hole["place"] == "sides" and hole["across"] < 0)
    right, left = view.x(width + beside), view.x(-beside)
    parts = [part("width", scaled.across(view, 0, width, view.foot + 36, show)),
             part("height", scaled.upright(view, 0, height, left - 24, show)),
             part("pitch", scaled.upright(view, sides[0], sides[1], right + 16, show)),
             part("edge", scaled.across(view, width, width + edge, view.y(height) - 14 - edge * view.scale, show)),
             text("ink", view.x(width / 2), 24, f"head {answer['numbers']['head']}, row {rows['head']}"),
             text("ink", WIDE, view.y(height / 2), f"sides {answer['numbers']['sides']}", "end"),
             text("ink", WIDE, view.y(height / 2) + 22, f"row {rows['sides']}", "end")]
    if "sill" in rows:
        parts.append(text("ink", view.x(width / 2), view.y(0) - 12, f"sill {answer['numbers']['sill']}, row "
                                                                   f"{rows['sill']}"))
    return parts
