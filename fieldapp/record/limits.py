"""Amounts of an entry in millimetres, and whether a range of a sheet holds them."""

from collections.abc import Sequence

from fieldapp.record.entries import Json

NM = 1_000_000  # nanometres in a millimetre


def mm(entry: Json, key: str) -> float | None:
    """A length of the entry's value, mm; None where it has none."""
    value = entry.get("value", {})
    return value[key] / NM if key in value else None


def holds(limits: Sequence[float | None] | None, x: float | None) -> bool:
    """Whether low … high hold x, the limits themselves included; a side or an x that is None asks nothing."""
    if limits is None or x is None:
        return True
    low, high = limits
    return (low is None or x >= low) and (high is None or x <= high)
