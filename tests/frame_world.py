"""A world to try the frame calculator on: exact 3-D frames, ordinary tapes and levels, hands that miss a little.

Nothing here comes from the calculator: corners are placed by lengths and angles, readings are distances between
points. Sizes of the errors are those of the contract's table; the faults' sizes are our own, no source.
"""

from dataclasses import dataclass, field
from math import acos, cos, hypot, pi, sin, sqrt

import numpy as np

TAPES = ("diagonal_bl_tr", "diagonal_tl_br", "width_sill", "width_head", "width_mid", "height_left", "height_right")
LEVELS = ("plumb_left", "plumb_right", "lean_left", "lean_right", "level_sill", "level_head")
USUAL = (*TAPES, *LEVELS, "string_gap")
OWN = {
    **dict.fromkeys(TAPES, 0.5),
    "diagonal_bl_tr": 0.6,
    "diagonal_tl_br": 0.6,
    **dict.fromkeys(LEVELS, 0.4),
    "string_gap": 0.4,
}
TURNED = 0.3
CORRECTIONS = {
    "raise_bl": ("turn", 1),
    "raise_br": ("turn", -1),
    "lower_bl": ("turn", -1),
    "lower_br": ("turn", 1),
    "push_head_right": ("rack", 1),
    "push_head_left": ("rack", -1),
    "head_out": ("lean", 1),
    "head_in": ("lean", -1),
    "spread_mid": ("bow", 1),
    "close_mid": ("bow", -1),
}
TWISTS = {
    "twist_left_out": (0.5, -1),
    "twist_left_in": (-0.5, 1),
    "twist_right_out": (0.5, 1),
    "twist_right_in": (-0.5, -1),
}


@dataclass
class Frame:
    """A frame with its true faults, mm, and the errors of the tools that it is read with."""

    rng: np.random.Generator
    width: float = 914.0
    height: float = 2057.0
    hinge: str = "left"
    fault: dict = field(default_factory=dict)
    tape: float = 0.0
    zero: dict = field(default_factory=dict)

    def corners(self):
        """bl, br, tl, tr as (x, y, z): lengths are kept exactly, so the right jamb stands where they let it."""
        f, w, h = self.fault, self.width, self.height
        sill, head = w + f["ws"], w + f["wh"]
        left, right = h + f["hl"], h + f["hr"]
        angle = -f["turn"] / h
        br = (sill * cos(angle), 0.0, sill * sin(angle))
        x = left * (f["turn"] + f["rack"] + (f["ws"] - f["wh"]) / 2) / h
        y_left, y_right = left * (f["lean"] - f["twist"] / 2) / h, right * (f["lean"] + f["twist"] / 2) / h
        tl = (x, y_left, sqrt(left * left - x * x - y_left * y_left))
        return (
            (0.0, 0.0, 0.0),
            br,
            tl,
            _meet(br, sqrt(right**2 - y_right**2), tl, sqrt(head**2 - (y_right - y_left) ** 2), y_right),
        )

    def truth(self):
        """Judged quantities as they really are, mm."""
        bl, br, tl, tr = self.corners()
        w, h = self.width, self.height
        hinge, foot, far, far_foot, sign = (tl, bl, tr, br, 1) if self.hinge == "left" else (tr, br, tl, bl, -1)
        left, right = _less(tl, bl), _less(tr, br)
        lean_left, lean_right = h * left[1] / _size(left), h * right[1] / _size(right)
        return {
            "square_head": sign * w * (_angle(_less(far, hinge), _less(foot, hinge)) - pi / 2),
            "square_sill": -sign * w * (_angle(_less(far_foot, foot), _less(hinge, foot)) - pi / 2),
            "plumb_left": h * left[0] / _size(left),
            "plumb_right": h * right[0] / _size(right),
            "twist": lean_right - lean_left,
            "lean": (lean_left + lean_right) / 2,
            "align_mid": self.fault["bow"],
        }

    def exact(self, kind, over=None):
        """What a perfect tool would read, mm."""
        bl, br, tl, tr = self.corners()
        lines = {
            "diagonal_bl_tr": (bl, tr),
            "diagonal_tl_br": (tl, br),
            "width_sill": (bl, br),
            "width_head": (tl, tr),
            "height_left": (bl, tl),
            "height_right": (br, tr),
        }
        if kind in lines:
            return _size(_less(lines[kind][1], lines[kind][0]))
        if kind == "width_mid":
            return _size(_less(_middle(br, tr), _middle(bl, tl))) + self.fault["bow"]
        if kind == "string_gap":
            return _middle(bl, tr)[1] - _middle(tl, br)[1]
        way, of = kind.split("_")
        line = {"left": (bl, tl), "right": (br, tr), "sill": (bl, br), "head": (tl, tr)}[of]
        step = _less(line[1], line[0])
        side = self.width if way == "level" else self.height
        return (side if over is None else over) * step[{"plumb": 0, "lean": 1, "level": 2}[way]] / _size(step)

    def read(self, kind, reversed_=False, slip=0.0, exact=None):
        """One reading as typed, with the tool's error and its own."""
        value = self.exact(kind) if exact is None else exact
        own = TURNED if reversed_ else OWN[kind]
        if kind in TAPES:
            value += self.tape * value / 1000
        elif kind in LEVELS and not reversed_:
            value += self.zero[kind] * (self.width if kind.startswith("level") else self.height) / 1000
        made = {"of": kind, "value": value + self.rng.normal(0, own) + slip}
        if reversed_:
            made["reversed"] = True
        return made

    def round(self, kinds=USUAL, twice=False):
        """A round of readings: each once, or each twice with the level turned end for end."""
        exact = {kind: self.exact(kind) for kind in kinds}
        times = 2 if twice else 1
        return [
            self.read(kind, reversed_=twice and kind in LEVELS, exact=exact[kind])
            for kind in kinds
            for _ in range(times)
        ]

    def do(self, moves):
        """Corrections made by a hand that misses by 0.15 of the move and 0.3 mm."""
        for move in moves:
            really = move["by"] * (1 + self.rng.normal(0, 0.15)) + self.rng.normal(0, 0.3)
            if move["do"] in TWISTS:
                lean, twist = TWISTS[move["do"]]
                self.fault["lean"] += lean * really
                self.fault["twist"] += twist * really
            else:
                what, sign = CORRECTIONS[move["do"]]
                self.fault[what] += sign * really * (self.height / self.width if what == "turn" else 1)


