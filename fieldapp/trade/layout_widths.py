"""Which openings' widths land on outer flats both sides of a corrugation. Lengths mm.

k pitches give the land from k * pitch - outer to k * pitch + outer - 2 * needs_land.
"""

from math import ceil, floor

from fieldapp.trade.estimate.band_values import tidy
from fieldapp.trade.layout_rules import DUST, Range


def flats_apart(width: float, pitch: float, outer: float, needs: float) -> range:
    """How many flats apart (0: the same one) the cuts of an opening may stand with land at both; often none."""
    if needs > outer + DUST:
        return range(0)
    least = ceil((width - outer + 2 * needs - DUST) / pitch)
    return range(max(0, least), floor((width + outer + DUST) / pitch) + 1)


def width_range(k: int, pitch: float, outer: float, needs: float) -> Range:
    """The widths for which k pitches give the land."""
    return tidy(k * pitch - outer), tidy(k * pitch + outer - 2 * needs)


def fits(width: float, pitch: float, outer: float, needs: float) -> list[Range]:
    """The ranges that hold the width, else the next narrower and the next wider; k from 1. Empty where the flat is
    too small for any land.
    """
    if needs > outer + DUST:
        return []
    holding = [k for k in flats_apart(width, pitch, outer, needs) if k >= 1]
    if not holding:
        wider = max(1, floor((width + outer + DUST) / pitch) + 1)
        holding = [k for k in (wider - 1, wider) if k >= 1]
    return [width_range(k, pitch, outer, needs) for k in holding]


def short_by(width: float, pitch: float, outer: float, needs: float) -> float:
    """How much too wide the opening is for the nearest pair of flats; 0 when some pair has room for the land."""
    if len(flats_apart(width, pitch, outer, needs)):
        return 0.0
    # the pair before the one that would have room, were the cuts not to fall beyond its flats
    nearest = max(0, ceil((width - outer + 2 * needs - DUST) / pitch) - 1)
    return tidy(width - (nearest * pitch + outer - 2 * needs))
