"""The corrugation's fit by scipy and by all numberings; misreadings and dents planted and found."""

from itertools import product
from math import hypot

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import least_squares

from fieldapp.plan.tables import table
from fieldapp.trade import layout as module
from fieldapp.trade.layout_fit import Edges, Prior, fit, fits
from fieldapp.trade.layout_misfits import _deviations, fitted
from fieldapp.trade.layout_numbers import numberings

PRIOR = Prior(250.0, 110.0, 3.0, 2.0, 4.0)
MOST = 3.5


def made(at, u=1.0, end=0.0, lift=0.0):
    whole = np.broadcast_arrays(*(np.asarray(one, float) for one in (at, u, end, lift)))
    return Edges(*(np.array(one) for one in whole))


def by_scipy(edges, number, prior=PRIOR):
    """(estimate, covariance, chi-square) by scipy's least squares over the weighted residuals."""

    def residuals(x):
        phase, pitch, outer, plumb = x
        stands = phase + pitch * number + outer * edges.end + plumb * edges.lift
        known = [(pitch - prior.pitch) / prior.u_pitch, (outer - prior.outer) / prior.u_outer, plumb / prior.u_plumb]
        return np.concatenate([(stands - edges.at) / edges.u, known])

    found = least_squares(residuals, [edges.at[0], prior.pitch, prior.outer, 0.0], x_scale=[1, 0.1, 1, 1],
                          jac="3-point", xtol=1e-15, ftol=1e-15, gtol=1e-15)
    return found.x, np.linalg.inv(found.jac.T @ found.jac), 2 * found.cost


@settings(max_examples=60, deadline=None)
@given(st.integers(0, 2**32 - 1), st.integers(1, 25), st.integers(1, 40))
def test_estimate_and_uncertainty_by_scipy(seed, count, flats):
    rng = np.random.default_rng(seed)
    number = rng.integers(0, flats, count).astype(float)
    end, lift, u = rng.integers(0, 2, count).astype(float), rng.random(count), rng.uniform(0.3, 3, count)
    phase, pitch, outer, plumb = rng.uniform(-5000, 5000), rng.normal(250, 3), rng.normal(110, 2), rng.normal(0, 4)
    edges = made(phase + pitch * number + outer * end + plumb * lift + rng.normal(0, u), u, end, lift)
    x, covariance, chi = by_scipy(edges, number)
    ours = fit(edges, number, PRIOR)
    assert ours.x == pytest.approx(x, abs=1e-5)
    assert ours.covariance == pytest.approx(covariance, rel=1e-5, abs=1e-5)
    assert ours.chi == pytest.approx(chi, rel=1e-6, abs=1e-6)
    # numbered by itself it finds the same, or better
    best = numberings(edges, PRIOR)[0][1]
    assert best.chi <= ours.chi * (1 + 1e-9) + 1e-9


@settings(max_examples=60, deadline=None)
@given(st.lists(st.tuples(st.integers(0, 1500), st.booleans(), st.booleans(), st.sampled_from([0.5, 1, 4])),
                min_size=1, max_size=4))
def test_numbered_so_that_the_fit_is_best_of_all_numberings(read):
    at, end, lift, u = zip(*read, strict=True)
    edges = made(at, u, end, lift)
    # every edge on each of the flats around where it stands
    choices = [[n for n in range(-8, 9) if abs(at[0] + 250 * n - one) < 400] for one in at[1:]]
    every = [fit(edges, np.array([0.0, *rest]), PRIOR) for rest in product(*choices)]
    # of those that can be meant: what was known within 12 uncertainties, and each edge on the flat that is nearest
    meant = [one for one in every if np.all(np.abs(one.x[1:] - PRIOR.value) <= 12 * PRIOR.u)
             and np.abs(one.left).max() <= one.x[1] / 2]
    least = min((one.chi for one in meant), default=np.inf)
    # edges that contradict each other by more than 30 uncertainties have no numbering worth the name
    if least < 900:
        assert numberings(edges, PRIOR)[0][1].chi <= least * (1 + 1e-9) + 1e-9


