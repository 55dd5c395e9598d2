"""Which flat each edge belongs to: the numberings that fit best.

For a pitch and a phase each edge belongs to the nearest flat, and for a numbering least squares gives both. So a
grid of pitches around the profile's and of phases, fine enough that no edge that fits jumps a flat unseen, is
numbered, fitted, and the best numbered again. A fit whose pitch lies far from the profile's is no numbering: with
one any edges at all can be made to agree.
"""

import numpy as np

from fieldapp.trade.layout_fit import OUTER, PHASE, PITCH, PLUMB, Edges, Fit, Floats, Prior, fits

KEPT = 16        # numberings that are handed on
CARRIED = 96     # numberings that are numbered again
AGAIN = 2        # times
REACH = 6.0      # how far from the profile's pitch the grid goes, in its standard uncertainties
FURTHEST = 12.0  # how far a fit may come to lie
SHARE = 0.25     # of the profile's pitch: neither ever goes further
STEPS = 8        # of the grid in a pitch
MOST = 400_000   # edges numbered at one time: what bounds the memory


Numbering = tuple[Floats, Fit]


def numberings(edges: Edges, prior: Prior, near: list[Numbering] | None = None) -> list[Numbering]:
    """The best numberings of edges with their fits, best first; the first edge belongs to flat 0. Never empty.

    near: numberings of much the same edges; given, only what comes of them is looked at, which is far quicker.
    """
    middle = float(np.mean(edges.at))
    centred = edges._replace(at=edges.at - middle)
    if near is None:
        starts = _grid(float(np.max(np.abs(centred.at))), prior)
    else:
        starts = np.array([one.x for _, one in near]) - middle * np.eye(4)[PHASE]
    size = max(1, MOST // len(edges.at))
    # all edges on one flat is a numbering too, at the profile's own pitch
    number = np.zeros((1, len(edges.at)))
    for begin in range(0, len(starts), size):
        number, x = _best(np.vstack([number, _nearest(centred, starts[begin:begin + size])]), centred, prior)
    for _ in range(AGAIN):
        number, x = _best(np.vstack([number, _nearest(centred, x)]), centred, prior)
    return sorted(zip(number, fits(edges, number[:KEPT], prior), strict=False), key=lambda one: one[1].chi)


def _reach(prior: Prior, times: float) -> float:
    return min(times * prior.u_pitch, SHARE * prior.pitch)


def _grid(half: float, prior: Prior) -> Floats:
    """Estimates (count × 4) to start from; between two pitches the edges `half` away move by two steps."""
    reach, flats = _reach(prior, REACH), max(1.0, half / prior.pitch)
    count = 2 * int(np.ceil(reach * flats * STEPS / (2 * prior.pitch))) + 1
    x = np.zeros((count * STEPS, 4))
    x[:, PITCH] = np.repeat(prior.pitch + np.linspace(-reach, reach, count), STEPS)
    x[:, PHASE] = np.tile(np.arange(STEPS) / STEPS, count) * x[:, PITCH]
    x[:, OUTER] = prior.outer
    return x


def _nearest(edges: Edges, x: Floats) -> Floats:
    """The flats (count × edges) whose edges are nearest under each estimate."""
    return np.rint((edges.at - x[:, [PHASE]] - x[:, [OUTER]] * edges.end - x[:, [PLUMB]] * edges.lift) / x[:, [PITCH]])


def _best(number: Floats, edges: Edges, prior: Prior) -> tuple[Floats, Floats]:
    """The best of these numberings and their estimates, best first; those a whole shift apart are one, each once."""
    number = number - number[:, :1]
    weights = np.random.default_rng(0).random(number.shape[1])
    number = number[np.unique(number @ weights, return_index=True)[1]]
    x, chi = _solved(edges, number, prior)
    order = np.argsort(chi, kind="stable")
    order = order[np.abs(x[order, PITCH] - prior.pitch) <= _reach(prior, FURTHEST)][:CARRIED]
    return number[order], x[order]


def _solved(edges: Edges, number: Floats, prior: Prior) -> tuple[Floats, Floats]:
    """Estimates (count × 4) and chi-square (count) of numberings (count × edges), by the normal equations."""
    weight = edges.u ** -2
    others = np.vstack([np.ones_like(edges.end), edges.end, edges.lift])
    sums = (others * weight) @ others.T
    across = number @ (others * weight).T
    matrix = np.empty((len(number), 4, 4))
    places = [PHASE, OUTER, PLUMB]
    matrix[:, np.array(places)[:, None], places] = sums
    matrix[:, PITCH, places] = matrix[:, places, PITCH] = across
    matrix[:, PITCH, PITCH] = number ** 2 @ weight
    matrix[:, [PITCH, OUTER, PLUMB], [PITCH, OUTER, PLUMB]] += prior.u ** -2
    right = np.empty((len(number), 4))
    right[:, places] = (others * weight) @ edges.at
    right[:, PITCH] = number @ (weight * edges.at)
    right[:, 1:] += prior.value * prior.u ** -2
    x = np.asarray(np.linalg.solve(matrix, right[..., None])[..., 0], dtype=np.float64)
    left = edges.at - x[:, [PHASE]] - x[:, [PITCH]] * number - x[:, [OUTER]] * edges.end - x[:, [PLUMB]] * edges.lift
    chi: Floats = left ** 2 @ weight + np.sum(((x[:, 1:] - prior.value) / prior.u) ** 2, axis=1)
    return x, chi
