"""The wall with a place for the door: section above, elevation below, to scale, in the reader's units.

Drawn from an answer of `layout`. The cut is dashed with crow's feet at its ends and its waste hatched, land is a
band with its width, the corrugation's edges are dotted in the elevation, the leaf's swing is a thin dashed V with its
point at the hinges. SVG, px; lengths of input and answer mm.
"""

from typing import Any

from fieldapp.plan import scaled
from fieldapp.plan.pictures import area, line, picture, text
from fieldapp.plan.scaled import View, part
from fieldapp.plan.wall_view import LEAST, LEFT, OVER_HEAD, RIGHT, UNDER, WIDE, Wall, sweep, view_of, window
from fieldapp.trade.lengths import Show, say

Json = dict[str, Any]

KEY = ("Seen from outside; section above, seen from above, its outside below. Dashed: the cut, crow's feet at its "
       "ends. Hatched: waste, and what stays clear. Band: land. Thin: flange. Dotted: edges of the corrugation.")


def wall_drawing(given: Json, answer: Json, profile: Json | None, chosen: int = 0) -> tuple[str, str]:
    """(what it shows, the SVG) of the place `chosen` in the answer's list; lengths of both in mm.

    given: what layout.layout is given, defaults filled in (opening.height); profile: None on a smooth wall.
    """
    show: Show = given.get("show", "mm")
    place = answer["places"][chosen] if answer["places"] else None
    view, top = view_of(given, place, profile)
    start, end = window(given, place, profile)
    told = _told(given, place, show)
    part_only = (start, end) != (given["wall_from"], given["wall_to"])
    parts = [*_overview(given, answer, place, (start, end), show)] if part_only else []
    wall = Wall(given, answer, profile, view, (start, end))
    parts += [wall.section(top, place), *_beside(wall, place), *wall.elevation()]
    if place is not None:
        parts += [*_lands(wall, top, place, show), *_cut(wall, place), *_swing(wall, place, show),
                  *_figures(wall, place, show)]
    foot = view.y(-UNDER)
    parts.append(scaled.scale_bar(view, LEFT, foot + (148 if "swing" in given else 112), show))
    return told, picture(WIDE, foot + (160 if "swing" in given else 124), "The wall and the place", told, parts)


def _told(given: Json, place: Json | None, show: Show) -> str:
    if place is None:
        return f"The wall; no place for an opening {say(given['opening']['width'], show)} wide. {KEY}"
    fits = "" if place["possible"] else " This place breaks a rule and does not serve."
    land = "" if place["land_left"] is None else (
        f" Land {say(place['land_left'], show)} left, {say(place['land_right'], show)} right.")
    return (f"Opening cut from {say(place['cut_left'], show)} to {say(place['cut_right'], show)} from the datum, "
            f"{say(given['opening']['height'], show)} high.{land}{fits} {KEY}")


def _overview(given: Json, answer: Json, place: Json | None, drawn: tuple[float, float], show: Show) -> list[str]:
    """The whole wall as a strip: what stays clear, the place, the centres of the others, what is drawn below."""
    low, high = given["wall_from"], given["wall_to"]
    view = View((WIDE - LEFT - RIGHT) / max(high - low, LEAST), LEFT, 40, low)
    parts = [scaled.boxed("ink", (view.x(low), 16), (view.x(high), 40), 2)]
    parts += [scaled.hatched("hatch", (view.x(max(zone["from"], low)), 16), (view.x(min(zone["to"], high)), 40), 8)
              for zone in given.get("keep_clear", []) if zone["from"] <= high and zone["to"] >= low]
    parts += [line("pencil", [(view.x(one["centre"]), 28), (view.x(one["centre"]), 40)], 2)
              for one in answer["places"] if one["possible"] and one is not place]
    if place is not None:
        parts.append(scaled.boxed("ink", (view.x(place["cut_left"]), 20), (view.x(place["cut_right"]), 40), 3, "6 3"))
    parts += [line("hair", [(view.x(drawn[0]), 40), (view.x(drawn[0]), 52), (view.x(drawn[1]), 52),
                            (view.x(drawn[1]), 40)], 1.5),
              text("pencil", view.x(low), 72, say(low, show), "start"), text("pencil", view.x(high), 72,
                                                                             say(high, show), "end"),
              text("pencil", LEFT - 8, 34, "whole wall", "end")]
    return [part("whole", parts)]


