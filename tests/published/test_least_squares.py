"""The update of the linear engine as plain least squares, against published data sets and their certified results."""

from math import sqrt

import numpy as np
import pytest

from fieldapp.trade.estimate.linear_update import State

# JCGM 100:2008 H.3, table H.6: thermometer readings and corrections, °C. Seen at gtc.readthedocs.io, GUM H3 (a copy).
THERMOMETER = (
    (21.521, -0.171), (22.012, -0.169), (22.512, -0.166), (23.003, -0.159), (23.507, -0.164), (23.999, -0.165),
    (24.513, -0.156), (25.002, -0.157), (25.503, -0.159), (26.010, -0.161), (26.511, -0.160),
)  # fmt: skip
# NIST Statistical Reference Datasets, linear regression, Norris: x, y. From memory; the certified values were seen in
# copies of the file in public repositories, and a wrong digit in the data would miss them.
NORRIS = (
    (0.2, 0.1), (337.4, 338.8), (118.2, 118.1), (884.6, 888.0), (10.1, 9.2), (226.5, 228.1), (666.3, 668.5),
    (996.3, 998.5), (448.6, 449.1), (777.0, 778.9), (558.2, 559.2), (0.4, 0.3), (0.6, 0.1), (775.5, 778.1),
    (666.9, 668.8), (338.0, 339.3), (447.5, 448.9), (11.6, 10.8), (556.0, 557.7), (228.1, 228.3), (995.8, 998.0),
    (887.6, 888.8), (120.2, 119.6), (0.3, 0.3), (0.3, 0.6), (556.8, 557.6), (339.1, 339.3), (887.2, 888.0),
    (999.0, 998.5), (779.0, 778.9), (11.1, 10.2), (118.3, 117.6), (229.2, 228.9), (669.1, 668.4), (448.9, 449.2),
    (0.5, 0.2),
)  # fmt: skip


def line(points, u, prior):
    """Intercept and slope with their covariance: every point read with standard uncertainty u."""
    state = State(np.zeros(2), np.diag([prior**2, prior**2]))
    for x, y in points:
        state.read([(0, 1.0), (1, x)], y, u * u)
    return state.x, state.p


def scatter(points, found):
    """Standard deviation of the residuals with two parameters fitted."""
    return sqrt(sum((y - found[0] - found[1] * x) ** 2 for x, y in points) / (len(points) - 2))


def test_jcgm_100_h3_calibration_of_a_thermometer():
    points = [(t - 20, b) for t, b in THERMOMETER]
    found, p = line(points, 0.0035, 100.0)
    assert scatter(points, found) == pytest.approx(0.0035, abs=5e-5)
    assert found[0] == pytest.approx(-0.1712, abs=5e-5)
    assert found[1] == pytest.approx(0.00218, abs=5e-6)
    assert sqrt(p[0, 0]) == pytest.approx(0.0029, abs=5e-5)
    assert sqrt(p[1, 1]) == pytest.approx(0.00067, abs=5e-6)
    assert p[0, 1] / sqrt(p[0, 0] * p[1, 1]) == pytest.approx(-0.930, abs=5e-4)
    # the correction at 30 °C and its uncertainty, H.3.4
    at_30 = found[0] + found[1] * 10
    assert at_30 == pytest.approx(-0.1494, abs=5e-5)
    assert sqrt(p[0, 0] + 100 * p[1, 1] + 20 * p[0, 1]) == pytest.approx(0.0041, abs=5e-5)


def test_nist_norris():
    found, p = line(NORRIS, 0.884796396144373, 3000.0)
    assert found[0] == pytest.approx(-0.262323073774029, rel=1e-6)
    assert found[1] == pytest.approx(1.00211681802045, rel=1e-9)
    assert scatter(NORRIS, found) == pytest.approx(0.884796396144373, rel=1e-9)
    assert sqrt(p[0, 0]) == pytest.approx(0.232818234301152, rel=1e-6)
    assert sqrt(p[1, 1]) == pytest.approx(0.429796848199937e-3, rel=1e-6)
