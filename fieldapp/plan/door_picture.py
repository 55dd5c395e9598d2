"""The door as it is drawn everywhere: frame, swing, hinges, head kit, the wall in section above it."""

from dataclasses import dataclass

from fieldapp.plan.dimensions import Plan
from fieldapp.plan.pictures import area, line

Point = tuple[float, float]


@dataclass(frozen=True)
class Door:
    """Where the frame's reference corners lie in a drawing (px), and on which side the hinges are."""

    left: float
    right: float
    top: float
    foot: float
    hinge: str

    def corner(self, name: str) -> Point:
        """`bl`, `br`, `tl`, `tr`."""
        return (self.left if name[1] == "l" else self.right, self.foot if name[0] == "b" else self.top)

    def x(self, side: str) -> float:
        return self.left if side == "left" else self.right

    def at(self, across: float, up: float) -> Point:
        """A point by its share of the width from the left and of the height from the foot."""
        return (self.left + across * (self.right - self.left), self.foot - up * (self.foot - self.top))


def outline(door: Door, kind: str = "ink", width: float = 5) -> list[str]:
    """Jambs and head, the sill line running past them, hinges as short bars outside the hinge jamb."""
    reach = 0.16 * (door.right - door.left)
    side = -1 if door.hinge == "left" else 1
    bars = []
    for up in (0.12, 0.5, 0.88):
        x, y = door.at(0 if door.hinge == "left" else 1, up)
        bars.append(line("ink", [(x + side * 3, y - 6), (x + side * 3, y + 6)], 6))
    frame = line(kind, [door.corner("bl"), door.corner("tl"), door.corner("tr"), door.corner("br")], width)
    return [frame, line("ink", [(door.left - reach, door.foot), (door.right + reach, door.foot)], 3), *bars]


def swing(door: Door) -> str:
    """The leaf's swing: a thin dashed V with its point on the hinge side."""
    latch = "r" if door.hinge == "left" else "l"
    point = door.at(0 if door.hinge == "left" else 1, 0.5)
    return line("hair", [door.corner("t" + latch), point, door.corner("b" + latch)], 2, "6 5")


def head_kit(door: Door, kit: str) -> list[str]:
    """What sheds water above the door: a straight bar, or one that falls to both sides."""
    reach, high = 0.12 * (door.right - door.left), 8.0
    left, right, y = door.left - reach, door.right + reach, door.top - 9
    if kit == "straight":
        return [area("ink", [(left, y - high), (right, y - high), (right, y), (left, y)])]
    if kit == "angled":
        middle = (left + right) / 2
        return [
            area(
                "ink",
                [
                    (left, y),
                    (middle, y - 2 * high),
                    (right, y),
                    (right, y - high / 2),
                    (middle, y - 2.5 * high),
                    (left, y - high / 2),
                ],
            )
        ]
    return []


def section(plan: Plan, left: float, right: float, y: float) -> str:
    """The wall cut across, seen from above: its corrugation, or the two skins of a smooth one."""
    if not plan.choices.corrugated:
        return line("pencil", [(left, y), (right, y)], 3) + line(
            "pencil", [(left, y - 12), (right, y - 12)], 3
        )
    flat, slope, deep = (20.0, 13.0, 14.0) if plan.flags["wall"] == "corrugated side" else (26.0, 5.0, 16.0)
    points, x, low = [], left, True
    while x < right:
        level = y if low else y - deep
        points += [(x, level), (min(x + flat, right), level)]
        x, low = x + flat + slope, not low
    return line("pencil", points, 3)
