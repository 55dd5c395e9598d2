"""Estimate and covariance of the unknowns, reading by reading. Twin: static/phone/estimate_update.js.

Weighted least squares with a prior, taken one reading at a time; the covariance is updated in the Joseph
form and kept symmetric (Bucy and Joseph 1968, from memory). Every sum runs in the twin's order, element by
element, so that both languages give the same bits.
"""

import numpy as np
from numpy.typing import NDArray

from fieldapp.trade.estimate.linear_table import Move, Reading, Sparse, Table

Array = NDArray[np.float64]


class State:
    """Estimate `x` (n) and covariance `p` (n × n) of a table's unknowns, in the sheet's units."""

    __slots__ = ("p", "x")

    def __init__(self, x: Array, p: Array) -> None:
        self.x, self.p = x, p

    def copy(self) -> "State":
        """A state that may be carried on by itself."""
        return State(self.x.copy(), self.p.copy())

    def across(self, row: Sparse) -> Array:
        """Covariance of every unknown with a row (n)."""
        first, factor = row[0]
        result: Array = self.p[first] * factor
        for at, factor in row[1:]:
            result += self.p[at] * factor
        return result

    def value(self, row: Sparse) -> float:
        """Estimate of a row."""
        return along(row, self.x)

    def variance(self, row: Sparse) -> float:
        """Variance of a row, not below 0."""
        return max(0.0, along(row, self.across(row)))

    def read(self, row: Sparse, value: float, variance: float) -> None:
        """Take a reading: row·x = value with this variance of its own."""
        across = self.across(row)
        gain = across / (along(row, across) + variance)
        column = gain[:, None]
        less = self.p - column * across
        first, factor = row[0]
        left = less[:, first] * factor
        for at, factor in row[1:]:
            left += less[:, at] * factor
        joseph = less - left[:, None] * gain + (gain * variance)[:, None] * gain
        self.p = (joseph + joseph.T) * 0.5
        self.x = self.x + gain * (value - along(row, self.x))

    def move(self, move: Move) -> None:
        """A correction made: the unknowns move by its column, and the hand's doubt is added."""
        for at, factor in move.column:
            self.x[at] += factor * move.by
        for at, factor in move.column:
            for other, times in move.column:
                self.p[at, other] += factor * move.variance * times


def along(row: Sparse, values: Array) -> float:
    """Row times a vector, summed in the row's order."""
    result = 0.0
    for at, factor in row:
        result += factor * float(values[at])
    return result


def prior(table: Table) -> State:
    """The state before any reading."""
    sd = np.array(table.sd)
    return State(np.array(table.mean), np.diag(sd * sd))


def now(table: Table, aside: set[Reading] | frozenset[Reading] = frozenset()) -> State:
    """The state after every round's readings (but those set aside) and what was done after each."""
    state = prior(table)
    for readings, done in zip(table.rounds, table.done, strict=True):
        for one in readings:
            if not aside or one not in aside:
                state.read(one.row, one.value, one.variance)
        for move in done:
            state.move(move)
    return state