def _lands(wall: Wall, y: float, place: Json, show: Show) -> list[str]:
    """The land either side as bands under the section, with their widths."""
    if place["land_left"] is None:
        return []
    made = []
    for side, start, end in (("left", place["cut_left"] - place["land_left"], place["cut_left"]),
                             ("right", place["cut_right"], place["cut_right"] + place["land_right"])):
        said = f"land {say(place[f'land_{side}'], show)}"
        long = scaled.wide(said)
        at, anchor = (max(wall.view.x(end), long), "end") if side == "left" else (
            min(wall.view.x(start), WIDE - long), "start")
        made.append(part(f"land-{side}", [scaled.band((wall.view.x(start), y + 6), (wall.view.x(end), y + 18)),
                                          text("ink", at, y + 38, said, anchor)]))
    return made


def _beside(wall: Wall, place: Json | None) -> list[str]:
    """The land in the elevation, under everything else."""
    if place is None or place["land_left"] is None:
        return []
    ends = ((place["cut_left"] - place["land_left"], place["cut_left"]),
            (place["cut_right"], place["cut_right"] + place["land_right"]))
    return [area("card", wall.corners(*each, 0, wall.high)) for each in ends]


def _cut(wall: Wall, place: Json) -> list[str]:
    """Waste, cut line, flange and centre line."""
    left, right, covers = place["cut_left"], place["cut_right"], wall.given["flange"]["covers"]
    box = wall.corners(left, right, 0, wall.high)
    ways = ((-0.7, 0.7), (-0.7, -0.7), (0.7, -0.7), (0.7, 0.7))
    feet = [scaled.crow(point, way) for point, way in zip(box, ways, strict=True)]
    middle = place["centre"]
    return [part("waste", [scaled.hatched("hatch", box[0], box[2], 36)]),
            part("flange", [line("pencil", wall.corners(left - covers, right + covers, 0, wall.high + covers), 1.5)]),
            part("cut", [line("ink", box, 4, scaled.CUT_DASH, close=True)]), part("feet", feet),
            part("centre", [line("pencil", [wall.view.at(middle, -UNDER), wall.view.at(
                middle + wall.lean(wall.high), wall.high + OVER_HEAD * 0.6)], 1.5, scaled.CENTRE_DASH)])]


def _swing(wall: Wall, place: Json, show: Show) -> list[str]:
    """The leaf's V, and below the wall what it sweeps and what is clear for it."""
    if "swing" not in wall.given:
        return []
    leaf, side = wall.given["swing"], 1 if wall.given["swing"]["hand"] == "left" else -1
    hinge = place["centre"] - side * leaf["leaf"] / 2
    latch, y = hinge + side * leaf["leaf"], wall.view.y(-UNDER) + 112
    low, high = sweep(leaf, place["centre"])
    ends = [(wall.view.x(at), y) for at in (low, high)]
    said = f"leaf sweeps {say(low, show)} to {say(high, show)}"
    return [part("swing", [line("hair", [wall.view.at(latch + wall.lean(wall.high), wall.high),
                                         wall.view.at(hinge + wall.lean(wall.high / 2), wall.high / 2),
                                         wall.view.at(latch, 0)], 2, scaled.SWING_DASH)]),
            part("sweep", [line("hair", ends, 3, scaled.SWING_DASH),
                           text("pencil", (ends[0][0] + ends[1][0]) / 2, y - 8, said),
                           *(line("hair", [(x, y - 8), (x, y + 8)], 2) for x, _ in ends)])]


def _figures(wall: Wall, place: Json, show: Show) -> list[str]:
    """Width and height of the opening, and where cut and centre stand from the datum."""
    view, foot = wall.view, wall.view.y(-UNDER)
    at = [place["cut_left"], place["centre"], place["cut_right"]]
    room = view.scale * (at[2] - at[0]) / 2 > max(scaled.wide(say(x, show)) for x in at)
    left = min(view.x(wall.drawn[0]), LEFT) - 20
    return [part("width", scaled.across(view, at[0], at[2], foot + 32, show)),
            part("height", [*scaled.upright(view, 0, wall.high, left, show),
                            *(line("hair", [(left - 8, view.y(z)), (view.x(at[0]), view.y(z))], 1)
                              for z in (0, wall.high))]),
            part("stations", [*_station(view, at[0], foot, 0, show, "middle" if room else "end"),
                              *(_station(view, at[1], foot, 36, show, "middle") if room else []),
                              *_station(view, at[2], foot, 0, show, "middle" if room else "start"),
                              text("pencil", 0, foot + 86, "from the datum", "start")])]


def _station(view: View, at: float, foot: float, gap: float, show: Show, anchor: str) -> list[str]:
    """Where a point stands from the datum: a thin line from below the wall to the figure."""
    return [line("hair", [(view.x(at), foot + gap), (view.x(at), foot + 48)], 1),
            text("ink", view.x(at), foot + 66, say(at, show), anchor)]
