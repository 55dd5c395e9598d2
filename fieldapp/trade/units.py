"""Units at the boundary: pint converts a figure whose unit is known. It never reads typed text.

The registry takes a second or so to build, so it is built when the first figure needs it.
"""

from functools import cache
from typing import TYPE_CHECKING

from fieldapp.trade.estimate.band_values import tidy
from fieldapp.trade.lengths import Show, fill

if TYPE_CHECKING:
    from pint import UnitRegistry

_SPACE = "\u00a0"
# unit as said: (pint's name, the unit said beside it to those who read inches, pint's name of that)
_BESIDE = {"kg": ("kg", "lb", "lb"), "N": ("N", "lbf", "lbf"), "m/s": ("m/s", "mph", "mph"),
           "°C": ("degC", "°F", "degF"), "K": ("delta_degC", "°F", "delta_degF"),
           "mL": ("mL", "fl\u00a0oz", "fluid_ounce")}


@cache
def _registry() -> "UnitRegistry[float]":
    from pint import UnitRegistry

    return UnitRegistry()


def convert(value: float, given: str, wanted: str) -> float:
    """`value` of the unit `given` in the unit `wanted`, both by pint's names; without the dust of binary sums."""
    return tidy(float(_registry().Quantity(value, given).to(wanted).magnitude))


def amount(value: float, unit: str, show: Show) -> str:
    """An amount as people read it, to 0.1: `37.6 kg`; for those who read inches `37.6 kg (82.8 lb)`."""
    said = _one(value, unit)
    if show == "mm":
        return said
    known, beside, name = _BESIDE[unit]
    return f"{said} ({_one(convert(value, known, name), beside)})"


def _one(value: float, unit: str) -> str:
    return fill("{value|n}", {"value": value}, "mm") + _SPACE + unit
