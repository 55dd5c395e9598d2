"""The cut sheet's drawing: the panel in the wall, numbered as its sequence, and from the side, as it falls.

Both views to scale, each with its own bar. SVG, px; lengths of input and answer mm.
"""

from math import cos, pi, radians, sin
from typing import Any

from fieldapp.plan import scaled
from fieldapp.plan.pictures import dot, line, picture, ring, text
from fieldapp.plan.scaled import Point, View, part
from fieldapp.trade.corrugation import pitch as pitch_of
from fieldapp.trade.lengths import Show, say

Json = dict[str, Any]

WIDE, HIGH = 704.0, 640.0
LEFT, MIDDLE, FOOT = 96.0, 376.0, 500.0
TALL, ASIDE = 400.0, 310.0
BESIDE = 120.0  # mm of wall drawn each side of the cut
KEY = ("Seen from outside. Numbers: the order of the work. Dashed: cut, crow's feet at its ends; solid in it: tabs and "
       "bridge, left until last. Ring: hole for the rigging. Right: from the side, as far as it reaches when it falls.")


def cut_drawing(given: Json, answer: Json, profile: Json | None) -> tuple[str, str]:
    """(what it shows, the SVG) of an answer of cutting.cut; profile: None on a smooth wall."""
    show: Show = given.get("show", "mm")
    width, height = given["cut"]["width"], given["cut"]["height"]
    scale = min((MIDDLE - LEFT - 40) / (width + 2 * BESIDE), TALL / height)
    view = View(scale, LEFT, FOOT, -BESIDE)
    parts = [*_wall(view, width, height, given.get("starts"), profile), *_cut(view, answer, width, height),
             *_numbers(view, answer, width, height), *_figures(view, given, answer, show),
             scaled.scale_bar(view, LEFT, HIGH - 12, show), *_side(answer, show)]
    told = f"Cut {say(width, show)} wide and {say(height, show)} high. {KEY}"
    return told, picture(WIDE, HIGH, "The cut", told, parts)


def _wall(view: View, width: float, height: float, starts: float | None, profile: Json | None) -> list[str]:
    """Bottom rail, and the corrugation's edges where it is known how the cut lies to them."""
    ends = (-BESIDE, width + BESIDE)
    parts = [line("ink", [(view.x(x), FOOT + 8) for x in ends], 5)]
    if profile is None or starts is None or not scaled.countable(starts + ends[1] - ends[0], pitch_of(profile)):
        return parts
    pitch, at, folds = pitch_of(profile), -starts, []
    while at > ends[0]:
        at -= pitch
    while at < ends[1]:
        folds += [at, at + profile["outer"], at + profile["outer"] + profile["slope"], at + pitch - profile["slope"]]
        at += pitch
    edges = [line("hair", [view.at(x, 0), view.at(x, height + BESIDE)], 1.5, scaled.DOTS)
             for x in folds if ends[0] < x < ends[1]]
    return [*parts, part("edges", edges)]


def _cut(view: View, answer: Json, width: float, height: float) -> list[str]:
    """Waste, cut line, what is left standing in it, crow's feet, the hole for the rigging."""
    box = [view.at(x, z) for x, z in ((0, 0), (0, height), (width, height), (width, 0))]
    ways = ((-0.7, 0.7), (-0.7, -0.7), (0.7, -0.7), (0.7, 0.7))
    left = [(one, 0) for one in answer["tabs"]] + [(answer["bridge"], height)]
    hole = view.at(answer["hole"]["across"], answer["hole"]["up"])
    return [part("waste", [scaled.hatched("hatch", box[0], box[2], 36)]),
            part("cut", [line("ink", box, 4, scaled.CUT_DASH, close=True)]),
            part("feet", [scaled.crow(point, way) for point, way in zip(box, ways, strict=True)]),
            part("left", [line("ink", [view.at(one["from"], z), view.at(one["to"], z)], 9) for one, z in left]),
            part("hole", [ring("ink", *hole, 7, 3)])]


def balloon(number: int, at: Point) -> str:
    """A number in a ring."""
    return (f'<circle class="paper" cx="{at[0]:.1f}" cy="{at[1]:.1f}" r="13" fill="none" stroke="currentColor" '
            f'stroke-width="2"/>' + text("ink", at[0], at[1] + 6, str(number)))


