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
        away, doubt, n = self.all_off(Edges(*(np.array([part], dtype=np.float64) for part in (at, u, end, lift))))
        return float(away[0]), float(doubt[0]), int(n[0])

    def all_off(self, edges: Edges) -> tuple[Floats, Floats, Floats]:
        """The same of several edges at once, as arrays."""
        zero = self.x[PHASE] + self.x[OUTER] * edges.end + self.x[PLUMB] * edges.lift
        n = np.rint((edges.at - zero) / self.x[PITCH])
        row = np.column_stack([np.ones_like(n), n, edges.end, edges.lift])
        doubt = np.sqrt(np.sum(row @ self.covariance * row, axis=1))
        return edges.at - row @ self.x, np.hypot(doubt, edges.u), n


def fit(edges: Edges, number: Floats, prior: Prior) -> Fit:
    """The estimate when each edge belongs to the flat of this number (whole numbers, one an edge)."""
    return fits(edges, number[None], prior)[0]


def fits(edges: Edges, number: Floats, prior: Prior) -> list[Fit]:
    """The estimates of several numberings (count × edges), worked out together."""
    origin, count = edges.at[0], len(edges.at)
    ones = np.ones_like(number)
    rows = np.stack([ones, number, edges.end * ones, edges.lift * ones], axis=-1) / edges.u[:, None]
    known = np.column_stack([np.zeros(3), np.eye(3)]) / prior.u[:, None]
    rows = np.concatenate([rows, np.broadcast_to(known, (len(number), 3, 4))], axis=1)
    seen = np.concatenate([(edges.at - origin) / edges.u, prior.value / prior.u])
    q, r = np.linalg.qr(rows)
    x = np.linalg.solve(r, (seen @ q)[..., None])
    left = seen - (rows @ x)[..., 0]
    back = np.linalg.inv(r)
    x = x[..., 0] + origin * np.eye(4)[PHASE]
    covariance, leverage = back @ np.swapaxes(back, 1, 2), np.sum(q[:, :count] ** 2, axis=2)
    return [Fit(x[i], covariance[i], float(left[i] @ left[i]), left[i, :count] * edges.u, leverage[i])
            for i in range(len(number))]
