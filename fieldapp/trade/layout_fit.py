"""Weighted least squares of a corrugation: where its outer flats run, from the edges that were read.

Outer flat n runs at the sill from phase + n * pitch to phase + n * pitch + outer; an edge higher up stands
plumb * lift further right, lift its height over the opening's. The profile's pitch and outer flat, and plumb 0,
are observations like the edges. Uncertainties come from the stated ones, not from the residuals (JCGM 100, from
memory). Lengths mm.
"""

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
PHASE, PITCH, OUTER, PLUMB = range(4)


class Edges(NamedTuple):
    """Edges as arrays of one length: at and u (mm), end (0 a flat's start, 1 its end), lift (height over height)."""

    at: Floats
    u: Floats
    end: Floats
    lift: Floats

    def some(self, kept: list[int]) -> "Edges":
        """The edges at these positions."""
        return Edges(self.at[kept], self.u[kept], self.end[kept], self.lift[kept])


class Prior(NamedTuple):
    """What is known before: pitch, outer flat and plumb with their standard uncertainties, mm."""

    pitch: float
    outer: float
    u_pitch: float
    u_outer: float
    u_plumb: float

    @property
    def value(self) -> Floats:
        """Pitch, outer, plumb."""
        return np.array([self.pitch, self.outer, 0.0])

    @property
    def u(self) -> Floats:
        """Their standard uncertainties."""
        return np.array([self.u_pitch, self.u_outer, self.u_plumb])


class Fit(NamedTuple):
    """The estimate x (phase, pitch, outer, plumb; mm), its covariance, chi-square, and of each edge what it leaves
    (residual, mm) and how much of the estimate is its own (leverage, 0 to 1).
    """

    x: Floats
    covariance: Floats
    chi: float
    left: Floats
    leverage: Floats

    def of(self, row: Floats) -> tuple[float, float]:
        """Value and standard uncertainty of a linear combination of the unknowns, mm."""
        return float(row @ self.x), float(np.sqrt(row @ self.covariance @ row))

    def edge(self, n: int, end: float, lift: float = 0.0) -> tuple[float, float]:
        """Where an edge of flat n stands, and how surely, mm."""
        return self.of(np.array([1.0, n, end, lift]))

    def off(self, at: float, u: float, end: float, lift: float) -> tuple[float, float, int]:
        """(at less the nearest edge of its kind, its standard uncertainty with the edge's own u, that flat); mm."""
        n = round((at - self.edge(0, end, lift)[0]) / float(self.x[PITCH]))
        where, doubt = self.edge(n, end, lift)
        return at - where, float(np.hypot(doubt, u)), n


def fit(edges: Edges, number: Floats, prior: Prior) -> Fit:
    """The estimate when each edge belongs to the flat of this number (whole numbers, one an edge)."""
    origin = edges.at[0]
    rows = np.column_stack([np.ones_like(number), number, edges.end, edges.lift]) / edges.u[:, None]
    known = np.column_stack([np.zeros(3), np.eye(3)]) / prior.u[:, None]
    seen = np.concatenate([(edges.at - origin) / edges.u, prior.value / prior.u])
    q, r = np.linalg.qr(np.vstack([rows, known]))
    x = np.linalg.solve(r, q.T @ seen)
    back = np.linalg.inv(r)
    left = seen - np.vstack([rows, known]) @ x
    x[PHASE] += origin
    count = len(number)
    return Fit(x, back @ back.T, float(left @ left), left[:count] * edges.u, np.sum(q[:count] ** 2, axis=1))