def _numbers(view: View, answer: Json, width: float, height: float) -> list[str]:
    """The sequence's numbers where the work is; what has no place of its own in the wall is not numbered."""
    hole = view.at(answer["hole"]["across"], answer["hole"]["up"])
    places = {"rig": [(hole[0] + 26, hole[1] + 6)], "stop_holes": [(view.x(0) + 22, view.y(height) + 22)],
              "sill": [(view.x(width / 2), view.y(0) - 18)],
              "sides": [(view.x(0) + 18, view.y(height * 0.55)), (view.x(width) - 18, view.y(height * 0.55))],
              "head": [(view.x(width * 0.25), view.y(height) - 18), (view.x(width * 0.75), view.y(height) - 18)],
              "bridge": [(view.x(width / 2), view.y(height) - 20)],
              "tabs": [(view.x((one["from"] + one["to"]) / 2), view.y(0) - 22) for one in answer["tabs"]]}
    return [part(f"number-{one['do']}", [balloon(i, at) for at in places[one["do"]]])
            for i, one in enumerate(answer["sequence"], 1) if places.get(one["do"])]


def _figures(view: View, given: Json, answer: Json, show: Show) -> list[str]:
    """Width, height, the strip, and where tabs stand from the left edge."""
    width, height, strip = given["cut"]["width"], given["cut"]["height"], answer["panel"]["cut_at"]["bottom"]
    parts = [part("width", scaled.across(view, 0, width, FOOT + 86, show)),
             part("height", scaled.upright(view, 0, height, LEFT - 28, show)),
             line("hair", [(LEFT - 36, view.y(height)), view.at(0, height)], 1),
             line("hair", [(LEFT - 36, view.y(0)), view.at(0, 0)], 1)]
    if strip > 0:
        parts.append(part("strip", [line("hair", [(70, FOOT + 56), (view.x(-BESIDE) + 8, FOOT + 4)], 1),
                                    text("ink", 0, FOOT + 72, f"strip {say(strip, show)}", "start")]))
    row = 30.0
    for one in answer["tabs"][:2]:  # the rest are in the sequence
        said = f"tab {say(one['from'], show)} to {say(one['to'], show)}"
        at = view.x((one["from"] + one["to"]) / 2)
        parts.append(part("tab", [line("hair", [(at, FOOT + 6), (at, FOOT + row - 14)], 1),
                                  text("ink", view.x(width / 2), FOOT + row, said)]))
        row = 52.0 if row == 30.0 else 30.0
    return parts


def _side(answer: Json, show: Show) -> list[str]:
    """The panel from the side: upright, the angles past which it goes, the reach in and out."""
    fallen, reach = answer["panel"], answer["panel"]["reach"]
    view = View(ASIDE / (2 * reach), MIDDLE, FOOT, -reach)
    foot = view.at(0, 0)

    def tip(degrees: float, share: float = 1.0) -> Point:
        return view.at(share * reach * sin(radians(degrees)), share * reach * cos(radians(degrees)))

    arc = [view.at(reach * cos(step * pi / 36), reach * sin(step * pi / 36)) for step in range(37)]
    parts = [line("ink", [view.at(-reach, 0), view.at(reach, 0)], 3), line("ink", [foot, view.at(0, reach)], 5),
             part("reach", [line("hair", arc, 2, scaled.SWING_DASH)]),
             text("pencil", view.x(-reach), view.y(reach * 0.9), "inside", "start"),
             text("pencil", view.x(reach), view.y(reach * 0.9), "outside", "end"),
             part("reach-in", scaled.across(view, -reach, 0, FOOT + 36, show)),
             part("reach-out", scaled.across(view, 0, reach, FOOT + 36, show)),
             text("ink", foot[0], FOOT + 66, "nobody here until it lies flat"), dot("ink", *foot, 6)]
    for way, sign in (("out", 1), ("in", -1)):
        low = (fallen[f"falls_{way}_past"] or {}).get("low")
        if low is not None and low > 0:
            end = tip(sign * low, 1.06)
            parts.append(part(f"past-{way}", [line("ink", [foot, end], 2, "4 3"),
                                              text("ink", end[0] + 8 * sign, end[1] - 4, f"{low:.1f}°",
                                                   "start" if sign > 0 else "end")]))
    return [*parts, scaled.scale_bar(view, MIDDLE, HIGH - 12, show).replace('data-part="scale"',
                                                                           'data-part="scale-side"')]
