"""The hand of a door in a picture: from outside, and from above with the way the leaf closes."""

from math import cos, pi, sin

from fieldapp.plan.dimensions import OTHER, closing_direction
from fieldapp.plan.door_picture import Door, outline, swing
from fieldapp.plan.pictures import area, line, picture, text

Point = tuple[float, float]
WIDTH, HEIGHT = 300, 190
_WALL, _REACH = 60.0, 80.0  # the wall's height in the plan, the leaf's length, px
_LEFT, _RIGHT = 190.0, 270.0


def closing_path(hand: str, steps: int = 12) -> list[Point]:
    """Where the leaf's edge goes as it shuts, seen from above with the outside below; px, y downwards."""
    x, way = (_LEFT, 1) if hand == "left" else (_RIGHT, -1)
    turns = [pi / 2 * step / steps for step in range(steps + 1)]
    return [(x + way * _REACH * sin(turn), _WALL + _REACH * cos(turn)) for turn in turns]


def hand_picture(hand: str) -> str:
    """SVG: left the door from outside, hinges as bars, swing as a V; right the plan, leaf open, arrow as it shuts."""
    door = Door(30, 110, 26, 146, hand)
    path, hinge = closing_path(hand), (_LEFT if hand == "left" else _RIGHT, _WALL)
    (x, y), back = path[-1], path[-3]
    side = 7 if hand == "left" else -7
    parts = [
        *outline(door, width=4),
        swing(door),
        text("ink", 70, 180, "from outside", size=16),
        line("ink", [(165, _WALL), (_LEFT, _WALL)], 6),
        line("ink", [(_RIGHT, _WALL), (295, _WALL)], 6),
        line("ink", [hinge, path[0]], 5),
        line("hair", [hinge, path[-1]], 2, "6 5"),
        line("chalk", path[:-1], 2.5),
        area("chalk", [(x, y + 2), (back[0] + side, back[1] + 4), (back[0] - side, back[1] - 2)]),
        text("pencil", 230, 40, "inside", size=16),
        text("ink", 230, 180, "from above", size=16),
    ]
    return picture(
        WIDTH,
        HEIGHT,
        f"Hinges {hand}",
        f"From outside the hinges are on the {hand} and the latch on the {OTHER[hand]}; the leaf swings out. Seen from "
        f"above it closes {closing_direction(hand)}.",
        parts,
    )
