"""Measured figures: a number, or {"value", "u"} with its standard uncertainty in the same unit."""

from typing import Any


def parted(measured: float | dict[str, Any], usual: float) -> tuple[float, float]:
    """(value, u) of a measured figure; u is the `usual` one where none is stated."""
    if isinstance(measured, dict):
        return float(measured["value"]), float(measured.get("u", usual))
    return float(measured), usual
