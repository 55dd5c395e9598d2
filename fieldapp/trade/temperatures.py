"""Temperatures as people type them."""

import re

from fieldapp.trade.lengths_text import MOST_CHARACTERS, evened, shown
from fieldapp.trade.units import convert

_TYPED = re.compile(r"([+-]?) ?([0-9]+[.,]?[0-9]*|[.,][0-9]+)(?: ?(°? ?[cf]))?")
_SIGNS = str.maketrans({"℃": "°c", "℉": "°f", "º": "°", "˚": "°"})


def read(value: str) -> float:
    """Degrees Celsius of a typed temperature: with C, F, °C, °F, or with none of them, which is °C.

    Comma or point; white space around and case do not matter; digits of any script, any dash. Raises
    ValueError with a sentence for whatever is no temperature.
    """
    found = _TYPED.fullmatch(evened(value).translate(_SIGNS)) if len(value) <= MOST_CHARACTERS else None
    if found is None:
        raise ValueError(f"“{shown(value)}” is no temperature: type one, as in 12.5, 12.5 °C or 54 °F.")
    degrees = float(f"{found[1]}{found[2].replace(',', '.')}")
    return convert(degrees, "degF", "degC") if (found[3] or "").endswith("f") else degrees + 0.0
