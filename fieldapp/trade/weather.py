"""Dew point: will the steel be wet.

Magnus over water: gamma = ln(RH/100) + a*T/(b + T), dew point = b*gamma/(a - gamma), vapour pressure =
6.112 * exp(a*T/(b + T)) * RH/100 hPa, with a 17.62 and b 243.12 degC, for -45 to +60 degC (WMO-No. 8, annex: from
memory; the constants seen second-hand). Below 0 degC air the true frost point lies a little higher.
"""

from math import exp, hypot, log
from typing import Any

from fieldapp.trade.estimate.band_values import tidy
from fieldapp.trade.estimate.chance import judged
from fieldapp.trade.lengths import Show
from fieldapp.trade.measured import parted
from fieldapp.trade.weather_say import SCOPE, sentences

Json = dict[str, Any]

A, B = 17.62, 243.12  # dimensionless, degC
SATURATED_AT_0 = 6.112  # hPa


def _gamma(air: float, humidity: float) -> float:
    return log(humidity / 100) + A * air / (B + air)


def dew_point(air: float, humidity: float) -> float:
    """Dew point in degC of air (degC) at a relative humidity (%)."""
    gamma = _gamma(air, humidity)
    return B * gamma / (A - gamma)


def vapour_pressure(air: float, humidity: float) -> float:
    """Pressure of the water vapour in hPa, of air (degC) at a relative humidity (%)."""
    return SATURATED_AT_0 * exp(A * air / (B + air)) * humidity / 100


def dew_doubt(air: float, humidity: float, u_air: float, u_humidity: float) -> float:
    """Standard uncertainty of the dew point in K; of air in K, of the humidity in per cent of it."""
    by_gamma = A * B / (A - _gamma(air, humidity)) ** 2
    return hypot(by_gamma * A * B / (B + air) ** 2 * u_air, by_gamma * u_humidity / humidity)


def dewpoint(given: Json, table: Json) -> Json:
    """How far the steel stands above the dew point (contract: dewpoint).

    given: air and steel (degC), humidity (%), each a number or {"value", "u"} (u in K, K, %), and where
    known needs (K), show. table: seed_data/tables/weather.toml.
    """
    show: Show = given.get("show", "mm")
    air, u_air = parted(given["air"], table["u"]["air"])
    humidity, u_humidity = parted(given["humidity"], table["u"]["humidity"])
    steel, u_steel = parted(given["steel"], table["u"]["steel"])
    dew, u_dew = dew_point(air, humidity), dew_doubt(air, humidity, u_air, u_humidity)
    margin = judged("margin", tidy(steel - dew), hypot(u_dew, u_steel), given.get("needs", table["needs"]), None)
    damp = judged("humidity", humidity, u_humidity, None, table["humidity_most"])
    return {"dew_point": dew, "u_dew": u_dew, "margin": margin["estimate"],
            "vapour_pressure": vapour_pressure(air, humidity), "verdict": margin["verdict"],
            "judged": [margin, damp], "scope": SCOPE, "say": sentences(margin, damp, dew, steel, air, show)}
