"""The chance that several quantities lie inside together. Twin: static/phone/estimate_joint.js.

One quantity after another: its chance, then the others' mean and covariance given that it is inside, taken
as normal again (the method of Mendell and Elston 1974 for truncated normals, from memory; within about 0.01
of sampling for the frame's four, tests/trade/test_estimate_joint.py).
"""

from math import erfc, exp, pi, sqrt

_DENSITY = 1.0 / sqrt(2.0 * pi)
_ROOT_HALF = sqrt(0.5)
_TINY = 1e-12


def joint(mean: list[float], covariance: list[list[float]], tolerance: list[float]) -> tuple[float, list[float]]:
    """(chance that all |quantity| ≤ tolerance, each quantity's own chance); one unit, covariance its square."""
    size = len(mean)
    own = [_inside(mean[i], _root(covariance[i][i]), tolerance[i])[0] for i in range(size)]
    m, c = list(mean), [list(row) for row in covariance]
    chance = 1.0
    for i in range(size):
        u = _root(c[i][i])
        inside, low, high = _inside(m[i], u, tolerance[i])
        chance *= inside
        if inside < _TINY:
            return 0.0, own
        if i + 1 < size:
            _given_inside(m, c, i, inside, low, high, u)
    return chance, own


def _root(variance: float) -> float:
    return sqrt(variance) if variance > _TINY else sqrt(_TINY)


def _inside(mean: float, u: float, tolerance: float) -> tuple[float, float, float]:
    """(chance, lower limit, upper limit), the limits in standard deviations from the mean."""
    low, high = (-tolerance - mean) / u, (tolerance - mean) / u
    return max(0.0, 0.5 * erfc(-high * _ROOT_HALF) - 0.5 * erfc(-low * _ROOT_HALF)), low, high


def _given_inside(
    m: list[float], c: list[list[float]], i: int, inside: float, low: float, high: float, u: float
) -> None:
    """Mean and covariance of those after i, given that i lies inside its limits."""
    at_low, at_high = _DENSITY * exp(-0.5 * low * low), _DENSITY * exp(-0.5 * high * high)
    shift = (at_low - at_high) / inside
    lost = shift * shift - (low * at_low - high * at_high) / inside
    for j in range(i + 1, len(m)):
        pull = c[j][i] / u
        m[j] += pull * shift
        for k in range(i + 1, len(m)):
            c[j][k] -= pull * (c[k][i] / u) * lost
