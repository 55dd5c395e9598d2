"""The linear engine against published sets: collinear regression, a levelling network's largest residual, and what
follows from correlated results.
"""

from math import cos, sin, sqrt

import numpy as np
import pytest
from scipy.stats import gamma, multivariate_normal, norm

from fieldapp.trade.estimate.chance import chance_inside
from fieldapp.trade.estimate.linear_others import Others
from fieldapp.trade.estimate.linear_suspects import suspects
from fieldapp.trade.estimate.linear_table import make
from fieldapp.trade.estimate.linear_update import State, now

# NIST Statistical Reference Datasets, linear regression, Longley ("higher level of difficulty"): y, x1 … x6, with
# certified estimates and standard deviations. Seen in copies of Longley.dat in public repositories.
LONGLEY = (
    (60323, 83.0, 234289, 2356, 1590, 107608, 1947), (61122, 88.5, 259426, 2325, 1456, 108632, 1948),
    (60171, 88.2, 258054, 3682, 1616, 109773, 1949), (61187, 89.5, 284599, 3351, 1650, 110929, 1950),
    (63221, 96.2, 328975, 2099, 3099, 112075, 1951), (63639, 98.1, 346999, 1932, 3594, 113270, 1952),
    (64989, 99.0, 365385, 1870, 3547, 115094, 1953), (63761, 100.0, 363112, 3578, 3350, 116219, 1954),
    (66019, 101.2, 397469, 2904, 3048, 117388, 1955), (67857, 104.6, 419180, 2822, 2857, 118734, 1956),
    (68169, 108.4, 442769, 2936, 2798, 120445, 1957), (66513, 110.8, 444546, 4681, 2637, 121950, 1958),
    (68655, 112.6, 482704, 3813, 2552, 123366, 1959), (69564, 114.2, 502601, 3931, 2514, 125368, 1960),
    (69331, 115.7, 518173, 4806, 2572, 127852, 1961), (70551, 116.9, 554894, 4007, 2827, 130081, 1962),
)  # fmt: skip
LONGLEY_CERTIFIED = (
    (-3482258.63459582, 890420.383607373), (15.0618722713733, 84.9149257747669),
    (-0.358191792925910e-01, 0.334910077722432e-01), (-2.02022980381683, 0.488399681651699),
    (-1.03322686717359, 0.214274163161675), (-0.511041056535807e-01, 0.226073200069370),
    (1829.15146461355, 455.478499142212),
)  # fmt: skip
LONGLEY_RESIDUAL = 304.854073561965

# "Sample 1D vertical least square adjustment": levels run forward and back over four legs, point 1a at 1000 m, m0 a
# priori 5 mm. Observations, adjusted heights with their deviations and the largest normalized residual (#6) as seen at
# vrmapper.com/gama/1doutput.html.
LEGS = (
    ("1a", "4", -1.22500), ("4", "3", -0.84800), ("3", "2", 1.34200), ("2", "1a", 0.72000),
    ("1a", "2", -0.72400), ("2", "3", -1.33500), ("3", "4", 0.84200), ("4", "1a", 1.23100),
)  # fmt: skip
HEIGHTS = {"4": (998.77513, 3.1), "3": (997.93325, 3.5), "2": (999.27487, 3.1)}

# JCGM 100:2008 H.2, table H.2: voltage V, current mA, phase angle rad, five simultaneous readings (seen in a public
# repository's copy of the table). Table H.4's R, X, Z in ohm and u as worked out again from it by two others: the
# notebook "Uncertainty - Resistance GUM.H2" of github.com/sandialabs/suncal (R 127.7322, u 0.0711; X 219.847, u 0.296;
# Z 254.260, u 0.236) and docs/API/GUM_H2.rst of github.com/MSLNZ/GTC (correlations of R X, R Z, X Z: -0.59, -0.49 and
# +0.99). The third digit of the correlations and of u(X) is from memory.
SIMULTANEOUS = (
    (5.007, 19.663, 1.0456), (4.994, 19.639, 1.0438), (5.005, 19.640, 1.0468), (4.990, 19.685, 1.0428),
    (4.999, 19.678, 1.0433),
)  # fmt: skip


