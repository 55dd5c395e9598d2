"""One amount inside a typed length: a number, a fraction, or a number and a fraction. Exact.

Twin: static/phone/lengths_amount.js.
"""

import re
from dataclasses import dataclass
from fractions import Fraction

NUMBER = (r"(?:[1-9][0-9]{0,2}(?:(?:,[0-9]{3})+(?:\.[0-9]+)?|(?:\.[0-9]{3})+,[0-9]+|(?:\.[0-9]{3}){2,}"
          r"|(?: [0-9]{3})+(?:[.,٫][0-9]+)?|(?:٬[0-9]{3})+(?:[.,٫][0-9]+)?)|[0-9]+[.,٫]?[0-9]*|[.,٫][0-9]+)")
_VULGAR = {
    "½": "1/2", "⅓": "1/3", "⅔": "2/3", "¼": "1/4", "¾": "3/4", "⅕": "1/5",
    "⅖": "2/5", "⅗": "3/5", "⅘": "4/5", "⅙": "1/6", "⅚": "5/6", "⅐": "1/7",
    "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8", "⅑": "1/9", "⅒": "1/10",
}
_SIGNS = "".join(_VULGAR)
# Five groups: a number; what joins it to a fraction; that fraction; a fraction sign touching the number; or
# a fraction alone. Only a sign may touch: 361/2 is 361 halves.
AMOUNT = f"(?:({NUMBER})(?:( ?- ?| )([0-9]+/[0-9]+|[{_SIGNS}])|([{_SIGNS}]))?|([0-9]+/[0-9]+|[{_SIGNS}]))"
DENOMINATORS = (2, 4, 8, 16, 32, 64)
_COMMA_AND_THREE = re.compile("[1-9][0-9]{0,2},[0-9]{3}")


class Fault(Exception):
    """The writing breaks a rule; the argument is a key of lengths_text.SENTENCES."""


class Doubt(Exception):
    """The writing can be read in two ways."""

    def __init__(self, first: str, second: str) -> None:
        self.readings = (first, second)


@dataclass(frozen=True)
class Amount:
    """The five groups of AMOUNT, as matched."""

    typed: str | None
    join: str | None
    apart: str | None
    touching: str | None
    alone: str | None

    @property
    def number(self) -> str:
        """The number as plain digits with at most one point; empty when there is only a fraction."""
        return plain(self.typed or "")

    @property
    def fraction(self) -> str:
        """The fraction, as in 13/32; empty when there is none."""
        found = self.apart or self.touching or self.alone or ""
        return _VULGAR.get(found, found)

    @property
    def text(self) -> str:
        """Number and fraction in plain writing, as in 36 1/2."""
        return f"{self.number} {self.fraction}".strip()

    @property
    def whole(self) -> bool:
        """Whether the number was typed without a decimal mark."""
        return self.number.isdigit() and (self.typed or "")[-1:].isdigit()

    def value(self) -> Fraction:
        """The exact value. Fault or Doubt where the writing allows none, or two."""
        part = _part(self.fraction) if self.fraction else Fraction(0)
        if self.fraction and self.typed and not self.whole:
            raise Fault("decimals")
        if self.typed and _COMMA_AND_THREE.fullmatch(self.typed):
            raise Doubt(self.number, self.number.replace(".", ""))
        number = Fraction(self.number or 0)
        if self.join and "-" in self.join and " " in self.join:
            raise Doubt(self.text, mixed(number - part))
        return number + part


def plain(typed: str) -> str:
    """`1,234.5`, `1.234,5`, `1 234,5`, `.5`, `5.` as digits with at most one point: 1234.5, 0.5, 5."""
    marks = re.sub("[0-9 ٬]", "", typed)
    digits = re.sub("[ ٬]", "", typed)
    if len(marks) > 1:  # the first kind parts groups of three; a last one of another kind is the decimal mark
        digits = digits.replace(marks[0], "")
    whole, _, decimals = re.sub("[,٫]", ".", digits).partition(".")
    return f"{whole or '0'}.{decimals}" if decimals else whole


def mixed(value: Fraction) -> str:
    """A value as whole and part, as in 35 1/2, -1/2, 0."""
    whole, rest = divmod(abs(value), 1)
    words = [str(whole)] if whole or not rest else []
    words += [f"{rest.numerator}/{rest.denominator}"] if rest else []
    return ("-" if value < 0 else "") + " ".join(words)


def _part(fraction: str) -> Fraction:
    above, below = map(int, fraction.split("/"))
    if below not in DENOMINATORS:
        raise Fault("denominator")
    if above >= below:
        raise Fault("improper")
    return Fraction(above, below)
