"""What a typed length looks like once its writing is evened out, and what is said when it cannot be read.

Twin: static/phone/lengths_text.js. Both give the same sentences, letter for letter.
"""

import re
import unicodedata
from decimal import Decimal

MOST_CHARACTERS = 40
MOST_DIGITS = 15

# Unicode's White_Space, and the byte order mark that pasted text may begin with. Inside a length only
# the spaces count: a tab or a new line parts two things that were copied together.
_AROUND = "\t-\r \x85\xa0\u1680\u2000-\u200a\u2028\u2029\u202f\u205f\u3000\ufeff"
_TRIM = re.compile(f"^[{_AROUND}]+|[{_AROUND}]+$")
_SPACES = re.compile("[ \xa0\u1680\u2000-\u200a\u202f\u205f\u3000]+")
_MARKS = str.maketrans("′‘’″“”⁄∕−", "'''\"\"\"//-")
# Control characters, halves of surrogate pairs and what turns the direction of writing are not shown raw.
_UNSHOWABLE = re.compile("[\x00-\x1f\x7f-\x9f\u2028-\u202e\u2066-\u2069\ud800-\udfff]")

SENTENCES = {
    "empty": "“{given}” holds no length: type one, as in 914 mm, 36.5, 36 1/2 in, 3 ft 6 in.",
    "kind": "{given} is no length: give a number of millimetres, or text such as 36 1/2 in.",
    "finite": "{given} is no length: give a finite number of millimetres.",
    "long": "“{given}” is longer than 40 characters: type one length, as in 36 1/2 in.",
    "digits": "“{given}” has more than 15 digits: type only those that were measured, as in 914.4 mm.",
    "two ways": "“{given}” can be read as {first} or as {second}: type the one that is meant.",
    "signs": "“{given}” has two signs: put at most one in front, as in -36 1/2 in.",
    "denominator": "“{given}” has a fraction that no tape has: use 2, 4, 8, 16, 32 or 64, as in 13/32 in.",
    "improper": "“{given}” has a fraction of one or more: type whole inches and a part, as in 37 1/8 in.",
    "decimals": "“{given}” has decimals and a fraction: type one of them, as in 36.5 in or 36 1/2 in.",
    "feet": "“{given}” has parts of a foot and inches: before inches feet are whole, as in 3 ft 6 in.",
    "inches": "“{given}” has 12 inches or more after the feet: they stay under 12, as in 3 ft 6 1/2 in.",
    "units": "“{given}” has two units: only feet and inches may stand together; type one, as in 1200 mm.",
    "unit": "“{given}” has an unknown unit: use mm, cm, m, in or ft, as in 914 mm.",
    "far": "“{given}” is beyond 100 m: a length lies between -100 m and 100 m.",
    "unreadable": "“{given}” cannot be read as a length: type one, as in 914 mm, 36.5, 36 1/2 in, 3 ft 6 in.",
}


class LengthError(ValueError):
    """A length that cannot be read. `str` of it is the whole sentence: what was given, what would be right.

    `code` is a key of SENTENCES; `readings` holds both readings as texts where there are two, else nothing.
    """

    def __init__(self, code: str, given: object, readings: list[str] | None = None) -> None:
        self.code, self.readings = code, list(readings or [])
        first, second = self.readings or ("", "")
        super().__init__(SENTENCES[code].format(given=shown(given), first=first, second=second))


def shown(given: object) -> str:
    """At most 40 characters of what was given, fit for a sentence."""
    text = given if isinstance(given, str) else _named(given)
    clipped = text[:MOST_CHARACTERS] + ("…" if len(text) > MOST_CHARACTERS else "")
    return _UNSHOWABLE.sub("\ufffd", clipped)


def _named(given: object) -> str:
    if given is None or isinstance(given, bool):
        return {None: "null", True: "true", False: "false"}[given]
    if isinstance(given, int):
        size = abs(given)
        # the foremost digits are enough, and str() refuses very long numbers
        spare = max(0, int(size.bit_length() * 0.30103) - 2 * MOST_CHARACTERS)
        return ("-" if given < 0 else "") + str(size // 10**spare)
    if isinstance(given, float):
        return number_text(given)
    return "a list" if isinstance(given, (list, tuple)) else "an object"


def number_text(value: float) -> str:
    """The shortest decimal writing of a number, without exponent: 914, 0.0000001, NaN, -Infinity."""
    if value != value:
        return "NaN"
    if abs(value) == float("inf"):
        return "Infinity" if value > 0 else "-Infinity"
    text = format(Decimal(float.__repr__(float(value))), "f")
    text = text.rstrip("0").rstrip(".") if "." in text else text
    return "0" if text == "-0" else text


def evened(text: str) -> str:
    """The text trimmed, in lower case, with plain digits, `-`, `'`, `"`, `/` and single spaces."""
    text = _SPACES.sub(" ", _TRIM.sub("", text)).translate(_MARKS).replace("''", '"')
    return "".join(map(_plain, text)).lower()


def _plain(character: str) -> str:
    if character.isascii():
        return character
    if unicodedata.category(character) == "Pd":
        return "-"
    digit = unicodedata.decimal(character, None)
    return character if digit is None else str(digit)
