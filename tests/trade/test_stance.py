"""How a box stands: the contract's example, a plane fitted by numpy, and every verdict at its limit."""

from itertools import permutations
from math import sqrt

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from fieldapp.plan.tables import table
from fieldapp.trade import stance as module
from fieldapp.trade.estimate import answer, judge
from fieldapp.trade.frame import frame

CORNERS = ("near_left", "near_right", "far_left", "far_right")
EXAMPLE = {
    "corners": {"near_left": 0, "near_right": -18, "far_left": 2, "far_right": {"value": 0, "u": 1}},
    "near": 2438,
    "depth": 12192,
    "most": {"spread": 12, "warp": 6},
}


def stance(*heights, **more):
    corners = {"corners": dict(zip(CORNERS, heights, strict=True))} if heights else {}
    return module.stance(EXAMPLE | corners | more, table("stance"), table("doubt"))


def test_the_printed_example():
    # the contract of the calculators, to its printed digits
    found = stance()
    assert (found["spread"], found["warp"]) == (20, 16)
    assert {name: round(value, 2) for name, value in found["tilt"].items()} == {
        "along": -18,
        "through": 2,
        "over": 2438,
        "u": 1.41,
    }
    assert found["pack"] == [{"corner": "near_right", "by": 16}]
    assert found["level"] == {"near_left": 2, "near_right": 20, "far_left": 0, "far_right": 2}
    spread, warp = found["judged"]
    assert (spread["what"], spread["from"], spread["to"], spread["verdict"]) == ("spread", None, 12, "outside")
    assert (warp["what"], warp["from"], warp["to"], warp["verdict"]) == ("warp", -6, 6, "outside")
    assert (spread["u"], warp["u"]) == (pytest.approx(sqrt(2)), 2)
    first = found["say"][0].replace("\u00a0", " ")
    assert first.startswith("Pack 16 mm under the near right corner casting, not mid-rail.")
    assert "every reading afterwards" in first


def test_the_limits_when_none_are_given_are_those_of_common_practice():
    # spread within 12, sums of the diagonal pairs within 6: common practice, no source
    bare = {key: value for key, value in EXAMPLE.items() if key != "most"}
    found = module.stance(bare, table("stance"), table("doubt"))
    assert [one["to"] for one in found["judged"]] == [12, 6]
    found = module.stance(bare | {"most": {"warp": 20}}, table("stance"), table("doubt"))
    assert [one["to"] for one in found["judged"]] == [12, 20]
    assert found["pack"] == []


HEIGHT = st.integers(-400, 400).map(lambda tenths: tenths / 10)


@given(*[HEIGHT] * 4, st.integers(600, 4000), st.integers(600, 14000))
def test_spread_warp_and_tilt_by_other_routes(near_left, near_right, far_left, far_right, near, depth):
    heights = (near_left, near_right, far_left, far_right)
    found = stance(*heights, near=near, depth=depth)
    assert found["spread"] == pytest.approx(max(abs(a - b) for a, b in permutations(heights, 2)))
    # a bilinear surface through the corners: its twist term is the warp, the plane's slope across the tilt through
    x, y = np.array([0, near, 0, near]), np.array([0, 0, depth, depth])
    twist = np.linalg.solve(np.column_stack([np.ones(4), x, y, x * y]), heights)[3] * near * depth
    assert found["warp"] == pytest.approx(twist, abs=1e-6)
    plane = np.linalg.lstsq(np.column_stack([np.ones(4), x, y]), np.array(heights), rcond=None)[0]
    assert found["tilt"]["through"] == pytest.approx(plane[2] * near, abs=1e-6)
    assert found["tilt"]["along"] == pytest.approx(near_right - near_left)
    assert min(found["level"].values()) == 0
    assert all(found["level"][name] + height == pytest.approx(max(heights)) for name, height in zip(CORNERS, heights,
                                                                                                   strict=True))