def frame(rng, faults=4.0, built=0.5, bow=1.0, tape=0.25, level=0.29, **size):
    """A frame set out of true: turn, rack, lean, twist of sd `faults`, lengths of sd `built`, mm."""
    fault = {name: rng.normal(0, faults) for name in ("turn", "rack", "lean", "twist")}
    fault |= {name: rng.normal(0, built) for name in ("ws", "wh", "hl", "hr")} | {"bow": rng.normal(0, bow)}
    return Frame(
        rng, fault=fault, tape=rng.normal(0, tape), zero={kind: rng.normal(0, level) for kind in LEVELS}, **size
    )


def true(truth, tolerance=1.6):
    """Whether square (head), both plumbs and twist are inside."""
    return all(abs(truth[what]) <= tolerance for what in ("square_head", "plumb_left", "plumb_right", "twist"))


def _less(one, other):
    return tuple(a - b for a, b in zip(one, other, strict=True))


def _size(one):
    return sqrt(sum(a * a for a in one))


def _middle(one, other):
    return tuple((a + b) / 2 for a, b in zip(one, other, strict=True))


def _angle(one, other):
    return acos(sum(a * b for a, b in zip(one, other, strict=True)) / _size(one) / _size(other))


def _meet(low, long, left, wide, y):
    """The point at `y` that is `long` above `low` and `wide` right of `left`, seen in the x–z plane."""
    dx, dz = low[0] - left[0], low[2] - left[2]
    apart = hypot(dx, dz)
    along = (wide * wide - long * long + apart * apart) / (2 * apart)
    off = sqrt(wide * wide - along * along)
    return (left[0] + (along * dx - off * dz) / apart, y, left[2] + (along * dz + off * dx) / apart)
