"""Drawings to scale: mm turned into px, dimension lines, crow's feet, hatching, a bar that gives the scale.

Made of the parts of pictures.py. Parts that say what they are carry `data-part`, so that a drawing can be read back.
"""

from dataclasses import dataclass

from fieldapp.plan.pictures import area, line, strokes, text
from fieldapp.trade.lengths import Show, say

Point = tuple[float, float]

CUT_DASH, PLAN_DASH, SWING_DASH, DOTS = "10 5", "14 3 2 3 2 3", "6 5", "2 5"
CENTRE_DASH = "12 3 3 3"
BARS = {"mm": (10.0, 20, 50, 100, 200, 500, 1000, 2000), "in": tuple(25.4 * inch for inch in (1, 2, 6, 12, 24, 48, 96))}
BAR_MOST = 190.0  # px
MOST_PITCHES = 150  # in one drawing; past it the folds would run together
MOST_LINES = 400  # of a hatching, however large what it fills
DIGIT = 8.6       # px, about, of a character of 16 px


@dataclass(frozen=True)
class View:
    """Where a point of the wall (mm, x to the right, z up) lies in the drawing (px, y downwards)."""

    scale: float
    left: float
    foot: float
    x_from: float = 0.0
    z_from: float = 0.0

    def x(self, mm: float) -> float:
        return self.left + (mm - self.x_from) * self.scale

    def y(self, mm: float) -> float:
        return self.foot - (mm - self.z_from) * self.scale

    def at(self, x: float, z: float) -> Point:
        return self.x(x), self.y(z)


def countable(long: float, pitch: float) -> bool:
    """Whether the folds of a corrugation over this length can be drawn apart from each other; mm."""
    return long <= MOST_PITCHES * pitch


def part(name: str, parts: list[str]) -> str:
    """Parts under one name."""
    return f'<g data-part="{name}">{"".join(parts)}</g>' if parts else ""


def turned(kind: str, x: float, y: float, said: str) -> str:
    """Words that are read from the right, their middle at x, y."""
    return text(kind, 0, 0, said).replace("<text ", f'<text transform="translate({x:.1f} {y:.1f}) rotate(-90)" ', 1)


def wide(said: str) -> float:
    """About how many px a line of 16 px text takes."""
    return DIGIT * len(said)


def across(view: View, start: float, end: float, y: float, show: Show, said: str = "") -> list[str]:
    """A dimension line from start to end (mm) at height y (px), its figure above it, or beside it where it is short."""
    told = said or say(end - start, show)
    a, b = view.x(start), view.x(end)
    room = abs(b - a) > wide(told)
    figure = text("ink", (a + b) / 2, y - 8, told) if room else text("ink", max(a, b) + 12, y + 5, told, "start")
    return [line("ink", [(a, y), (b, y)], 1.5), strokes("ink", [(a, y), (b, y)], 6, 2), figure]


def upright(view: View, start: float, end: float, x: float, show: Show, said: str = "") -> list[str]:
    """The same upright at x (px), read from the right; start, end in mm."""
    a, b = view.y(start), view.y(end)
    told = said or say(end - start, show)
    short = abs(b - a) < wide(told)
    figure = text("ink", x + 10, (a + b) / 2 + 5, told, "start") if short else turned("ink", x - 8, (a + b) / 2, told)
    return [line("ink", [(x, a), (x, b)], 1.5), strokes("ink", [(x, a), (x, b)], 6, 2), figure]


def crow(at: Point, way: Point, size: float = 12) -> str:
    """A crow's foot: three strokes that meet at a point and open towards `way` (a direction of length 1)."""
    (x, y), (dx, dy) = at, way
    ends = [(x + size * (dx - turn * dy), y + size * (dy + turn * dx)) for turn in (-0.5, 0, 0.5)]
    return "".join(line("ink", [at, end], 2) for end in ends)


def hatched(kind: str, corner: Point, far: Point, step: float = 14, width: float = 1) -> str:
    """45° hatching of the upright rectangle between two opposite corners (px)."""
    (left, right), (top, foot) = sorted((corner[0], far[0])), sorted((corner[1], far[1]))
    step = max(step, (right + foot - left - top) / MOST_LINES)
    made, total = [], left + top + step / 2
    while total < right + foot:
        low, high = max(left, total - foot), min(right, total - top)
        if high > low:
            made.append(line(kind, [(low, total - low), (high, total - high)], width))
        total += step
    return "".join(made)


def boxed(kind: str, corner: Point, far: Point, width: float, dash: str = "") -> str:
    """An upright rectangle between two opposite corners (px)."""
    (a, b), (c, d) = corner, far
    return line(kind, [(a, b), (c, b), (c, d), (a, d)], width, dash, close=True)


def band(corner: Point, far: Point) -> str:
    """A card-coloured rectangle with a thin edge, so that it is seen on white paper too."""
    (a, b), (c, d) = corner, far
    return area("card", [(a, b), (c, b), (c, d), (a, d)]) + boxed("hair", corner, far, 1)


def scale_bar(view: View, x: float, y: float, show: Show) -> str:
    """A bar of a round length, with what it stands for: what the drawing's scale is."""
    long = next((one for one in reversed(BARS[show]) if one * view.scale <= BAR_MOST), BARS[show][0])
    end = x + long * view.scale
    return part("scale", [line("ink", [(x, y - 5), (x, y), (end, y), (end, y - 5)], 2),
                          text("pencil", end + 10, y + 4, f"{say(long, show)}, to scale", "start")])
