"""Fields that are temperatures: read as people type them, kept in degrees Celsius."""

from typing import Any

from fieldapp.trade.temperatures import read
from fieldapp.work.fields import Asked, Doubted, Json, Number, range_words


class Temperature(Asked):
    """A number of °C, or text with C, F, °C, °F or none of them. Becomes °C."""

    def __init__(self, say: str, least: float, most: float, **more: Any):
        self.least, self.most = least, most
        self.number = Number(say, "°C", least, most)
        self.right = f"a temperature, {range_words(least, most, '°C')}, as 12.5 or “54 °F”"
        super().__init__(say, **more)

    def shape(self) -> Json:
        return {"anyOf": [self.number.shape(), {"type": "string", "minLength": 1, "maxLength": 40}]}

    def take(self, value: Any) -> float:
        if not isinstance(value, str):
            return float(self.number.take(value))
        try:
            degrees = read(value)
        except ValueError:
            raise self.refuse(value) from None
        if not self.least <= degrees <= self.most:
            raise self.refuse(value)  # as it was typed, not as it was turned into °C
        return degrees


def temperature(say: str, least: float, most: float) -> Doubted:
    """A temperature, or {"value": temperature, "u": K}."""
    return Doubted(Temperature(say, least, most), doubt("K"), '{"value": temperature, "u": K}')


def doubt(unit: str) -> Number:
    """A standard uncertainty that is no length."""
    return Number("standard uncertainty", unit, 0, 100, needed=False)