@settings(max_examples=40, deadline=None)
@given(st.integers(0, 2**32 - 1))
def test_what_the_others_predict_by_fitting_the_others(seed):
    rng = np.random.default_rng(seed)
    count = int(rng.integers(2, 9))
    number, end = rng.integers(0, 8, count).astype(float), rng.integers(0, 2, count).astype(float)
    lift = rng.integers(0, 2, count).astype(float)
    wild = np.where(rng.random(count) < 0.3, rng.uniform(-200, 200, count), 0)
    edges = made(number * 251 + end * 110 + rng.normal(0, 1, count) + wild, 1.0, end, lift)
    far = _deviations(edges, numberings(edges, PRIOR), PRIOR)
    for i in range(count):
        others = [j for j in range(count) if j != i]
        pool = numberings(edges.some(others), PRIOR)
        if pool[0][1].chi > 30 or (len(pool) > 1 and pool[1][1].chi - pool[0][1].chi < 1):
            continue  # the others contradict each other, or two numberings serve them alike
        x, covariance, _ = by_scipy(edges.some(others), pool[0][0])
        rows = [np.array([1, n, end[i], lift[i]]) for n in range(-40, 41)]
        row = min(rows, key=lambda one: abs(edges.at[i] - one @ x))
        off, doubt = edges.at[i] - row @ x, np.sqrt(row @ covariance @ row)
        if abs(off) < 0.49 * x[1]:
            assert far[i] == pytest.approx(abs(off) / hypot(doubt, 1.0), rel=1e-4, abs=1e-5)


@settings(max_examples=80, deadline=None)
@given(st.lists(st.tuples(st.integers(-4000, 4000), st.booleans(), st.booleans()), min_size=1, max_size=12))
def test_whatever_is_read_the_kept_agree_and_the_left_out_do_not(read):
    at, end, lift = zip(*read, strict=True)
    edges = made(at, 1.0, end, lift)
    found = fitted(edges, PRIOR, MOST)
    kept = [i for i in range(len(at)) if i not in found.left_out]
    assert kept

    def furthest(some):
        among = edges.some(some)
        return _deviations(among, numberings(among, PRIOR), PRIOR).max() if len(some) > 1 else 0

    assert furthest(kept) <= MOST
    for i in found.left_out:
        off, doubt, _ = found.fit.off(*(part[i] for part in edges))
        assert abs(off) / doubt > MOST or furthest(sorted([*kept, i])) > MOST


def wall(rng, flats=9, wrong=(), u=1.0):
    """Edges of each flat of a wall at sill and head, with the errors of {(flat, end, z): mm} added."""
    edges = []
    for n in range(flats):
        for end, edge in enumerate(("outer_start", "outer_end")):
            for z in (0, 2000):
                at = 131 + 248.7 * n + 111 * end + 1.5 * z / 2000 + rng.normal(0, u) + dict(wrong).get((n, end, z), 0)
                edges.append({"at": round(float(at), 1), "edge": edge, "z": z})
    line = {"wall": "corrugated end", "edges": edges, "wall_from": 0, "wall_to": 2300, "opening": {"width": 780},
            "flange": {"covers": 50, "needs_land": 25}}
    return line, module.layout(line, table("layout"), table("profiles"), table("doubt"))


@pytest.mark.parametrize(
    ("by", "likely"),
    [
        (25.4, "read from the 1 in mark"),
        (-25.4, "an inch short"),
        (100, "read from the 100 mm mark"),
        (111, "a flat's start and end written in each other's place"),
        (304.8, "a foot too much"),
    ],
)
def test_a_misread_edge_is_named_with_what_explains_it(by, likely):
    rng = np.random.default_rng(7)
    _, found = wall(rng, wrong={(4, 0, 0): by})
    (misfit,) = found["misfits"]
    assert misfit["edge"] == 16
    # known up to whole pitches
    assert (misfit["off_by"] - by + 100) % 248.7 - 100 == pytest.approx(0, abs=4)
    assert misfit["likely"] == likely
    assert any(likely in line and "Read it again" in line for line in found["say"])


def test_a_misread_edge_changes_nothing_else():
    _, right = wall(np.random.default_rng(3))
    line, wrong = wall(np.random.default_rng(3), wrong={(2, 1, 0): 25.4})
    line["edges"] = line["edges"][:10] + line["edges"][11:]
    without = module.layout(line, table("layout"), table("profiles"), table("doubt"))
    assert (right["misfits"], without["misfits"]) == ([], [])
    assert [one["edge"] for one in wrong["misfits"]] == [10]
    for key in ("fit", "places", "fits", "judged"):
        assert wrong[key] == without[key]


def test_a_dented_flat_is_named():
    pushed = {(5, end, z): by for (end, z), by in {(0, 0): 14, (0, 2000): 17, (1, 0): 21, (1, 2000): 16}.items()}
    _, found = wall(np.random.default_rng(4), wrong=pushed)
    assert sorted(one["edge"] for one in found["misfits"]) == [20, 21, 22, 23]
    assert found["misfits"][0]["edge"] == 22  # the worst is named first: 21 mm
    assert {one["likely"] for one in found["misfits"]} == {"this flat is dented or pushed aside"}


