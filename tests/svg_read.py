"""Reads a drawing back: named parts, the points of their lines, the scale that its bar gives."""

import re
from xml.etree import ElementTree as ET

from fieldapp.trade.lengths import NM_PER_MM, read

SVG = "{http://www.w3.org/2000/svg}"


class Drawn:
    """A drawing by its parts; px, and mm by the bar."""

    def __init__(self, svg):
        assert " style=" not in svg
        self.root = ET.fromstring(svg)
        self.groups = {}
        for group in self.root.iter(f"{SVG}g"):
            self.groups.setdefault(group.get("data-part"), []).append(group)

    def __contains__(self, name):
        return name in self.groups

    def lines(self, name, nth=0):
        """The lines of a part, each a list of px points."""
        return [points(path) for path in self.groups[name][nth].iter(f"{SVG}path")]

    def circles(self, name, nth=0):
        """The middles of a part's circles, px."""
        return [(float(one.get("cx")), float(one.get("cy"))) for one in self.groups[name][nth].iter(f"{SVG}circle")]

    def words(self, name=None):
        """The texts of a part, or of the whole drawing."""
        of = self.root if name is None else self.groups[name][0]
        return [one.text for one in of.iter(f"{SVG}text")]

    @property
    def px_per_mm(self):
        """By the bar and what is written beside it."""
        said, = self.words("scale")
        return self.bar / (read(said.split(",")[0]) / NM_PER_MM)

    @property
    def bar(self):
        """The bar's length, px."""
        bar, = self.lines("scale")
        return bar[2][0] - bar[1][0]

    def clipped(self):
        """Texts that reach out of the drawing, at some 8 px a character."""
        _, _, width, height = map(float, self.root.get("viewBox").split())
        found = []
        for one in self.root.iter(f"{SVG}text"):
            x, y, long = float(one.get("x")), float(one.get("y")), 8 * len(one.text)
            if turn := re.match(r"translate\(([\d.-]+) ([\d.-]+)\) rotate\(-90\)", one.get("transform", "")):
                x, y = map(float, turn.groups())
                inside = 0 <= x <= width and y - long / 2 >= 0 and y + long / 2 <= height
            else:
                start = x - {"start": 0, "middle": long / 2, "end": long}[one.get("text-anchor")]
                inside = start >= -1 and start + long <= width + 1 and 10 <= y <= height
            if not inside:
                found.append(one.text)
        return found


def points(path):
    """[(x, y)] of a path made of M and L."""
    return [tuple(map(float, pair)) for pair in re.findall(r"(-?[\d.]+) (-?[\d.]+)", path.get("d"))]
