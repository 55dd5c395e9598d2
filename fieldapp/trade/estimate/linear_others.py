"""What the other readings say of each one: the covariance of all readings, inverted. Twin:
static/phone/estimate_others.js.

With S the covariance of the readings (prior, hand and own errors) and z what they are off from the prior,
reading i is off from what the others say by w_i/B_ii, with standard deviation 1/√B_ii, where B = S⁻¹ and w =
B z: every leave-one-out deviation from one inversion (the largest is the test of data snooping, Baarda 1968,
from memory).
"""

import numpy as np
from numpy.typing import NDArray

from fieldapp.trade.estimate.linear_table import Reading, Table, dot, total

Array = NDArray[np.float64]
Places = NDArray[np.intp]


class Others:
    """Inverse covariance `b` (m × m) and weighted misclosure `w` (m) of all readings but those set aside."""

    def __init__(self, table: Table) -> None:
        self.readings: list[Reading] = [one for readings in table.rounds for one in readings]
        self._rows, self._spread, self._misclosure = _extended(table, self.readings)
        self._tools = table.tools
        self.aside: set[int] = set()
        self.b = _inverse(_covariance(self._rows, self._spread, self.readings))
        self.w = _times(self.b, self._misclosure)
        self._taken = np.empty_like(self.b)  # room for one product, so that 500 of them need no more

    def off(self, at: int) -> float:
        """Reading less what the others say, mm."""
        return float(self.w[at]) / float(self.b[at, at])

    def doubt(self, at: int) -> float:
        """Standard deviation of `off`, mm."""
        return float(1.0 / np.sqrt(self.b[at, at]))

    def deviation(self, at: int) -> float:
        """The size of `off` in its standard deviations."""
        return abs(float(self.w[at])) / float(np.sqrt(self.b[at, at]))

    def deviations(self) -> Array:
        """`deviation` of every reading, 0 of those set aside (m)."""
        own = self.b.diagonal()
        made: Array = np.zeros(len(own))
        np.divide(np.abs(self.w), np.sqrt(own), out=made, where=own > 0)
        return made

    def doubts(self) -> Array:
        """`doubt` of every reading, 1 of those set aside (m)."""
        own = self.b.diagonal()
        made: Array = np.ones(len(own))
        np.divide(1.0, np.sqrt(own), out=made, where=own > 0)
        return made

    def gain(self, at: int, shift: float) -> float:
        """How much chi-square falls when the reading is taken to be off by `shift` mm."""
        return shift * (2.0 * float(self.w[at]) - shift * float(self.b[at, at]))

    def gain_both(self, one: int, other: int, shift: float) -> float:
        """The same when one is off by `shift` and the other by −shift."""
        b = self.b
        pull = 2.0 * (float(self.w[one]) - float(self.w[other]))
        return shift * (pull - shift * (float(b[one, one]) - 2.0 * float(b[one, other]) + float(b[other, other])))

    def gains_both(self, ones: Places, others: Places, shifts: Array) -> Array:
        """`gain_both` of many pairs at once."""
        own, w = self.b.diagonal(), self.w
        between: Array = own[ones] - 2.0 * self.b[ones, others] + own[others]
        gains: Array = shifts * (2.0 * (w[ones] - w[others]) - shifts * between)
        return gains

    def set_aside(self, at: int) -> None:
        """Leave a reading out of everything from here on."""
        pivot = 1.0 / float(self.b[at, at])
        column = self.b[:, at].copy()
        self.w = self.w - column * (pivot * float(self.w[at]))
        np.multiply((column * pivot)[:, None], column, out=self._taken)
        np.subtract(self.b, self._taken, out=self.b)
        self.b[at, :] = 0.0
        self.b[:, at] = 0.0
        self.w[at] = 0.0
        self.aside.add(at)

    def against(self, ats: list[int]) -> list[float]:
        """What each of these set aside says less what those say that are not, mm; errors of tools are not told
        by others.
        """
        weights = _times(self.b, self._misclosure)
        made = []
        for at in ats:
            across = np.zeros(len(self.readings))
            for k, factor in enumerate(self._rows[at]):
                if factor and k not in self._tools and self._spread[k] > 0:
                    across += self._rows[:, k] * (float(factor) * self._spread[k])
            made.append(float(self._misclosure[at]) - total((across * weights).tolist()))
        return made


def _extended(table: Table, readings: list[Reading]) -> tuple[Array, list[float], Array]:
    """Rows over unknowns and hand errors, (m, n + moves); their variances; what each reading is off from the
    prior.
    """
    mean = list(table.mean)
    moves = [(at, move) for at, done in enumerate(table.done[:-1]) for move in done]
    rows = np.zeros((len(readings), len(mean) + len(moves)))
    misclosure = np.zeros(len(readings))
    columns = {move.do: move.column for _, move in moves}
    for i, one in enumerate(readings):
        for at, factor in one.row:
            rows[i, at] = factor
        expected = dot(one.row, mean)
        overlaps = {do: _overlap(one, column) for do, column in columns.items()}
        for j, (at, move) in enumerate(moves):
            if at >= one.round:
                break
            factor = overlaps[move.do]
            if factor:
                rows[i, len(mean) + j] = factor
                expected += factor * move.by
        misclosure[i] = one.value - expected
    return rows, [sd * sd for sd in table.sd] + [move.variance for _, move in moves], misclosure


def _overlap(one: Reading, column: list[tuple[int, float]]) -> float:
    """What a reading changes by for each millimetre of a correction."""
    factors = dict(one.row)
    result = 0.0
    for at, factor in column:
        result += factors.get(at, 0.0) * factor
    return result


def _covariance(rows: Array, spread: list[float], readings: list[Reading]) -> Array:
    """Covariance of the readings, mm²."""
    size = len(readings)
    result = np.zeros((size, size))
    for k, variance in enumerate(spread):
        touched = np.flatnonzero(rows[:, k])
        if variance > 0 and len(touched):
            # A move is felt by the readings after it only: the block between the first touched and the last.
            block = slice(int(touched[0]), int(touched[-1]) + 1)
            column = rows[block, k].copy()
            result[block, block] += (column * variance)[:, None] * column
    for i, one in enumerate(readings):
        result[i, i] += one.variance
    return result


def _inverse(matrix: Array) -> Array:
    """Inverse of a symmetric positive matrix by sweeping each row in turn (Gauss and Jordan)."""
    a = matrix.copy()
    taken = np.empty_like(a)
    for k in range(len(a)):
        pivot = 1.0 / float(a[k, k])
        column = a[:, k].copy()
        scaled = column * pivot
        np.multiply(scaled[:, None], column, out=taken)
        np.subtract(a, taken, out=a)
        a[k, :] = scaled
        a[:, k] = scaled
        a[k, k] = -pivot
    return -a


def _times(matrix: Array, vector: Array) -> Array:
    """Matrix times vector, summed column by column."""
    result = np.zeros(len(vector))
    for k, value in enumerate(vector):
        result += matrix[:, k] * float(value)
    return result