def test_the_worst_is_named_first():
    """The page of the calculators: "left out and named, the worst first"."""
    _, found = wall(np.random.default_rng(8), wrong={(2, 0, 0): 40, (6, 0, 0): 100, (5, 1, 0): 25.4})
    assert [one["edge"] for one in found["misfits"]] == [24, 8, 22]
    sizes = [float(line.split("is ")[1].split("\u00a0mm")[0]) for line in found["say"] if "left out" in line]
    assert sizes == sorted(sizes, reverse=True)
    assert sizes == pytest.approx([100, 40, 25.4], abs=4)


def test_what_nothing_explains_is_null_and_still_named():
    _, found = wall(np.random.default_rng(5), wrong={(3, 1, 2000): -61})
    (misfit,) = found["misfits"]
    assert (misfit["edge"], misfit["likely"]) == (15, None)
    assert any("was left out. Read it again." in line for line in found["say"])


def test_one_that_the_rest_then_predict_comes_back():
    # two wild edges of one flat drag the third with them, which looks worst; once both are out it agrees again
    edges = made([0, 250, 500, 560, 570, 1000], 1.0, 0.0, 0.0)
    found = fitted(edges, PRIOR, MOST)
    assert found.left_out == [4, 3]  # the worst first


def test_clean_walls_raise_few_alarms():
    rng = np.random.default_rng(11)
    named = sum(len(wall(rng)[1]["misfits"]) for _ in range(60))
    # 60 walls of 36 edges: beyond 3.5 standard deviations lie 0.05 % of 2160, one edge
    assert named <= 6


def test_two_edges_that_contradict_each_other_leave_one_and_name_the_less_sure():
    found = fitted(made([1000, 1060], [1.0, 2.0]), PRIOR, MOST)
    assert found.left_out == [1]
    found = fitted(made([1000, 1060], [2.0, 1.0]), PRIOR, MOST)
    assert found.left_out == [0]


def test_several_numberings_at_once_are_each_as_by_scipy():
    rng = np.random.default_rng(5)
    edges = made(rng.uniform(0, 3000, 40), rng.uniform(0.3, 3, 40), rng.integers(0, 2, 40), rng.random(40))
    number = np.round((edges.at - rng.uniform(0, 250, (6, 1)) - 110 * edges.end) / 250)
    together = fits(edges, number, PRIOR)
    for one, alone in zip(number, together, strict=True):
        x, covariance, chi = by_scipy(edges, one)
        assert alone.x == pytest.approx(x, abs=1e-5)
        assert alone.covariance == pytest.approx(covariance, rel=1e-5, abs=1e-5)
        assert alone.chi == pytest.approx(chi, rel=1e-6)
    away, doubt, flat = together[0].all_off(edges)
    row = np.column_stack([np.ones(40), flat, edges.end, edges.lift])
    assert away == pytest.approx(edges.at - row @ together[0].x, abs=1e-9)
    assert np.max(np.abs(away)) <= together[0].x[1] / 2 + 1e-9
    assert doubt ** 2 == pytest.approx(edges.u ** 2 + np.diag(row @ together[0].covariance @ row.T))


def test_truth_lies_within_the_stated_uncertainty():
    # over many walls the pulls of pitch and of a far edge are standard normal, within what 400 draws may show
    rng = np.random.default_rng(2)
    pulls = []
    for _ in range(400):
        pitch, outer, plumb = rng.normal(250, 3), rng.normal(110, 2), rng.normal(0, 4)
        number, end = np.array([2.0, 2, 3, 5, 5]), np.array([0.0, 1, 1, 0, 0])
        lift, u = np.array([0.0, 0, 1, 0, 1]), np.array([1, 1, 0.7, 2, 1])
        edges = made(40 + pitch * number + outer * end + plumb * lift + rng.normal(0, u), u, end, lift)
        found = fitted(edges, PRIOR, 100.0).fit
        off, doubt, _ = found.off(40 + 9 * pitch + outer, 0.0, 1.0, 0.0)
        pulls.append((off / doubt, (found.x[1] - pitch) / np.sqrt(found.covariance[1, 1])))
    assert np.std(pulls, axis=0) == pytest.approx(np.ones(2), abs=0.11)
    assert np.mean(pulls, axis=0) == pytest.approx(np.zeros(2), abs=0.15)
