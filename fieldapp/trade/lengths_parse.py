"""The grammar of a typed length: evened text in, an exact number of nanometres out.

Twin: static/phone/lengths_parse.js.
"""

import re
from fractions import Fraction

from .lengths_amount import AMOUNT, NUMBER, Amount, Doubt, Fault, plain

# Nanometres of a unit. The inch is exactly 25.4 mm, the foot 12 of them (international yard and pound
# agreement of 1959; NIST SP 811, 2008, appendix B).
UNITS = {"mm": 1_000_000, "cm": 10_000_000, "m": 1_000_000_000, "in": 25_400_000, "ft": 304_800_000}

_WORDS = {"mm": "mm|millimet(?:re|er)s?", "cm": "cm|centimet(?:re|er)s?", "m": "m|met(?:re|er)s?",
          "in": r"in\.?|inch|inches|\"", "ft": r"ft\.?|foot|feet|'"}
_UNIT = "|".join(_WORDS.values())
_ONE = re.compile(f"{AMOUNT}(?: ?({_UNIT}))?")
_FEET = re.compile(f"{AMOUNT} ?({_WORDS['ft']})( ?- ?| ?){AMOUNT}(?: ?(?:{_WORDS['in']}))?")
_PAIR = re.compile(f"({NUMBER}) {AMOUNT}(?: ?({_UNIT}))?")
_TWO_UNITS = re.compile(f"{AMOUNT} ?(?:{_UNIT})[ -]*{AMOUNT} ?(?:{_UNIT})")
_OTHER_UNIT = re.compile(f"{AMOUNT} ?[a-zµμ]+[.]?")
_SIGN = re.compile("([+-]) ?(.*)", re.DOTALL)
_PARTS = 5  # groups of AMOUNT


def nanometres(text: str) -> Fraction:
    """Evened text to nanometres, exact. Fault or Doubt where it allows no reading, or two."""
    signed = _SIGN.fullmatch(text)
    sign, rest = (signed[1], signed[2]) if signed else ("", text)
    if rest.startswith(("+", "-")):
        raise Fault("signs")
    try:
        size = _size(rest)
    except Doubt as doubt:
        minus = "-" if sign == "-" else ""
        raise Doubt(*((minus + reading).replace("--", "") for reading in doubt.readings)) from None
    return -size if sign == "-" else size


def _size(text: str) -> Fraction:
    if found := _ONE.fullmatch(text):
        *parts, word = found.groups()
        return _one(Amount(*parts), _unit(word))
    if found := _FEET.fullmatch(text):
        groups = found.groups()
        touching = groups[_PARTS] == "ft." and not groups[_PARTS + 1]
        return _feet_and_inches(Amount(*groups[:_PARTS]), touching, Amount(*groups[_PARTS + 2:]))
    if found := _PAIR.fullmatch(text):
        first, *parts, word = found.groups()
        raise Doubt(*_pair(plain(first), Amount(*parts), _unit(word)))
    if _TWO_UNITS.fullmatch(text):
        raise Fault("units")
    raise Fault("unit" if _OTHER_UNIT.fullmatch(text) else "unreadable")


def _unit(word: str | None) -> str:
    """The short name of a unit's word, empty for none."""
    return next(unit for unit, words in _WORDS.items() if re.fullmatch(words, word)) if word else ""


def _one(amount: Amount, unit: str) -> Fraction:
    unit = unit or ("in" if amount.fraction else "mm")
    return _said(amount, f"{{}} {unit}") * UNITS[unit]


def _feet_and_inches(feet: Amount, touching: bool, inches: Amount) -> Fraction:
    whole = _said(feet, f"{{}} ft {inches.text} in")
    if feet.fraction or not feet.whole:
        raise Fault("feet")
    if touching and inches.typed == inches.text:
        # 3ft.5: the point may end the foot's word or begin the inches
        raise Doubt(f"{feet.text} ft {inches.text} in", f"{feet.text} ft 0.{inches.text} in")
    part = _said(inches, f"{feet.text} ft {{}} in")
    if part >= 12:
        raise Fault("inches")
    return whole * UNITS["ft"] + part * UNITS["in"]


def _said(amount: Amount, whole: str) -> Fraction:
    """The amount's value; its doubt, if any, is put into the writing of the whole length."""
    try:
        return amount.value()
    except Doubt as doubt:
        raise Doubt(*map(whole.format, doubt.readings)) from None


def _pair(first: str, second: Amount, unit: str) -> tuple[str, str]:
    """What two bare numbers may have been meant as: feet and inches, digits torn apart, a lost point."""
    digits = first.isdigit() and second.whole
    name = unit or ("in" if second.fraction else "mm")
    if digits and unit in ("", "in") and int(second.number) < 12:
        return f"{first} ft {second.text} in", f"{first}{second.text} {name}"
    if digits and not second.fraction:
        return f"{first}{second.number} {name}", f"{first}.{second.number} {name}"
    return f"{first} {name}", f"{second.text} {name}"
