"""The engines of band, rule and digit sheets: what no calculator shows."""

from math import log

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import norm

from fieldapp.trade.estimate import answer, band, judge
from fieldapp.trade.estimate.band_values import tidy


def width(value, u=0.2, low=6.0, high=13.0):
    sheet = band.within("width", [{"name": "width", "say": "Width", "u": u}], low, high)
    return judge(sheet, {"inputs": {"width": value}})["width"], answer(sheet, {"inputs": {"width": value}})["judged"][0]


@pytest.mark.parametrize(("value", "u"), [(6.1, 0.2), (5.5, 0.2), (9, 3.4), (12.99, 0.5)])
def test_chance_by_scipy(value, u):
    assert width(value, u)[1]["chance_inside"] == pytest.approx(norm.cdf(13, value, u) - norm.cdf(6, value, u))


def test_not_known_is_a_doubt_above_half_the_band_that_is_not_outside():
    assert width(9, 3.5)[0] == "too close to call"
    assert width(9, 3.51)[0] == "not known"
    assert width(30, 3.51)[0] == "outside"
    # an open side has no tolerance, so nothing is too doubtful to be judged
    assert width(9, 50, high=None)[0] == "too close to call"


def test_the_limit_itself_is_inside_where_nothing_is_in_doubt():
    assert width(6, 0)[0] == width(13, 0)[0] == "inside"
    assert width(13.001, 0)[0] == "outside"


TOE = [
    {"name": f"{side}.{at}", "say": f"{side} {at}", "u": 0.5, "what": f"toe_{at}", "times": times}
    for at in ("sill", "head")
    for side, times in (("back", 1), ("front", -1))
]


def test_several_sums_in_one_sheet_each_open_until_its_inputs_are_there():
    sheet = band.within("toe", TOE, -1.6, 1.6)
    read = {"inputs": {"back.sill": 914, "front.sill": 914, "back.head": 914}}
    assert judge(sheet, read) == {"toe_sill": "inside", "toe_head": None}
    found = answer(sheet, read)
    assert [one["what"] for one in found["judged"]] == ["toe_sill"]
    assert found["judged"][0]["u"] == pytest.approx(0.5 * 2**0.5)
    assert found["missing"] == ["front.head"]


def dew(t, h):
    """Magnus over water, 17.62 and 243.12 °C (WMO-No. 8 annex, from memory)."""
    gamma = log(h / 100) + 17.62 * t / (243.12 + t)
    return 243.12 * gamma / (17.62 - gamma)


AIR, HUMIDITY = [float(t) for t in range(-5, 36)], [float(h) for h in range(20, 101, 2)]
DEW = {
    "name": "dew",
    "kind": "band",
    "judged": [{"what": "margin", "value": "margin", "from": 3, "say": "Margin", "unit": "K"}],
    "inputs": [
        {"name": "air", "say": "Air", "u": 0.5},
        {"name": "humidity", "say": "Humidity", "u": 3},
        {"name": "steel", "say": "Steel", "u": 0.5},
    ],
    "values": [
        {
            "name": "margin",
            "sum": [["steel", 1]],
            "grid": {
                "times": -1,
                "axes": [{"of": "air", "at": AIR}, {"of": "humidity", "at": HUMIDITY}],
                "table": [[dew(t, h) for h in HUMIDITY] for t in AIR],
            },
        }
    ],
}


# dew points computed in the facts from Magnus 17.62/243.12, hand values to 0.01
@pytest.mark.parametrize(
    ("air", "humidity", "point"),
    [(20, 50, 9.26), (25, 60, 16.69), (10, 85, 7.59), (30, 80, 26.17), (5, 90, 3.50), (0, 90, -1.45), (35, 70, 28.71)],
)
def test_a_grid_gives_the_dew_point_and_its_doubt(air, humidity, point):
    found = answer(DEW, {"inputs": {"air": air, "humidity": humidity, "steel": 20}})["judged"][0]
    assert found["estimate"] == pytest.approx(20 - point, abs=0.02)
    by_air = (dew(air + 0.01, humidity) - dew(air - 0.01, humidity)) / 0.02
    by_humidity = (dew(air, humidity + 0.01) - dew(air, humidity - 0.01)) / 0.02
    u = np.sqrt((by_air * 0.5) ** 2 + (by_humidity * 3) ** 2 + 0.5**2)
    assert found["u"] == pytest.approx(u, rel=0.05)


def test_beyond_the_grid_nothing_is_said():
    assert judge(DEW, {"inputs": {"air": 36, "humidity": 50, "steel": 20}}) == {"margin": None}
    # the last point itself is inside the grid
    assert judge(DEW, {"inputs": {"air": 35, "humidity": 100, "steel": 20}}) == {"margin": "outside"}


@given(st.floats(-1e7, 1e7), st.integers(-(10**9), 10**9))
def test_tidy_takes_away_dust_and_nothing_else(x, millionths):
    assert abs(tidy(x) - x) < 1e-11
    exact = millionths / 1e6
    assert tidy(exact + 3e-13) == exact or abs(exact) >= 100
    assert str(tidy(-0.0)) == "0.0"


RULES = {
    "name": "r",
    "kind": "rule",
    "judged": [{"what": "it", "say": "It"}],
    "inputs": [
        {"name": "a", "say": "A"},
        {"name": "b", "say": "B", "needed": False},
        {"name": "c", "say": "C", "value": 5},
    ],
    "rules": [
        {"left": "a", "is": "missing", "verdict": "outside", "because": "none", "say": "None."},
        {"left": "a", "is": ">", "right": "b", "verdict": "outside", "because": "more", "say": "{a|n} over {b|n}."},
        {"left": "a", "is": "<", "constant": 1, "verdict": "too close to call", "because": "small", "say": "Small."},
        {"left": "c", "is": "is", "constant": True, "verdict": "outside", "because": "true", "say": "True."},
    ],
    "else": {"verdict": "inside", "say": "Nothing."},
}


@pytest.mark.parametrize(
    ("inputs", "verdict", "because"),
    [
        ({}, None, []),
        ({"a": None}, "outside", ["none"]),
        ({"a": 3}, "inside", []),
        ({"a": 3, "b": 2}, "outside", ["more"]),
        ({"a": 0}, "too close to call", ["small"]),
        ({"a": 0.5, "b": 0.2}, "outside", ["more", "small"]),
        ({"a": 3, "c": True}, "outside", ["true"]),
        ({"a": 3, "c": 1}, "inside", []),
        ({"a": 3, "b": "x"}, "inside", []),
    ],
)
def test_rules(inputs, verdict, because):
    found = answer(RULES, {"inputs": inputs})
    assert (found["verdict"], found["because"]) == (verdict, because)
    assert judge(RULES, {"inputs": inputs}) == {"it": verdict}
    assert found["missing"] == ([] if "a" in inputs else ["a"])
