"""Edges that the others contradict: left out of the fit, the worst first; one that the rest then predict comes back.

An edge is a misfit when it stands further than `most` of its standard uncertainties (its own u and that of what the
others predict) from the nearest edge of its kind in the best fit of the others.
"""

from typing import NamedTuple

import numpy as np

from fieldapp.trade.layout_fit import PITCH, Edges, Fit, Floats, Prior, fit
from fieldapp.trade.layout_numbers import Numbering, numberings

LEAST_FREE = 1e-12  # what an edge at least leaves to the others; below it is rounding
CONTRADICT = 9.0    # chi-square above which edges contradict each other
FEW = 8             # so many are fitted anew without each
ALIKE = 1e-6        # deviations closer than this, of their size, are one


class Found(NamedTuple):
    """The fit of the edges that were kept, and the positions of those that were left out, the worst first."""

    fit: Fit
    left_out: list[int]


def fitted(edges: Edges, prior: Prior, most: float) -> Found:
    """The fit of edges that agree. most: in standard uncertainties. Two edges that contradict each other leave one.

    An edge comes back once: if it is left out again the others that came back contradict it, and it stays out.
    """
    kept = list(range(len(edges.at)))
    out: list[int] = []
    returned: set[int] = set()
    near: list[Numbering] | None = None
    while True:
        among = edges.some(kept)
        found = numberings(among, prior, near)
        worst = _worst(among, found, prior, most) if len(kept) > 1 else None
        back = _predicted(edges, sorted(set(out) - returned), found[0][1], most)
        if worst is not None:
            out.append(kept.pop(worst))
        elif back is not None:
            returned.add(back)
            out.remove(back)
            kept = sorted([*kept, back])
        elif near is None:
            return Found(found[0][1], out)
        # the end is looked at once more from everywhere
        near = found if worst is not None or back is not None else None


def _worst(edges: Edges, found: list[Numbering], prior: Prior, most: float) -> int | None:
    """The edge that stands furthest off what the others predict, if that is too far; of equals the least sure."""
    far = _deviations(edges, found, prior)
    if far.max() <= most:
        return None
    equal = np.flatnonzero(far >= far.max() * (1 - ALIKE))
    return int(max(equal, key=lambda i: (edges.u[i], i)))


def _deviations(edges: Edges, found: list[Numbering], prior: Prior) -> Floats:
    """How far each edge stands off the best fit of the others, in standard uncertainties.

    Leaving one out changes least squares by its residual over what it leaves free (Cook and Weisberg 1982, from
    memory), so which numbering serves the others best is known without fitting anew. Where edges contradict each
    other, that numbering may not be among `found`: a handful of edges is then fitted anew without each of them.
    """
    if found[0][1].chi > CONTRADICT and 2 < len(edges.at) <= FEW:
        return np.array([_alone(edges, i, prior) for i in range(len(edges.at))])
    free = np.array([np.maximum(1 - one.leverage, LEAST_FREE) for _, one in found])
    left = np.array([one.left for _, one in found])
    apart = left / edges.u / np.sqrt(free)
    best = np.argmin(np.array([one.chi for _, one in found])[:, None] - apart ** 2, axis=0)
    every = list(range(len(best)))
    far: Floats = np.abs(apart[best, every])
    # one that stands more than half a pitch off is nearer to another flat's edge
    pitches = np.array([one.x[PITCH] for _, one in found])
    for i in map(int, np.flatnonzero(np.abs(left / free)[best, every] > 0.45 * pitches[best])):
        others = [j for j in every if j != i]
        off, doubt, _ = fit(edges.some(others), found[best[i]][0][others], prior).off(*(part[i] for part in edges))
        far[i] = abs(off) / doubt
    return far


def _alone(edges: Edges, i: int, prior: Prior) -> float:
    """How far edge i stands off the best fit of the others, found without it."""
    others = edges.some([j for j in range(len(edges.at)) if j != i])
    off, doubt, _ = numberings(others, prior)[0][1].off(*(float(part[i]) for part in edges))
    return abs(off) / doubt


def _predicted(edges: Edges, out: list[int], found: Fit, most: float) -> int | None:
    """Which of the edges that are out the others predict best, if they predict any."""
    if not out:
        return None
    off, doubt, _ = found.all_off(edges.some(out))
    away = np.abs(off) / doubt
    nearest = int(np.argmin(away))
    return out[nearest] if away[nearest] <= most else None
