"""The head seal: the contract's example, and every figure by a second route."""

from math import hypot

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fieldapp.plan.tables import table
from fieldapp.trade import corrugation, seals

EXAMPLE = {
    "free_height": 12,
    "gaps": [{"where": "left", "value": 7.1}, {"where": "right", "value": 6.2, "u": 0.5}],
    "band": [40, 50],
    "wall": "corrugated end",
    "width": 926,
    "starts": 40,
    "waste": 10,
}


def seal(**more):
    return seals.seal(EXAMPLE | more, table("seals"), table("profiles"), table("doubt"))


def test_the_printed_example():
    # the contract of the calculators, to its printed digits
    found = seal()
    left = found["gaps"][0]
    assert (left["where"], round(left["compression"], 1), round(left["u"], 2)) == ("left", 40.8, 1.94)
    assert (left["verdict"], left["touches"]) == ("too close to call", True)
    assert [
        round(found[name], digits)
        for name, digits in (
            ("gap_from", 2),
            ("gap_to", 2),
            ("shift", 2),
            ("shift_best", 2),
            ("tilt", 2),
            ("developed", 1),
            ("ratio", 4),
            ("order_length", 1),
        )
    ] == [6, 7.2, 0, -0.05, 0.9, 1143.2, 1.2345, 1257.5]


def test_a_tape_can_never_decide_the_band_and_a_calliper_can():
    # band of 0.1 h, inside at 0.975 needs u <= h/45 (computed in the facts from the normal distribution)
    middle = 12 * 0.55
    for u, verdict in ((0.5, "too close to call"), (12 / 45, "inside"), (0.2, "inside")):
        found = seal(free_height={"value": 12, "u": 0}, gaps=[{"value": middle, "u": u}])
        assert found["gaps"][0]["verdict"] == verdict


def test_uncertainty_by_finite_differences():
    def compression(free, gap):
        return 100 * (free - gap) / free

    step = 1e-5
    by_gap = (compression(12, 7.1 + step) - compression(12, 7.1 - step)) / (2 * step)
    by_free = (compression(12 + step, 7.1) - compression(12 - step, 7.1)) / (2 * step)
    found = seal(free_height={"value": 12, "u": 0.3}, gaps=[{"value": 7.1, "u": 0.15}])
    assert found["gaps"][0]["u"] == pytest.approx(hypot(by_gap * 0.15, by_free * 0.3), rel=1e-8)


@settings(max_examples=60, deadline=None)
@given(st.lists(st.integers(0, 200), min_size=1, max_size=5), st.integers(40, 300))
def test_shift_by_brute_force(tenths, free_tenths):
    free, gaps = free_tenths / 10, [tenth / 10 for tenth in tenths]
    found = seal(free_height=free, gaps=[{"value": gap} for gap in gaps])
    low, high = 0.5 * free, 0.6 * free
    shifts = np.linspace(-60, 60, 120_001)
    serving = list(shifts[(min(gaps) + shifts >= low - 1e-9) & (max(gaps) + shifts <= high + 1e-9)])
    if serving:
        assert found["shift"] == pytest.approx(min(serving, key=abs), abs=0.0011)
        assert found["shift_best"] == pytest.approx((serving[0] + serving[-1]) / 2, abs=0.0011)
    if max(gaps) - min(gaps) > high - low + 1e-6:
        assert found["shift"] is found["shift_best"] is None
        assert any("slope" in sentence for sentence in found["say"])


def test_touching_and_not():
    gaps = [{"value": 11.9}, {"value": 12}, {"value": 13}]
    found = seal(gaps=gaps)
    assert [gap["touches"] for gap in found["gaps"]] == [True, False, False]
    assert sum("does not touch" in sentence for sentence in found["say"]) == 2


def walked(profile, width, starts):
    """Length along the sheet by small steps over its drawn shape."""
    corners = np.cumsum([0, profile["outer"], profile["slope"], profile["inner"], profile["slope"]])
    depths = [0, 0, profile["depth"], profile["depth"], 0]
    x = np.union1d(
        np.linspace(starts, starts + width, 20_001), [k * corners[-1] + c for k in range(9) for c in corners]
    )
    x = x[(x >= starts) & (x <= starts + width)]
    y = np.interp(x % corners[-1], corners, depths)
    return float(np.hypot(np.diff(x), np.diff(y)).sum())


@pytest.mark.parametrize("wall", ["corrugated side", "corrugated end"])
@pytest.mark.parametrize("starts", [0, 40, 115, 200, 260, 999])
def test_developed_length_by_walking_the_profile(wall, starts):
    profile = table("profiles")[wall]
    assert corrugation.developed(profile, 926, starts) == pytest.approx(walked(profile, 926, starts), rel=1e-6)


def test_web_and_ratio_of_the_two_profiles():
    # facts computed from the profiles: web 76.9 and 49.0 mm, developed over pitch 1.064 and 1.248; pitch 278, 250
    for wall, web, ratio, pitch in (("corrugated side", 76.9, 1.064, 278), ("corrugated end", 49.0, 1.248, 250)):
        profile = table("profiles")[wall]
        assert round(hypot(profile["slope"], profile["depth"]), 1) == web
        assert round(corrugation.developed(profile, 500, None) / 500, 3) == ratio
        assert corrugation.pitch(profile) == pitch


def test_without_a_wall_or_a_width_nothing_is_ordered_and_smooth_is_as_wide_as_it_is():
    bare = {"free_height": 12, "gaps": [{"value": 6.6}]}
    found = seals.seal(bare, table("seals"), table("profiles"), table("doubt"))
    assert found["developed"] is found["ratio"] is found["order_length"] is None
    smooth = seals.seal(
        bare | {"wall": "smooth insulated", "width": 926, "waste": 5}, table("seals"), table("profiles"), table("doubt")
    )
    assert (smooth["developed"], smooth["ratio"]) == (926, 1)
    assert smooth["order_length"] == pytest.approx(972.3)
