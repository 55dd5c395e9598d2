"""The chance that several quantities lie inside together, against scipy's multivariate normal distribution."""

import numpy as np
import pytest
from frame_world import frame
from scipy.stats import multivariate_normal, norm

from fieldapp.trade.estimate.linear_joint import joint
from fieldapp.trade.estimate.linear_judged import judged
from fieldapp.trade.estimate.linear_table import make
from fieldapp.trade.estimate.linear_update import now
from fieldapp.trade.frame import sheet

TOLERANCE = [1.6, 1.6, 1.6, 1.6]


def exact(mean, covariance, tolerance):
    limit = np.array(tolerance)
    return multivariate_normal(mean, covariance, allow_singular=True).cdf(limit, lower_limit=-limit)


def test_independent_quantities_multiply():
    mean, u = [0.5, -1.0, 2.0], [0.3, 0.8, 1.0]
    chance, each = joint(mean, np.diag(np.square(u)).tolist(), [1.6, 1.6, 3.2])
    alone = [norm.cdf((t - m) / s) - norm.cdf((-t - m) / s) for m, s, t in zip(mean, u, [1.6, 1.6, 3.2], strict=True)]
    assert each == pytest.approx(alone, abs=1e-12)
    assert chance == pytest.approx(np.prod(alone), abs=1e-12)


@pytest.mark.parametrize("seed", range(12))
def test_the_frame_s_four_quantities(seed):
    rng = np.random.default_rng(seed)
    one = frame(rng, faults=1.0)
    table = make(sheet(914, 2057, "left"), {"rounds": [{"readings": one.round()}]})
    state = now(table)
    items = judged(table, state)[:4]
    rows = np.zeros((4, len(state.x)))
    for at, item in enumerate(items):
        for index, factor in item.row:
            rows[at, index] = factor
    turn = rows @ np.array([1.0 if at == table.index["turn"] else 0.0 for at in range(len(state.x))])
    covariance = rows @ state.p @ rows.T + np.outer(turn, turn) * (0.3 * 2057 / 914) ** 2
    mean = [item.estimate for item in items]
    chance, _ = joint(mean, covariance.tolist(), TOLERANCE)
    assert chance == pytest.approx(exact(mean, covariance + 1e-12 * np.eye(4), TOLERANCE), abs=0.012)


def test_far_outside_is_no_chance_and_certain_is_one():
    assert joint([50.0, 0.0], [[0.01, 0.0], [0.0, 0.01]], [1.6, 1.6]) == (0.0, [0.0, pytest.approx(1.0)])
    assert joint([0.0, 0.0], [[0.0, 0.0], [0.0, 0.0]], [1.6, 1.6])[0] == pytest.approx(1.0)