def test_nist_longley():
    # the engine starts from a prior: made so wide here that it counts for nothing, in units of the certified spread
    data = np.array(LONGLEY)
    middle, scale = data[:, 1:].mean(axis=0), data[:, 1:].std(axis=0)
    state = State(np.zeros(7), np.eye(7) * 1e14)
    for y, *x in LONGLEY:
        state.read([(0, 1.0), *enumerate((np.array(x) - middle) / scale, 1)], y, LONGLEY_RESIDUAL**2)
    slopes, p = state.x[1:] / scale, state.p[1:, 1:] / np.outer(scale, scale)
    found = [state.x[0] - slopes @ middle, *slopes]
    spread = [sqrt(state.p[0, 0] + middle @ p @ middle), *np.sqrt(np.diag(p))]
    for estimate, u, (certified, deviation) in zip(found, spread, LONGLEY_CERTIFIED, strict=True):
        assert estimate == pytest.approx(certified, rel=1e-5)
        assert u == pytest.approx(deviation, rel=1e-5)
    residuals = data[:, 0] - found[0] - data[:, 1:] @ slopes
    assert sqrt(residuals @ residuals / 9) == pytest.approx(LONGLEY_RESIDUAL, rel=1e-8)


def network():
    """The levelling network as a sheet: unknown heights of three points above 1000 m, in mm, all but unknown."""
    kinds = {}
    for at, (start, end, _) in enumerate(LEGS):
        row = {point: sign for point, sign in ((start, -1.0), (end, 1.0)) if point != "1a"}
        kinds[f"leg {at}"] = {"row": row, "constant": 0.0, "u": 5.0}
    sheet = {
        "unknowns": [{"name": point, "mean": 0.0, "sd": 1e5} for point in HEIGHTS],
        "tools": {},
        "tilt": {"names": [], "u": 0.0},
        "kinds": list(kinds),
        "readings": kinds,
        "judged": [],
        "built": [],
        "corrections": [],
        "next": {"can_read": [], "turned": []},
        "suspects": {"from": 3.6, "more": 0.25, "of": 14, "causes": [], "unknown": {"weight": 0.25, "over": 400.0,
                     "likely": "read it again"}},
    }  # fmt: skip
    return sheet, [{"of": f"leg {at}", "value": 1000 * leg} for at, (_, _, leg) in enumerate(LEGS)]


def test_a_levelling_network_s_heights_and_largest_normalized_residual():
    sheet, readings = network()
    table = make(sheet, {"rounds": [{"readings": readings}]})
    state, others = now(table), Others(table)
    for point, (height, deviation) in HEIGHTS.items():
        at = table.index[point]
        assert 1000 + state.x[at] / 1000 == pytest.approx(height, abs=5.1e-6)
        assert sqrt(state.p[at, at]) == pytest.approx(deviation, abs=0.05)
    # a leave-one-out deviation is the normalized residual (Baarda 1968): the same number by another way
    deviations = [others.deviation(at) for at in range(len(LEGS))]
    assert max(deviations) == pytest.approx(1.68, abs=0.005)
    assert others.readings[int(np.argmax(deviations))].position == 5  # observation #6
    assert suspects(table) == []


def test_a_leg_misread_in_that_network_is_set_aside_alone():
    sheet, readings = network()
    readings[2]["value"] += 60.0
    (found,) = suspects(make(sheet, {"rounds": [{"readings": readings}]}))
    assert found.reading.position == 2
    # what the seven others say of it: plain least squares by another library
    points, others = list(HEIGHTS), [leg for at, leg in enumerate(LEGS) if at != 2]
    rows = [[(end == point) - (start == point) for point in points] for start, end, _ in others]
    heights = dict(zip(points, np.linalg.lstsq(rows, [1000 * leg for *_, leg in others], rcond=None)[0], strict=True))
    assert found.off_by == pytest.approx(readings[2]["value"] - (heights["2"] - heights["3"]), abs=1e-3)


