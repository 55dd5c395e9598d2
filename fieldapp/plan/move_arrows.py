"""Where the hand goes, drawn: an arrow for each move, its number at the tail, how far beside it.

Up, down, left and right are arrows in the plane of the wall; in and out are the draughtsman's signs of an arrow seen
from behind (a crossed circle, away) and from its point (a dot in a circle, towards), as seen from outside.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from html import escape

from fieldapp.trade import lengths

Point = tuple[float, float]
_SHAFT, _HEAD, _LONG, _ROUND = 6, 20, 44, 13


@dataclass(frozen=True)
class Move:
    """do: a correction of the frame's sheet; by: how far [mm]; made: made already, else only told."""

    do: str
    by: float
    made: bool = False


def arrows(corner: Mapping[str, Point], moves: Sequence[Move]) -> str:
    """SVG of the moves in order; corner: where `bl`, `br`, `tl`, `tr` of the drawn frame lie [px]."""
    return "".join(
        _one(place, way, str(number) if first else "", lengths.say(move.by, "mm") if first else "", move.made)
        for number, move in enumerate(moves, 1)
        for first, (place, way) in zip((True, False), places(corner, move.do), strict=False)
    )


def places(corner: Mapping[str, Point], do: str) -> list[tuple[Point, str]]:
    """The middle of each arrow of a correction and its way; empty for one that is not known here."""
    verb, _, where = do.rpartition("_")
    middle = (corner["tl"][1] + corner["bl"][1]) / 2
    head = ((corner["tl"][0] + corner["tr"][0]) / 2, (corner["tl"][1] + corner["tr"][1]) / 2)
    left, right = corner["bl"][0] - 36, corner["br"][0] + 36
    if verb in ("raise", "lower") and where in corner:
        x = left if where == "bl" else right
        return [((x, corner[where][1] - 44), "up" if verb == "raise" else "down")]
    if verb == "push_head":
        return [((head[0], head[1] - 30), where)]
    if verb == "head":
        return [((head[0], head[1] + 46), where)]
    if verb in ("twist_left", "twist_right"):
        top = corner["tl" if verb == "twist_left" else "tr"]
        return [((top[0] + (-56 if verb == "twist_left" else 56), top[1] + 56), where)]
    if do in ("spread_mid", "close_mid"):
        ways = ("left", "right") if do == "spread_mid" else ("right", "left")
        return [((left, middle), ways[0]), ((right, middle), ways[1])]
    return []


_TURN = {"right": 0, "down": 90, "left": 180, "up": 270}


def _one(middle: Point, way: str, number: str, far: str, made: bool) -> str:
    x, y = middle
    kind = "chalk made" if made else "chalk"
    half = _LONG / 2
    if way in _TURN:
        neck, thick = half - _HEAD, _SHAFT / 2
        path = (
            f"M{-half} {-thick}H{neck}V{-_HEAD / 2}L{half} 0L{neck} {_HEAD / 2}V{thick}H{-half}Z"
        )
        shape = f'<path d="{path}" transform="translate({x:.1f} {y:.1f}) rotate({_TURN[way]})"/>'
    elif way == "out":
        shape = (
            f'<circle class="open" cx="{x:.1f}" cy="{y:.1f}" r="{_ROUND}" stroke-width="3"/>'
            f'<circle cx="{x:.1f}" cy="{y:.1f}" r="5"/>'
        )
    else:
        reach = _ROUND * 0.7
        shape = (
            f'<circle class="open" cx="{x:.1f}" cy="{y:.1f}" r="{_ROUND}" stroke-width="3"/>'
            f'<path class="open" stroke-width="3" d="M{x - reach:.1f} {y - reach:.1f}L{x + reach:.1f} {y + reach:.1f}'
            f'M{x + reach:.1f} {y - reach:.1f}L{x - reach:.1f} {y + reach:.1f}"/>'
        )
    return f'<g class="{kind}">{shape}{_words(middle, way, number, far)}</g>'


def _words(middle: Point, way: str, number: str, far: str) -> str:
    """The number behind the tail; the figure past the head, or above where the arrow goes up or down."""
    if not number:
        return ""
    x, y = middle
    if way in ("up", "down"):
        behind, beyond = ((x, y + 38), (x, y - 32)) if way == "up" else ((x, y - 36), (x, y + 44))
        anchor = "middle"
    elif way == "left":
        behind, beyond, anchor = (x + 38, y), (x - 30, y + 6), "end"
    elif way == "right":
        behind, beyond, anchor = (x - 38, y), (x + 30, y + 6), "start"
    else:
        behind, beyond, anchor = (x, y - 28), (x, y + 34), "middle"
    inside = f'x="{behind[0]:.1f}" y="{behind[1] + 5.5:.1f}" text-anchor="middle"'
    return (
        f'<circle cx="{behind[0]:.1f}" cy="{behind[1]:.1f}" r="10"/>'
        f'<text class="paper" {inside}>{escape(number)}</text>'
        f'<text x="{beyond[0]:.1f}" y="{beyond[1]:.1f}" text-anchor="{anchor}">{escape(far)}</text>'
    )
