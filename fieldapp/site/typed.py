"""What people type: a measured figure as one of the crew would say it, and the entry's value from that text."""

from fieldapp.trade import lengths

NM = lengths.NM_PER_MM
SIXTEENTH = 25.4 / 16
LONG = 300.0  # mm; above it a person who thinks in inches types inches


def length_text(mm: float, habit: str) -> str:
    """A length as typed by somebody whose `habit` is `mm` or `in`: to 0.1 mm or half a millimetre, or to 1/16 in."""
    if habit == "in" and abs(mm) > LONG:
        return _inches(mm)
    shown = round(mm * 2) / 2 if abs(mm) > LONG else round(mm, 2 if abs(mm) < LONG / 100 else 1)
    return f"{shown:g}"


def _inches(mm: float) -> str:
    sixteenths = round(abs(mm) / SIXTEENTH)
    whole, rest = divmod(sixteenths, 16)
    below = 16
    while rest and rest % 2 == 0:
        rest, below = rest // 2, below // 2
    text = f"{whole} {rest}/{below} in" if rest else f"{whole} in"
    return f"-{text}" if mm < 0 else text


def length(text: str) -> dict[str, object]:
    """The value of a `reading` entry of a length."""
    return {"text": text, "nm": lengths.read(text)}


def level(first: float, second: float, over: float) -> dict[str, object]:
    """The value of a level reading turned end for end: both as typed, their mean a half away from zero."""
    texts = [f"{round(mm * 2) / 2:g}" for mm in (first, second)]
    nm = [lengths.read(text) for text in texts]
    total = nm[0] + nm[1]
    mean = (abs(total) + 1) // 2 * (1 if total >= 0 else -1)
    return {"text": "; ".join(texts), "nm": mean, "over": round(over * NM), "reversed": True}


def number(value: float, ucum: str) -> dict[str, object]:
    """The value of a `reading` entry of a number."""
    shown = round(value, 1)
    return {"text": f"{shown:g}", "number": int(shown) if shown == int(shown) else shown, "ucum": ucum}