def test_jcgm_100_h2_resistance_and_reactance_at_the_same_time():
    data = np.array(SIMULTANEOUS) * (1.0, 1e-3, 1.0)
    volt, ampere, angle = data.mean(axis=0)
    state = State(data.mean(axis=0), np.cov(data.T) / len(data))
    z, c, s = volt / ampere, cos(angle), sin(angle)
    rows = {  # what R, X and Z change by for a volt, an ampere, a radian
        "R": [(0, c / ampere), (1, -z * c / ampere), (2, -z * s)],
        "X": [(0, s / ampere), (1, -z * s / ampere), (2, z * c)],
        "Z": [(0, 1 / ampere), (1, -z / ampere)],
    }
    u = {name: sqrt(state.variance(row)) for name, row in rows.items()}
    assert (z * c, z * s, z) == pytest.approx((127.732, 219.847, 254.260), abs=6e-4)
    assert (u["R"], u["X"], u["Z"]) == pytest.approx((0.071, 0.295, 0.236), abs=6e-4)
    for one, other, r in (("R", "X", -0.588), ("R", "Z", -0.485), ("X", "Z", 0.993)):
        across = state.across(rows[one])
        shared = sum(factor * across[at] for at, factor in rows[other])
        assert shared / (u[one] * u[other]) == pytest.approx(r, abs=6e-4)


def after_reading(value):
    """Estimate and u of something that was known as 0 ± 0.12 mm before it was read with 0.04 mm."""
    state = State(np.array([0.0]), np.array([[0.12**2]]))
    state.read([(0, 1.0)], value, 0.04**2)
    return state.x[0], sqrt(state.p[0, 0])


def test_the_specific_risk_adds_up_to_the_global_one():
    # JCGM 106:2012 9.3.2: the specific consumer's risk of an accepted item is 1 − p_c after its reading; over all
    # readings that are accepted it adds up to the global one, the chance of "accepted and not conforming". Own
    # figures, held against scipy's normal and bivariate normal distributions.
    low, high, prior, own = -0.2, 0.2, 0.12, 0.04
    spread = sqrt(prior**2 + own**2)
    for reading in (-0.3, 0.0, 0.15, 0.2, 0.3):
        estimate, u = after_reading(reading)
        there = norm(reading * prior**2 / spread**2, prior * own / spread)
        assert (estimate, u) == pytest.approx((there.mean(), there.std()), rel=1e-12)
        assert chance_inside(estimate, u, low, high) == pytest.approx(there.cdf(high) - there.cdf(low), abs=1e-9)
    readings = np.linspace(low, high, 4001)
    risks = [(1 - chance_inside(*after_reading(one), low, high)) * norm(0.0, spread).pdf(one) for one in readings]
    both = multivariate_normal([0.0, 0.0], [[prior**2, prior**2], [prior**2, spread**2]])
    accepted = norm(0.0, spread).cdf(high) - norm(0.0, spread).cdf(low)
    conforming = both.cdf([high, high]) - both.cdf([low, high]) - both.cdf([high, low]) + both.cdf([low, low])
    assert np.trapezoid(risks, readings) == pytest.approx(accepted - conforming, abs=2e-6)
    assert 0.005 < accepted - conforming < 0.05


def test_jcgm_106_9_5_4_radial_error_motion_of_ball_bearings():
    # JCGM 106:2012 9.5.4: bearings made with a radial error motion of gamma density (shape 4, scale 1/4 µm), tolerance
    # 2 µm, read with u 0.25 µm: 4.2 % out of tolerance, 0.8 % of all wrongly accepted; 0.1 % when the limit is brought
    # in to 1.67 µm. Seen in the notebook "Risk - Ball Bearing" of github.com/sandialabs/suncal (0.04238, 0.00802, guard
    # band 0.328). Our chance that a value lies inside is the chance that such a bearing is read as accepted.
    made, tolerance, own = gamma(4, scale=0.25), 2.0, 0.25
    bearings = np.linspace(tolerance, 8.0, 20_001)
    assert made.sf(tolerance) == pytest.approx(0.04238, abs=5e-6)

    def wrongly_accepted(limit):
        accepted = [chance_inside(one, own, 0.0, limit) for one in bearings]
        return np.trapezoid(made.pdf(bearings) * accepted, bearings)

    assert wrongly_accepted(tolerance) == pytest.approx(0.00802, abs=5e-6)
    assert wrongly_accepted(tolerance - 0.3281712284559932) == pytest.approx(0.001, abs=5e-6)
