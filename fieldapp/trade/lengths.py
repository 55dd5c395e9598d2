"""Lengths, as people type them and as they are said. `read` is exact: whole nanometres, never a float.

Twin: static/phone/lengths.js; both read the case file tests/twins/lengths.json. What is typed is evened out
in lengths_text, taken apart in lengths_parse and lengths_amount; lengths_say says it.
"""

import math
from fractions import Fraction

from .lengths_amount import Doubt, Fault
from .lengths_parse import nanometres
from .lengths_say import NM_PER_MM, Show, fill, round_away, say, say_fine, say_up
from .lengths_text import MOST_CHARACTERS, MOST_DIGITS, LengthError, evened, number_text, shown

__all__ = ["MOST_MM", "NM_PER_MM", "LengthError", "Show", "fill", "read", "say", "say_fine", "say_up", "shown"]

MOST_MM = 100_000
_MOST_NM = MOST_MM * NM_PER_MM


def read(value: object) -> int:
    """A length in whole nanometres, a half away from zero: a number is millimetres, a text is read as typed.

    Raises LengthError, and nothing else, for whatever is no length: its text is a sentence, its `readings`
    are both readings where there are two. The digits of a number are the machine's, not a person's, so the
    limit of 15 digits holds for text only.

    >>> read(914), read("36 1/2"), read("3' 0 1/2\\""), read("1/64 in")
    (914000000, 927100000, 927100000, 396875)
    """
    exact = _text(value) if isinstance(value, str) else _number(value)
    if abs(exact) > _MOST_NM:
        raise LengthError("far", value)
    return round_away(exact)


def _number(value: object) -> Fraction:
    if isinstance(value, bool) or not isinstance(value, (int, float)):
        raise LengthError("kind", value)
    if isinstance(value, int):
        return Fraction(value * NM_PER_MM)
    if not math.isfinite(value):
        raise LengthError("finite", value)
    return Fraction(number_text(value)) * NM_PER_MM


def _text(value: str) -> Fraction:
    if len(value) > MOST_CHARACTERS:
        raise LengthError("long", value)
    text = evened(value)
    if not text:
        raise LengthError("empty", value)
    if sum(character in "0123456789" for character in text) > MOST_DIGITS:
        raise LengthError("digits", value)
    try:
        return nanometres(text)
    except Fault as fault:
        raise LengthError(str(fault), value) from None
    except Doubt as doubt:
        raise LengthError("two ways", value, list(doubt.readings)) from None
