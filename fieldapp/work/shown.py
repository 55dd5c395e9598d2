"""Parts of the pictures of what is measured: dimension lines that carry a field's name. Pixels, y downwards.

Not to scale: they show where to put tape, calliper or gauge, and under which name the figure is typed.
"""

from fieldapp.plan.pictures import line, picture, strokes, text
from fieldapp.plan.scaled import turned

Point = tuple[float, float]
Picture = tuple[str, str]  # what it shows, the SVG

WIDE = 352.0
TURNED = 100.0  # px: an upright dimension this long has room for its name along it


def shown(title: str, told: str, high: float, parts: list[str]) -> Picture:
    """A picture as wide as a phone."""
    return told, picture(WIDE, high, title, told, parts)


def across(name: str, start: float, end: float, y: float, at: Point | None = None, anchor: str = "middle") -> str:
    """A dimension line along, in chalk; its name above the middle, or `at` another place."""
    x, word = at or ((start + end) / 2, y - 8)
    ends = [(start, y), (end, y)]
    return line("chalk", ends, 3) + strokes("chalk", ends, 6, 2) + text("chalk", x, word, name, anchor, 16)


def upright(name: str, x: float, top: float, foot: float, at: Point | None = None, anchor: str = "start") -> str:
    """The same upright; its name right of it, of a long one read from the right, or `at` another place."""
    ends = [(x, top), (x, foot)]
    drawn = line("chalk", ends, 3) + strokes("chalk", ends, 6, 2)
    if at is None and foot - top > TURNED:
        return drawn + turned("chalk", x - 8, (top + foot) / 2, name)
    return drawn + text("chalk", *(at or (x + 10, (top + foot) / 2 + 5)), name, anchor, 16)


def pointer(name: str, tip: Point, at: Point, anchor: str = "start") -> str:
    """A thin line from a name to what it names."""
    return line("hair", [tip, at], 1.5) + text("chalk", at[0], at[1] + (14 if at[1] > tip[1] else -4), name, anchor, 16)


def box(kind: str, left: float, top: float, right: float, foot: float, width: float = 3, dash: str = "") -> str:
    """An upright rectangle."""
    return line(kind, [(left, top), (right, top), (right, foot), (left, foot)], width, dash, close=True)


def folds(left: float, right: float, y: float, flat: float, slope: float, deep: float, first: float) -> list[Point]:
    """A corrugation in section from left to right, its outer flats at y, the first of them `first` long."""
    points, x, low, long = [(left, y)], left, True, first
    while x < right:
        x = min(x + long, right)
        points.append((x, y if low else y - deep))
        if x + slope >= right:
            break
        x, low, long = x + slope, not low, flat
        points.append((x, y if low else y - deep))
    return points
