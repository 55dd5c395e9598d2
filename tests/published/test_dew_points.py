"""Dew points against published constants and figures, and against another formula."""

from math import exp, log

import pytest
from scipy.optimize import brentq

from fieldapp.trade.weather import dew_point, vapour_pressure


@pytest.mark.parametrize(
    ("air", "humidity", "dew"),
    [(20, 50, 9.26), (25, 60, 16.69), (10, 85, 7.59), (30, 80, 26.17), (5, 90, 3.50), (0, 90, -1.45), (35, 70, 28.71)],
)
def test_worked_values(air, humidity, dew):
    # worked by hand from the Magnus constants of WMO-No. 8, annex (from memory; the constants seen second-hand)
    assert round(dew_point(air, humidity), 2) == dew


def test_a_published_value_with_other_constants():
    # dp.2.leif.top/explanation: 25 degC, 60 %: 16.70 with 17.625 and 243.04 (Alduchov and Eskridge 1996)
    assert dew_point(25, 60) == pytest.approx(16.70, abs=0.01)


@pytest.mark.parametrize(
    ("a", "b", "within"),
    [
        (17.625, 243.04, 0.011),  # Alduchov and Eskridge 1996, constants as at dp.2.leif.top/explanation
        (17.27, 237.7, 0.07),  # the older pair, from memory
    ],
)
def test_other_sets_of_constants_differ_by_little(a, b, within):
    for air in range(-5, 46, 5):
        for humidity in range(30, 96, 5):
            gamma = log(humidity / 100) + a * air / (b + air)
            assert dew_point(air, humidity) == pytest.approx(b * gamma / (a - gamma), abs=within)


def saturated(celsius):
    """hPa over water by Hyland and Wexler 1983 (ASHRAE Handbook Fundamentals, chapter 1; coefficients from memory)."""
    t = celsius + 273.15
    return exp(-5.8002206e3 / t + 1.3914993 - 4.8640239e-2 * t + 4.1764768e-5 * t**2 - 1.4452093e-8 * t**3
               + 6.5459673 * log(t)) / 100


def test_against_another_formula():
    for air in range(0, 61, 5):
        for humidity in (30, 50, 70, 90, 100):
            if (made := dew_point(air, humidity)) >= 0:
                wet = saturated(air) * humidity / 100
                assert made == pytest.approx(brentq(lambda t, w=wet: saturated(t) - w, -60, 70), abs=0.1)
                assert vapour_pressure(air, humidity) == pytest.approx(wet, rel=0.005)


def test_saturated_pressure():
    # 23.33 hPa at 20 degC, worked by hand; steam tables have 23.39 (from memory), the formula is 0.3 % low there
    assert round(vapour_pressure(20, 100), 2) == 23.33
    assert vapour_pressure(20, 100) == pytest.approx(23.39, rel=0.004)
    # 0.01 degC: 6.117 hPa, the triple point of water (from memory)
    assert vapour_pressure(0.01, 100) == pytest.approx(6.117, rel=0.001)
