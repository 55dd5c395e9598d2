"""The wall of a drawing in its view: section and elevation, without a door.

Lengths of wall and answer mm, of the drawing px. Seen from outside; in the section, seen from above, outside is below.
"""

from itertools import pairwise
from math import ceil, cos, floor, radians
from typing import Any

from fieldapp.plan.pictures import line
from fieldapp.plan.scaled import DOTS, Point, View, boxed, countable, hatched, part, turned
from fieldapp.trade.corrugation import pitch as pitch_of

Json = dict[str, Any]

WIDE, LEFT, RIGHT = 704.0, 104.0, 24.0
TALLEST = 520.0           # px of the opening
OVER_HEAD, UNDER = 160.0, 60.0  # mm of wall drawn above and below the opening
LEAST = 1.0               # mm of wall: a wall may be given that is none
SMOOTH_DEEP = 80.0        # mm between the skins of a smooth wall, as drawn: how thick it is layout is not told


def window(given: Json, place: Json | None, profile: Json | None) -> tuple[float, float]:
    """The stretch of wall that is drawn (mm): all of a short wall, else the place and what stands beside it."""
    low, high = given["wall_from"], given["wall_to"]
    if place is None:
        return low, high
    beside = max(given["flange"]["covers"] * 1.5, 1.3 * pitch_of(profile) if profile else 300.0)
    left, right = place["cut_left"] - beside, place["cut_right"] + beside
    if "swing" in given:
        reach = sweep(given["swing"], place["centre"])
        left, right = min(left, reach[0] - 40), max(right, reach[1] + 40)
    left, right = max(low, min(left, place["cut_left"])), min(high, max(right, place["cut_right"]))
    return (low, high) if high - low <= 1.5 * (right - left) else (left, right)


def sweep(swing: Json, centre: float) -> tuple[float, float]:
    """What the leaf sweeps along the wall (mm): one leaf towards the latch, and behind the hinges what it opens past
    a right angle. The hinges stand half a leaf off the centre.
    """
    leaf, side = swing["leaf"], 1 if swing["hand"] == "left" else -1
    hinge = centre - side * leaf / 2
    ends = hinge + side * leaf, hinge - side * leaf * max(0.0, -cos(radians(swing.get("opens_to", 95))))
    return min(ends), max(ends)


def view_of(given: Json, place: Json | None, profile: Json | None) -> tuple[View, float]:
    """The scale that fits, and the height (px) at which the section's outer face lies."""
    start, end = window(given, place, profile)
    high = given["opening"]["height"]
    scale = min((WIDE - LEFT - RIGHT) / max(end - start, LEAST), TALLEST / high)
    deep = (profile["depth"] if profile else SMOOTH_DEEP) * scale
    top = (44.0 if (start, end) == (given["wall_from"], given["wall_to"]) else 112.0) + deep
    left = LEFT + (WIDE - LEFT - RIGHT - (end - start) * scale) / 2
    return View(scale, left, top + 64 + (high + OVER_HEAD) * scale, start), top



class Wall:
    """The wall's own parts, in one view."""

    def __init__(self, given: Json, answer: Json, profile: Json | None, view: View, drawn: tuple[float, float]):
        self.given, self.profile, self.view, self.drawn = given, profile, view, drawn
        self.fit = answer["fit"]
        self.high = given["opening"]["height"]

    def lean(self, z: float) -> float:
        """How far right of its foot the corrugation stands at a height z, mm."""
        plumb = self.fit["plumb"] if self.fit else None
        return float(plumb["value"] * z / plumb["over"]) if plumb else 0.0

    def folds(self) -> list[tuple[float, bool]]:
        """Where the sheet folds at the sill in the drawn stretch: (mm, an outer flat begins or ends there)."""
        assert self.profile is not None
        pitch, outer, phase = (self.fit[name]["value"] for name in ("pitch", "outer", "phase"))
        slope = min(self.profile["slope"], (pitch - outer) / 2)
        if not countable(self.drawn[1] - self.drawn[0], pitch):
            return []
        first, last = floor((self.drawn[0] - phase) / pitch) - 1, ceil((self.drawn[1] - phase) / pitch)
        made = []
        for n in range(first, last + 1):
            start = phase + n * pitch
            made += [(start - slope, False), (start, True), (start + outer, True), (start + outer + slope, False)]
        return made

    def section(self, y: float, place: Json | None) -> str:
        """The wall cut across: what stays as a solid line, what is cut out as a thin one."""
        deep = (self.profile["depth"] if self.profile else SMOOTH_DEEP) * self.view.scale
        cut = (place["cut_left"], place["cut_right"]) if place else (self.drawn[1], self.drawn[1])
        parts = []
        for low, high, kind, width in ((self.drawn[0], cut[0], "pencil", 3), (*cut, "hair", 1.5),
                                       (cut[1], self.drawn[1], "pencil", 3)):
            if high > low:
                parts += [line(kind, [(self.view.x(x), y - up * deep) for x, up in points], width)
                          for points in self.runs(low, high)]
        return part("section", parts)

    def runs(self, low: float, high: float) -> list[list[tuple[float, float]]]:
        """The section's lines between two positions: (mm, 0 at the outer face to 1 at the inner)."""
        if self.profile is None:
            return [[(low, level), (high, level)] for level in (0.0, 1.0)]
        folds = [(x, 0.0 if flat else 1.0) for x, flat in self.folds()]
        ends = [(at, self._level(folds, at)) for at in (low, high)]
        return [[ends[0], *(one for one in folds if low < one[0] < high), ends[1]]]

    @staticmethod
    def _level(folds: list[tuple[float, float]], at: float) -> float:
        for (a, level), (b, other) in pairwise(folds):
            if a <= at <= b:
                return level + (other - level) * (at - a) / (b - a) if b > a else level
        return 0.0

    def elevation(self) -> list[str]:
        """Dotted edges, the wall's ends, and what stays clear."""
        low, high, view = -UNDER, self.high + OVER_HEAD, self.view
        parts = []
        if self.profile is not None:
            parts.append(part("edges", [
                line("hair", [view.at(x + self.lean(low), low), view.at(x + self.lean(high), high)], 1.5, DOTS)
                for x, _ in self.folds() if self.drawn[0] < x < self.drawn[1]]))
        ends = [x for x in (self.given["wall_from"], self.given["wall_to"]) if x in self.drawn]
        parts.append(part("ends", [line("ink", [view.at(x, low), view.at(x, high)], 3) for x in ends]))
        for zone in self.given.get("keep_clear", []):
            start, end = max(zone["from"], self.drawn[0]), min(zone["to"], self.drawn[1])
            if start <= end:
                parts.append(part("clear", self._zone(start, end, zone.get("what", "keep clear"), low, high)))
        return [*parts, line("ink", [view.at(self.drawn[0], low), view.at(self.drawn[1], low)], 3)]

    def _zone(self, start: float, end: float, what: str, low: float, high: float) -> list[str]:
        view = self.view
        right = view.x(end) + 16 < view.x(self.drawn[1])
        at = view.x(end) + 16 if right else view.x(start) - 6
        return [hatched("hatch", view.at(start, low), view.at(end, high), 10),
                boxed("hair", view.at(start, low), view.at(end, high), 1.5),
                turned("pencil", at, view.y((low + high) / 2), what)]

    def corners(self, left: float, right: float, low: float, high: float) -> list[Point]:
        """px of bl, tl, tr, br of a rectangle that follows the corrugation up."""
        return [self.view.at(x + self.lean(z), z) for x, z in ((left, low), (left, high), (right, high), (right, low))]
