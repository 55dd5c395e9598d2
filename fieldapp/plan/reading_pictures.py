"""One drawing a frame reading: the door, and in chalk what is measured. No text: it is drawn small."""

from fieldapp.plan.dimensions import Plan
from fieldapp.plan.door_picture import Door, Point, outline, swing
from fieldapp.plan.pictures import dot, line, picture, stretch, strokes

WIDE, HIGH = 150.0, 220.0
CORNER = {"bl": "foot left", "br": "foot right", "tl": "head left", "tr": "head right"}
ACROSS = {"sill": 0.02, "head": 0.98, "mid": 0.5}


def reading_picture(plan: Plan, kind: str) -> tuple[str, str]:
    """(what a screen reader says, the SVG) of one kind of frame reading."""
    return reading_of(plan.choices.hand, kind)


def reading_of(hand: str, kind: str) -> tuple[str, str]:
    """The same for a door of that hand."""
    door = Door(40, 110, 28, 196, hand)
    parts, told = _drawn(door, kind)
    said = f"Door seen from outside, hinges {door.hinge}. In chalk: {told}."
    return said, picture(WIDE, HIGH, kind.replace("_", " "), said, [*outline(door), swing(door), *parts])


def _drawn(door: Door, kind: str) -> tuple[list[str], str]:
    name, _, rest = kind.partition("_")
    maker = {
        "diagonal": _diagonal,
        "width": _width,
        "height": _height,
        "plumb": _plumb,
        "lean": _lean,
        "level": _level,
        "string": _strings,
        "land": _land,
        "gap": _gap,
    }[name]
    return maker(door, rest)


def _diagonal(door: Door, rest: str) -> tuple[list[str], str]:
    start, end = rest.split("_")
    return [stretch("chalk", door.corner(start), door.corner(end))], f"from {CORNER[start]} to {CORNER[end]}"


def _width(door: Door, rest: str) -> tuple[list[str], str]:
    up = ACROSS[rest]
    where = {"sill": "at the sill", "head": "at the head", "mid": "at mid-height"}[rest]
    return [stretch("chalk", door.at(0, up), door.at(1, up))], f"jamb to jamb {where}"


def _height(door: Door, side: str) -> tuple[list[str], str]:
    x = 0.02 if side == "left" else 0.98
    return [stretch("chalk", door.at(x, 0), door.at(x, 1))], f"along the {side} jamb"


def _plumb(door: Door, side: str) -> tuple[list[str], str]:
    x = door.x(side)
    bob = [(x - 5, door.foot - 30), (x + 5, door.foot - 30), (x, door.foot - 16)]
    return [
        line("chalk", [(x, door.top - 14), (x, door.foot - 30)], 3),
        line("chalk", bob, 5, close=True),
        *_level_tool((x, (door.top + door.foot) / 2), upright=True),
    ], f"a level on the {side} jamb, left to right"


def _lean(door: Door, side: str) -> tuple[list[str], str]:
    x, middle = door.x(side), (door.top + door.foot) / 2
    out = 26 if side == "right" else -26
    arrow = [
        line("chalk", [(x, door.top + 8), (x + out, door.top + 20)], 5),
        dot("chalk", x + out, door.top + 20, 6),
    ]
    return [
        *_level_tool((x, middle), upright=True),
        *arrow,
    ], f"a level on the face of the {side} jamb, in and out"


def _level(door: Door, rest: str) -> tuple[list[str], str]:
    return (
        _level_tool(door.at(0.5, 0.0 if rest == "sill" else 1.0), upright=False),
        f"a level along the {rest}",
    )


def _level_tool(at: Point, upright: bool) -> list[str]:
    x, y = at
    long, thick = 26.0, 6.0
    a, b = (thick, long) if upright else (long, thick)
    box = [(x - a, y - b), (x + a, y - b), (x + a, y + b), (x - a, y + b)]
    return [line("chalk", box, 4, close=True), dot("chalk", x, y, 4)]


def _strings(door: Door, _: str) -> tuple[list[str], str]:
    middle = door.at(0.5, 0.5)
    return [
        line("chalk", [door.corner("bl"), door.corner("tr")], 3),
        line("chalk", [door.corner("tl"), door.corner("br")], 3, "8 5"),
        dot("chalk", *middle, 9),
    ], ("two strings corner to corner, and the gap where they cross")


def _land(door: Door, rest: str) -> tuple[list[str], str]:
    side, where = rest.split("_")
    out = -1 if side == "left" else 1
    y = door.at(0, 0.08 if where == "sill" else 0.92)[1]
    start, end = (door.x(side) + out * 6, y), (door.x(side) + out * 32, y)
    edge = line("pencil", [(end[0], door.top - 10), (end[0], door.foot)], 2, "3 4")
    return [
        edge,
        stretch("chalk", start, end, 5),
    ], f"from the frame's {side} edge to the slope, at the {where}"


def _gap(door: Door, rest: str) -> tuple[list[str], str]:
    where, end = rest.split("_")
    if where == "head":
        across = (
            (0.12 if door.hinge == "left" else 0.88)
            if end == "hinge"
            else (0.88 if door.hinge == "left" else 0.12)
        )
        at, told = door.at(across, 0.97), f"the gap above the leaf on the {end} side"
        ends = [(at[0], at[1] - 8), (at[0], at[1] + 8)]
    else:
        hinge_across = 0.04 if door.hinge == "left" else 0.96
        across = hinge_across if where == "hinge" else 1 - hinge_across
        at, told = (
            door.at(across, 0.93 if end == "top" else 0.07),
            f"the gap on the {where} side at the {end}",
        )
        ends = [(at[0] - 8, at[1]), (at[0] + 8, at[1])]
    return [line("chalk", ends, 6), strokes("chalk", ends, 7, 4)], told
