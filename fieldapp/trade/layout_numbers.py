"""Which flat each edge belongs to: the numberings that fit best.

For a pitch and a phase each edge belongs to the nearest flat; between two fits that number alike least squares
finds the best. So a grid of pitches and phases, fine enough that no edge jumps a flat unseen, is numbered, fitted
and numbered again until nothing changes, all at once.
"""

import numpy as np

from fieldapp.trade.layout_fit import OUTER, PHASE, PITCH, PLUMB, Edges, Fit, Floats, Prior, fit

KEPT = 16       # numberings that are handed on
CARRIED = 96    # numberings that are numbered anew
ROUNDS = 3      # of numbering anew
REACH = 12.0    # how far from the profile's pitch is looked, in its standard uncertainties
PHASES = 8      # of the grid in one pitch
MOST = 400_000  # edges numbered at one time: what bounds the memory
LEAST_PITCH = 0.5  # of the profile's pitch: a fit below it is none


def numberings(edges: Edges, prior: Prior) -> list[tuple[Floats, Fit]]:
    """The best numberings of edges with their fits, best first; the first edge belongs to flat 0.

    Never empty: all edges on one flat is a numbering too, however badly it fits.
    """
    middle = float(np.mean(edges.at))
    centred = edges._replace(at=edges.at - middle)
    starts = _grid(float(np.max(np.abs(centred.at))), prior)
    size = max(1, MOST // len(edges.at))
    found = [_numbered(centred, starts[begin:begin + size], prior) for begin in range(0, len(starts), size)]
    best, _ = _best(np.vstack([np.zeros((1, len(edges.at))), *found]), centred, prior)
    return sorted(((number, fit(edges, number, prior)) for number in best[:KEPT]), key=lambda one: one[1].chi)


def _grid(half: float, prior: Prior) -> Floats:
    """Starting estimates (count × 4): at the ends of the edges two neighbours differ by a quarter of a pitch."""
    reach = min(REACH * prior.u_pitch, prior.pitch / 4)
    step = prior.pitch / 4 / max(1.0, half / prior.pitch)
    pitches = prior.pitch + np.linspace(-reach, reach, 2 * int(np.ceil(reach / step)) + 1)
    phases = np.arange(PHASES) / PHASES
    x = np.empty((len(pitches), PHASES, 4))
    x[..., PHASE] = pitches[:, None] * phases
    x[..., PITCH] = pitches[:, None]
    x[..., OUTER], x[..., PLUMB] = prior.outer, 0.0
    return x.reshape(-1, 4)


def _numbered(edges: Edges, x: Floats, prior: Prior) -> Floats:
    """The best numberings (count × edges) that the starting estimates come to, best first, each once."""
    number = np.empty((0, len(edges.at)))
    for _ in range(ROUNDS):
        nearest = np.rint((edges.at - x[:, [PHASE]] - x[:, [OUTER]] * edges.end - x[:, [PLUMB]] * edges.lift)
                          / x[:, [PITCH]])
        number, x = _best(np.vstack([number, nearest]), edges, prior)
    return number


def _once(number: Floats) -> Floats:
    """Each numbering once; those that differ by a whole shift are one, with the first edge on flat 0."""
    number = number - number[:, :1]
    weights = np.random.default_rng(0).random(number.shape[1])
    return number[np.unique(number @ weights, return_index=True)[1]]


def _best(number: Floats, edges: Edges, prior: Prior) -> tuple[Floats, Floats]:
    """The best of these numberings and their estimates, best first, each once; of a pitch that can be one."""
    number = _once(number)
    x, chi = _solved(edges, number, prior)
    order = np.argsort(np.where(x[:, PITCH] > LEAST_PITCH * prior.pitch, chi, np.inf), kind="stable")[:CARRIED]
    order = order[x[order, PITCH] > LEAST_PITCH * prior.pitch]
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
