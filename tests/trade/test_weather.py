"""The dew point: the contract's example, doubts by a second route, verdicts, sentences."""

from math import hypot

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.stats import norm

from fieldapp.plan.tables import table
from fieldapp.trade import weather

EXAMPLE = {"air": {"value": 20, "u": 0.5}, "humidity": {"value": 50, "u": 3}, "steel": 110 / 9, "needs": 3}


def made(**more):
    return weather.dewpoint(EXAMPLE | more, table("weather"))


def test_the_printed_example():
    # the contract of the calculators, to its printed digits; 54 °F is 110/9 °C
    found = made()
    wanted = (("dew_point", 9.26), ("u_dew", 1.0), ("margin", 2.97), ("vapour_pressure", 11.66))
    assert [round(found[name], 2) for name, _ in wanted] == [figure for _, figure in wanted]
    assert found["verdict"] == "too close to call"
    assert [(one["what"], one["from"], one["to"]) for one in found["judged"]] == [
        ("margin", 3, None),
        ("humidity", None, 85),
    ]
    assert "rule for paint" in found["scope"]
    assert "maker's sheet" in found["scope"]


def test_defaults():
    bare = weather.dewpoint({"air": 20, "humidity": 50, "steel": 110 / 9}, table("weather"))
    assert bare == made(steel={"value": 110 / 9, "u": 0.5})


@settings(max_examples=80, deadline=None)
@given(st.floats(-45, 60), st.floats(1, 100), st.floats(0, 5), st.floats(0, 20))
def test_doubt_by_finite_differences(air, humidity, u_air, u_humidity):
    def slope(f, x, step=1e-4):
        return (f(x + step) - f(x - step)) / (2 * step)

    by_air = slope(lambda t: weather.dew_point(t, humidity), air)
    by_humidity = slope(lambda h: weather.dew_point(air, h), humidity)
    expected = hypot(by_air * u_air, by_humidity * u_humidity)
    assert weather.dew_doubt(air, humidity, u_air, u_humidity) == pytest.approx(expected, rel=1e-5, abs=1e-9)


def test_doubt_by_drawing():
    rng = np.random.default_rng(12)
    pairs = zip(rng.normal(20, 0.5, 20_000), rng.normal(50, 3, 20_000), strict=True)
    drawn = [weather.dew_point(air, humidity) for air, humidity in pairs]
    assert np.std(drawn) == pytest.approx(made()["u_dew"], rel=0.03)


@pytest.mark.parametrize("z", [-4, -1.97, -1.9, 0, 1.9, 1.97, 4])
def test_a_margin_near_its_limit_is_too_close_to_call(z):
    first = made()
    u = first["judged"][0]["u"]
    found = made(steel=first["dew_point"] + 3 + z * u)
    word = "inside" if z >= 1.97 else "outside" if z <= -1.97 else "too close to call"
    assert found["verdict"] == found["judged"][0]["verdict"] == word
    assert found["judged"][0]["chance_inside"] == pytest.approx(norm.cdf(z), abs=1e-9)


@pytest.mark.parametrize("z", [-4, -1.97, -1.9, 0, 1.9, 1.97, 4])
def test_a_humidity_near_its_limit_is_too_close_to_call(z):
    found = made(humidity={"value": 85 - z * 3, "u": 3})
    word = "inside" if z >= 1.97 else "outside" if z <= -1.97 else "too close to call"
    assert found["judged"][1]["verdict"] == word


def test_without_doubt_the_limit_itself_counts():
    exact = made(humidity={"value": 85, "u": 0}, air={"value": 20, "u": 0}, steel={"value": 40, "u": 0})
    assert [one["verdict"] for one in exact["judged"]] == ["inside", "inside"]
    above = made(humidity={"value": 85.01, "u": 0})
    assert above["judged"][1]["verdict"] == "outside"


def test_steel_below_the_dew_point_and_frost():
    wet = made(steel=2)
    assert wet["verdict"] == "outside"
    assert "below the dew point" in wet["say"][0]
    assert "Water settles on it" in wet["say"][0]
    frosty = made(air=-3, humidity=90, steel=0)
    assert any("frost can lie on it" in sentence for sentence in frosty["say"])
    assert any("true frost point lies a little higher" in sentence for sentence in frosty["say"])
    assert not any("frost" in sentence for sentence in made(steel=0.1)["say"])


def test_saturated_air_has_its_own_temperature_as_dew_point():
    for air in (-45, -10, 0, 20, 60):
        assert weather.dew_point(air, 100) == pytest.approx(air, abs=1e-9)


def test_inches_add_fahrenheit():
    said = " ".join(made(show="in")["say"]).replace("\u00a0", " ")
    assert "9.3 °C (48.7 °F)" in said  # 9.255 °C · 9/5 + 32
    assert "3 K (5.4 °F)" in said