@given(st.tuples(*[HEIGHT] * 4))
def test_packing_takes_the_twist_away_and_raises_a_low_corner(heights):
    found = stance(*heights)
    if abs(found["warp"]) <= 6:
        assert found["pack"] == []
        return
    (pack,) = found["pack"]
    raised = [height + (pack["by"] if name == pack["corner"] else 0) for name, height in zip(CORNERS, heights,
                                                                                            strict=True)]
    after = stance(*raised)
    assert after["warp"] == pytest.approx(0, abs=1e-9)
    assert after["pack"] == []
    assert found["say"][0].startswith("Pack ")
    # the other corner of the same diagonal would take it away too, and stands no lower
    other = {"near_left": "far_right", "far_right": "near_left", "near_right": "far_left", "far_left": "near_right"}
    read = dict(zip(CORNERS, heights, strict=True))
    assert read[pack["corner"]] <= read[other[pack["corner"]]]


@pytest.mark.parametrize("sign", [1, -1])
@pytest.mark.parametrize(
    ("warp", "verdict"), [(0, "inside"), (2, "inside"), (4.5, "too close to call"), (6, "too close to call"),
                          (7.5, "too close to call"), (10, "outside")]
)
def test_a_twist_near_its_limit_is_too_close_to_call(warp, verdict, sign):
    # u 2: four corners of 1 mm; inside from 0.975 is 1.96 u within, outside 1.96 u beyond
    assert stance(sign * warp, 0, 0, 0)["judged"][1]["verdict"] == verdict


@pytest.mark.parametrize(("spread", "verdict"), [(9, "inside"), (10, "too close to call"), (12, "too close to call"),
                                                 (14, "too close to call"), (15, "outside")])
def test_a_spread_near_its_limit_is_too_close_to_call(spread, verdict):
    assert stance(spread, spread, 0, 0)["judged"][0]["verdict"] == verdict


def test_without_doubt_the_limit_itself_is_inside():
    exact = [{"value": value, "u": 0} for value in (12.3, 12.3, 0.3, 0.3)]
    spread, warp = stance(*exact)["judged"]
    assert (spread["verdict"], warp["verdict"]) == ("inside", "inside")
    spread, _ = stance(*({"value": value, "u": 0} for value in (12.3, 12.3, 0.29, 0.29)))["judged"]
    assert spread["verdict"] == "outside"


def test_the_uncertainty_is_of_the_two_corners_that_differ_most():
    found = stance({"value": 9, "u": 3}, 0, {"value": -4, "u": 4}, 1)
    assert found["judged"][0]["u"] == 5
    level = stance(*({"value": 5, "u": u} for u in (3, 1, 1, 4)))
    assert (level["spread"], level["judged"][0]["u"]) == (0, 5)


def test_the_tilt_is_what_frame_takes_and_what_its_level_reads():
    # a frame true to a box that rises to the right reads a level of that tilt, so it is left alone
    tilt = stance(0, 12, 0, 12)["tilt"]
    answer = frame({"frame": {"width": 914, "height": 2057, "hinge": "left"}, "tilt": tilt, "rounds": [{"readings": [
        {"of": "level_sill", "value": 12 * 914 / 2438, "reversed": True},
        {"of": "level_head", "value": 12 * 914 / 2438, "reversed": True}]}]})
    assert answer["corrections"] == []
    square = next(one for one in answer["judged"] if one["what"] == "square_sill")
    assert abs(square["estimate"]) < square["u"]


def test_the_sheet_for_the_phone_judges_the_twist_alike():
    sheet = module.sheet("stance", table("stance"), table("doubt"))
    for heights in ((0, -18, 2, 0), (0, 0, 0, 0), (5.5, 0, 0, 0)):
        inputs = {"inputs": dict(zip(CORNERS, heights, strict=True))}
        found = stance(*heights)["judged"][1]
        assert judge(sheet, inputs) == {"warp": found["verdict"]}
        assert answer(sheet, inputs)["judged"][0]["estimate"] == found["estimate"]


def test_it_says_which_way_in_words_and_inches():
    words = [line.replace("\u00a0", " ") for line in stance(0, 2, -3, -1)["say"]]
    assert "The wall's foot rises 2 mm to the right over 2438 mm." in words
    assert "The wall leans in 0.6 mm over 2438 mm." in words
    assert not any("Pack" in line for line in words)
    inches = stance(show="in")["say"]
    assert "5/8" in inches[0]
    assert not any("\u00a0mm" in line for line in inches)


def test_out_of_level_it_says_what_the_leaf_will_do():
    assert any("swings by itself" in line for line in stance(0, 20, 0, 20)["say"])
    assert not any("swings by itself" in line for line in stance(0, 0, 0, 0)["say"])
