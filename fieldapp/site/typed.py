"""What people type: a measured figure as one of the crew would say it, and the entry's value from that text."""

import re

from fieldapp.trade import lengths

NM = lengths.NM_PER_MM
SIXTEENTH = 25.4 / 16
BARE = re.compile(r"-?\d+([.,]\d+)?")
SIGNS = {"1": "", "Cel": "°C", "deg": "°"}  # of a unit's UCUM code, where people write another
LONG = 300.0  # mm; above it a person who thinks in inches types inches


def length_text(mm: float, habit: str) -> str:
    """A length as typed by somebody whose `habit` is `mm` or `in`: to 0.1 mm or half a millimetre, or to 1/16 in.

    With its unit, as a phone keeps what is typed.
    """
    if habit == "in" and abs(mm) > LONG:
        return _inches(mm)
    shown = round(mm * 2) / 2 if abs(mm) > LONG else round(mm, 2 if abs(mm) < LONG / 100 else 1)
    return f"{shown:g} mm"


def _inches(mm: float) -> str:
    sixteenths = round(abs(mm) / SIXTEENTH)
    whole, rest = divmod(sixteenths, 16)
    below = 16
    while rest and rest % 2 == 0:
        rest, below = rest // 2, below // 2
    text = f"{whole} {rest}/{below} in" if rest else f"{whole} in"
    return f"-{text}" if mm < 0 else text


def length(text: str) -> dict[str, object]:
    """The value of a `reading` entry of a length; one typed without a unit gets millimetres put behind it."""
    typed = f"{text} mm" if BARE.fullmatch(text) else text
    return {"text": typed, "nm": lengths.read(typed)}


def level(first: float, second: float, over: float) -> dict[str, object]:
    """The value of a level reading turned end for end: both as typed, their mean a half away from zero."""
    texts = [f"{round(mm * 2) / 2:g} mm" for mm in (first, second)]
    nm = [lengths.read(text) for text in texts]
    total = nm[0] + nm[1]
    mean = (abs(total) + 1) // 2 * (1 if total >= 0 else -1)
    return {"text": "; ".join(texts), "nm": mean, "over": round(over * NM), "reversed": True}


def number(value: float, ucum: str) -> dict[str, object]:
    """The value of a `reading` entry of a number."""
    shown = round(value, 1)
    sign = SIGNS.get(ucum, ucum)
    return {"text": f"{shown:g} {sign}".strip(), "number": int(shown) if shown == int(shown) else shown, "ucum": ucum}
